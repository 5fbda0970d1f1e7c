#pragma once
// How well a measured record tells each parameter of the climate.

#include "models/climate/record.hpp"

namespace rackwright::climate {

/// Half the width of a 95 % interval of each parameter, in its own unit.
struct FitSpread {
  double mean = 0.0, amplitude = 0.0, peak_day = 0.0;
  double range_mean = 0.0, range_amplitude = 0.0, range_lead = 0.0, range_follow = 0.0;
  double anomaly_sd = 0.0, anomaly_memory = 0.0;
  double anomaly_sd_short = 0.0, anomaly_memory_short = 0.0;  ///< by how much these fall short on the mean: the wave takes up some of them; their intervals lie so much higher
};

/// By leaving out a 25th of the record, 73 days or more, in turn and fitting the rest (block jackknife, Künsch 1989, Ann. Statist. 17:1217-1241): long against
/// the memory of weather, so that neither memory nor the shape of what is left over is assumed. Expects enough_to_fit of each rest, as a
/// record of years gives; nothing of one shorter than five years: by simulation shorter ones held the mean of climates with slow swings
/// in 89 % only.
std::optional<FitSpread> fit_spread(const Record& record, const Parameters& otherwise);

}  // namespace rackwright::climate
