#pragma once
// Cautions on what is fed, how much of it, and to whom.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Rations and shares above the usual limits (gravely), long fibre, bringing fodder in, young, pregnant animals, horses.
void feeding_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
