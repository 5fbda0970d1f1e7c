#pragma once
// What would make a design meet its target: each lever tried by itself on the same fortunes, and judged on others.

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
  bool reaches = false;    ///< and helps by more than luck explains; false: the best that was tried
  double gap = 0.0;        ///< over (under) what is asked, see verdict_words.hpp
  double success = 0.0;    ///< share of years in which the limits taken together hold
  double cost_year = 0.0;
  std::uint32_t years = 0; ///< that it is told of: others than those in which it was found
  std::uint32_t good = 0, good_before = 0;  ///< of them: that meet the limits taken together, and that do so without the change
};

/// Tries the single levers (levers.hpp) step by step, `years` (up to 64) replications each; where none is enough each with more time for the keeper, and then
/// each with the change that helped most. A step that is enough in these is judged again on three times as many fresh years (from choose.most_replications
/// on: sizing played none of them); where it is not enough there, the next steps are tried, each judged on years of its own. What is told is of fresh years
/// alone. Those that reach come first, cheapest first; when none does, the best alone is given. `memory` (may be nullptr) keeps what was tried. A hint of
/// where to look, not a verdict. The design has passed check_scenario.
std::vector<Remedy> remedies(const Scenario& design, std::uint64_t random_seed, std::uint32_t years = 48,
                             const std::atomic<bool>* stop = nullptr, PieceMemory* memory = nullptr);

/// What sowing as many trays as are to be wanted (line.sow) would save a design that sows all, in words, where it surely does and the target still
/// holds in as many years as are asked for; else empty. `years` replications of both on the same fortunes (up to 64), and where these say so three times
/// as many fresh ones, which must say so too and are told.
std::string thrift_words(const Scenario& design, std::uint64_t random_seed, std::uint32_t years = 48, const std::atomic<bool>* stop = nullptr,
                         PieceMemory* memory = nullptr);

/// Do so many years become good, and so many bad, by more than luck? One-sided sign test at 5 % (years alike in both say nothing).
bool beyond_luck(std::uint32_t became_good, std::uint32_t became_bad);

/// "holds in 152 of 192 other years (73 to 84 %; without it 66 %)", with the 95 % score interval; runs in place of years where the run is shorter than one.
std::string holds_words(std::uint32_t good, std::uint32_t good_before, std::uint32_t years, bool whole_years);

/// "line.trays_per_batch = 5 (now 4): the target holds in 180 of 192 other years (89 to 96 %; without it 66 %), at 410 EUR a year".
std::string remedy_words(const Remedy& remedy, const std::string& currency, bool whole_years = true);

}  // namespace rackwright::study
