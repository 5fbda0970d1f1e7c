#pragma once
// What a keeper should know of his plans: choices that cost nothing or are not his, births the run leaves out.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Of what [choose] varies. The scenario has passed check_scenario. Adds to `out`, as does the other.
void choice_cautions(const Scenario& scenario, std::vector<std::string>& out);
/// Of young that may stand there when the run starts and are not counted.
void birth_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
