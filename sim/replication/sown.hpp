#pragma once
// Which of the scenario's grains the line sows.

#include <algorithm>
#include <cstddef>

#include "sim/replication/plan.hpp"

namespace rackwright {

/// Is any batch of the day of that grain of the scenario?
inline bool is_sown(const Plan& plan, std::size_t grain) {
  return std::find(plan.batch_grain.begin(), plan.batch_grain.end(), static_cast<int>(grain)) != plan.batch_grain.end();
}

}  // namespace rackwright
