#pragma once
// Which groups are there to be fed.

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "models/herd/stay.hpp"
#include "sim/scenario/horizon.hpp"

namespace rackwright {

/// Why no group can leave then, arriving as it does; empty where it can.
inline std::string_view no_leaving(const herd::Stay& stay) {
  if (stay.arrives < 0.0 || stay.leaves < 0.0) return "";
  const double apart = std::abs(stay.arrives - stay.leaves);
  if (apart == 0.0 || (stay.each_year && std::fmod(apart, 365.0) == 0.0)) return "must not be the day on which it arrives";
  if (stay.each_year && apart > 365.0) return "must lie within a year of arrives, where both come again each year";
  return "";
}

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
