#pragma once
// What a keeper should know of his plans: choices that cost nothing or are not his, births the run leaves out.

#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Is the quantity, written as a scenario has it and of that native unit, more than nothing?
bool is_some(std::string_view written, std::string_view unit);
/// Of what [choose] varies. The scenario has passed check_scenario. Adds to `out`, as does the other.
void choice_cautions(const Scenario& scenario, std::vector<std::string>& out);
/// Of young that may stand there when the run starts and are not counted.
void birth_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
