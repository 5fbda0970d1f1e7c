#pragma once
// How many rounds a day the keeper holds.

#include <algorithm>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// 1, the morning's, or 2: as often as animals are fed or a batch is sown.
inline int rounds_a_day(const Scenario& scenario) {
  int rounds = scenario.line.batches_per_day;
  for (const Group& group : scenario.groups)
    if (group.count > 0) rounds = std::max(rounds, group.feedings);
  return rounds;
}

}  // namespace rackwright
