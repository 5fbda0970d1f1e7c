#pragma once
// Whether the water suffices, where it is wasted, and what of it has no say.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Tiers that get too little and what would help, a tank that runs empty, water that runs past the mats, joints passed by suction, and keys that have no
/// say beside an own network. The scenario has passed check_scenario.
void water_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
