#pragma once
// Which grain each batch of a day is sown of.

#include <cstddef>
#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Names by batch of the day: `grains` (all of the scenario's where none is named) in turn, as many as there are batches.
std::vector<std::string> sowing_order(const Scenario& scenario, const std::vector<std::string>& grains, int batches);
std::vector<std::string> sowing_order(const Scenario& scenario);

/// Batches of a day that are sown of that grain of the scenario, and the grain they take where every tray is sown [kg/d].
int batches_of(const Scenario& scenario, std::size_t grain);
double most_sown_a_day(const Scenario& scenario, std::size_t grain);

/// That values to choose from for line.grains sow the same grain, so that they are one line under two names.
void same_line_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
