#pragma once
// Numbers that fit together but lie outside what keepers do, or outside what the models are known for.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Births sooner than a pregnancy, sowing and soak water out of the usual, a rack too long for its room, grain ordered too late. The
/// scenario has passed check_scenario.
void unusual_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
