#pragma once
// How many replications an answer needs: play, look, play on, until the intervals are narrow enough.

#include <atomic>
#include <cstdint>
#include <functional>

#include "sim/replication/plan.hpp"
#include "sim/study/moments.hpp"

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

/// Plays replications from 0 until the fill rate is known to +-`share` and the yearly cost to +-`share` of itself, at most
/// `cap`; replications that break off count as played. `progress` (may be empty) hears how many were played. Stopped early,
/// `reached` is false and `replications` what was done.
Precision replications_for(const Plan& plan, double share, std::uint32_t cap, std::uint64_t random_seed, int threads,
                           const std::atomic<bool>* stop, const std::function<void(std::uint32_t)>& progress);

}  // namespace rackwright::study
