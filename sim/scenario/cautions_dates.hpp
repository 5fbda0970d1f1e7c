#pragma once
// Cautions about what is dated outside the run.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Spells and hard times that lie wholly before or after the run, and first births after it: they do nothing. One sentence each.
void date_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
