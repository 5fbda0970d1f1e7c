#pragma once
// How many days a run has.

#include <algorithm>
#include <cmath>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Day of the run on which anything of a group may be dated at the latest.
inline constexpr double last_group_day = 4000.0;

/// Whole days of the run, one begun counted as one; at least one.
inline int horizon_days(const Scenario& scenario) { return std::max(1, static_cast<int>(std::ceil(in_days(scenario.run.length)))); }

}  // namespace rackwright
