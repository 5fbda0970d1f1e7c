#pragma once
// How well a measured record tells each parameter of the climate.

#include <string_view>
#include <vector>

#include "models/climate/record.hpp"

namespace rackwright::climate {

/// How well a record tells what fitted_values lists.
struct FitSpread {
  std::vector<double> half{};  ///< half the width of a 95 % interval of each, in its own unit
  std::vector<double> lacks{}; ///< by how much each falls short on the mean, in its own unit: the wave takes up some of the anomaly's spread and memory. Intervals lie so much higher; 0 for the others

  /// Of the value of that key, which must be one of fitted_values.
  [[nodiscard]] double half_of(std::string_view key) const;
  [[nodiscard]] double short_of(std::string_view key) const;
};

/// By leaving out a 25th of the record, 73 days or more, in turn and fitting the rest (block jackknife, Künsch 1989, Ann. Statist. 17:1217-1241): long against
/// the memory of weather, so that neither memory nor the shape of what is left over is assumed. Expects enough_to_fit of each rest, as a
/// record of years gives; nothing of one shorter than five years: by simulation shorter ones held the mean of climates with slow swings
/// in 89 % only.
std::optional<FitSpread> fit_spread(const Record& record, const Parameters& otherwise);

}  // namespace rackwright::climate
