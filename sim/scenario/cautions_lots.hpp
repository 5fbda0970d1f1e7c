#pragma once
// What a keeper should know of his lots: keys that do nothing, grades that are overruled, trials that hardly any lot passes.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// The scenario has passed check_scenario. Adds to `out`.
void lot_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
