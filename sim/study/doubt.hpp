#pragma once
// How much of what differs from year to year is luck (weather, lots, breakdowns), and how much is ignorance (model parameters that
// nobody has measured). Method: docs/models/ignorance.md.

#include <string_view>
#include <vector>

#include "sim/study/piece_memory.hpp"
#include "sim/study/run.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

/// One quantity, of single replications.
struct Doubt {
  std::string_view quantity, unit;  ///< a column, or success
  double share = 0.0, share_low = 0.0, share_high = 1.0;  ///< of the variance that is ignorance, with a 95 % interval [1]
  Estimate luck{};                  ///< with every parameter at its central value
  Estimate both{};                  ///< of luck and ignorance together
};

/// What one-way random-effects analysis of variance says of pairs that share a group: the share of variance between groups (Fisher's
/// intraclass correlation) with its exact interval for normal values; the share is never below 0.
struct Between { double share = 0.0, low = 0.0, high = 1.0; };
Between between_pairs(const std::vector<double>& first, const std::vector<double>& second);

/// Pairs played for a number of replications; 0: too few to say anything.
std::uint32_t doubt_pairs(std::uint32_t replications);

/// Plays `pairs` pairs of replications with other luck and the same assumptions, and as many at the central values, on the request's random
/// seed and threads, whatever run.ignorance says. Empty when the run was stopped.
/// `memory` (may be nullptr) keeps what was played.
std::vector<Doubt> doubts(const Plan& plan, RunRequest request, std::uint32_t pairs, PieceMemory* memory = nullptr);

}  // namespace rackwright::study
