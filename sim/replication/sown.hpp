#pragma once
// Which of the scenario's grains the line sows, and how many trays where it sows as wanted.

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "sim/replication/plan.hpp"

namespace rackwright {

/// Is any batch of the day of that grain of the scenario?
inline bool is_sown(const Plan& plan, std::size_t grain) {
  return std::find(plan.batch_grain.begin(), plan.batch_grain.end(), static_cast<int>(grain)) != plan.batch_grain.end();
}

/// One who sows as wanted reckons with no fewer sound mats than this share of them.
inline constexpr double least_sound = 0.25;

/// Trays of that session's batch where so much is to be wanted on the day it is due [kg fresh] and a tray brings so much of it [kg, > 0]. What is cut
/// and left over does not keep to the next day, so every day has its whole number of mats, the day's first batch the odd one.
inline int trays_as_wanted(const Line& line, double expected, double brings, int session) {
  constexpr double rounding = 1e-9;
  const double most = static_cast<double>(line.trays_per_batch) * line.batches_per_day;
  const int trays = static_cast<int>(std::min(most, std::ceil(expected * (1.0 + line.margin) / brings - rounding)));
  const int first = (trays + line.batches_per_day - 1) / line.batches_per_day;
  return session == 0 ? first : trays - first;
}

}  // namespace rackwright
