#pragma once
// How hot a heat wave may get before a design no longer feeds the animals.

#include <cstdint>

#include "sim/scenario/scenario.hpp"
#include "sim/study/paired.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

/// Temperatures are the highest of the wave outdoors, mean over replications [degC].
struct HeatLimit {
  enum class Kind {
    found,     ///< enough up to `peak`
    never,     ///< not even without any wave: the summer itself is too much
    beyond,    ///< enough even at `peak`, the hottest that was tried
  };
  Kind kind = Kind::never;
  double peak = 0.0, low = 0.0, high = 0.0;  ///< low, high: where the 95 % interval of the fill rate meets the asked one
};

/// Precision of the bisection [K].
inline constexpr double heat_step = 0.25;

/// Bisects how much warmer the wave is, on common fortunes. A design is enough while the share of the fodder wanted that is
/// served, over all replications from the wave's first day until a week after it can no longer show, is at least
/// target.fill_rate. `design` holds one hard time, the wave; its own change is not used. That share is taken to fall as the
/// wave gets hotter.
HeatLimit heat_limit(const Scenario& design, const PairRequest& request);

}  // namespace rackwright::study
