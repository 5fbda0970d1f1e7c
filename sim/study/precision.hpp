#pragma once
// How many replications an answer needs: play, look, play on, until the intervals are narrow enough.

#include <cstdint>
#include <functional>

#include "sim/study/moments.hpp"
#include "sim/study/run.hpp"

namespace rackwright::study {

/// Replications of the first look.
inline constexpr std::uint32_t first_look = 200;
/// Replications of the look after one at n: half as many again.
constexpr std::uint32_t next_look(std::uint32_t n) { return n + n / 2; }

/// Is the 95 % interval of a mean within +-half? Chow & Robbins 1965; the half width allows for the value being looked at
/// often: it is asked to be a tenth narrower, so that the interval at the stopping look covers near 95 % (page Statistics).
bool narrow_enough(const Moments& moments, double half);

struct Precision {
  std::uint32_t replications = 0;   ///< enough, or the cap
  bool reached = false;
  double fill_rate_half = 0.0;      ///< half widths reached: fill rate, and yearly cost as a share of itself
  double cost_half = 0.0;
};

/// Plays `count` replications from `first` on and hands them over; returns how many were done, fewer when stopped.
using PlayRange = std::function<std::uint32_t(std::uint32_t first, std::uint32_t count, const std::function<void(const Block&)>& sink)>;

/// Has replications played from 0 on until the fill rate is known to +-`share` and the yearly cost to +-`share` of itself, at
/// most `cap`; replications that break off count as played. Stopped early, `reached` is false and `replications` what was
/// done.
Precision replications_for(double share, std::uint32_t cap, const PlayRange& play);

}  // namespace rackwright::study
