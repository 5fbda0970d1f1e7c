#pragma once
// Which groups are there to be fed.

#include <string>
#include <vector>

#include "models/herd/stay.hpp"
#include "sim/scenario/horizon.hpp"

namespace rackwright {

/// Is the group here on any day of the run?
inline bool ever_here(const Scenario& scenario, const Group& group) {
  if (!herd::comes_or_goes(group.stay)) return true;
  for (int day = 0; day < horizon_days(scenario); ++day)
    if (herd::presence(group.stay, day).here) return true;
  return false;
}

/// Names of groups of some animals that are not.
inline std::vector<std::string> absent_groups(const Scenario& scenario) {
  std::vector<std::string> names;
  for (const Group& group : scenario.groups)
    if (group.count > 0 && !ever_here(scenario, group)) names.push_back(group.name);
  return names;
}

}  // namespace rackwright
