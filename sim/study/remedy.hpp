#pragma once
// What would make a design meet its target: each lever tried by itself on the same fortunes.

#include <atomic>
#include <cstdint>
#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"
#include "sim/study/piece_memory.hpp"

namespace rackwright::study {

/// The least step of one lever, by itself or with another, with which a design reaches its target.
struct Remedy {
  std::string setting{};   ///< "line.trays_per_batch = 5 (now 4)"
  bool reaches = false;    ///< false: the best that was tried
  double gap = 0.0;        ///< over (under) what is asked, see verdict_words.hpp
  double success = 0.0;    ///< share of years in which the limits taken together hold
  double cost_year = 0.0;
};

/// Tries the single levers (levers.hpp) step by step, `years` replications each; where none is enough each with more time for the keeper, and then
/// each with the change that helped most. Those that reach come first, cheapest first;
/// when none does, the best alone is given. `memory` (may be nullptr) keeps what was tried. A hint of where to look, not a
/// verdict. The design has passed check_scenario.
std::vector<Remedy> remedies(const Scenario& design, std::uint64_t random_seed, std::uint32_t years = 48,
                             const std::atomic<bool>* stop = nullptr, PieceMemory* memory = nullptr);

/// "with line.trays_per_batch = 5 (now 4) the target holds in 94 % of years, at 410 EUR a year".
std::string remedy_words(const Remedy& remedy, const std::string& currency);

}  // namespace rackwright::study
