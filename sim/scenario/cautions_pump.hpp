#pragma once
// What cannot be, or is not meant, about pump, emitters and timer.

#include <string>
#include <vector>

#include "sim/scenario/watering.hpp"

namespace rackwright {

/// A pump that gives more than it takes, emitters that regulate themselves under too little water, a timer that waters all day or too seldom. `watering`
/// must be the scenario's.
void pump_cautions(const Scenario& scenario, const Watering& watering, std::vector<std::string>& out);

}  // namespace rackwright
