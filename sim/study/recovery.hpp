#pragma once
// Behind or ahead: what brings the line back, each move tried on the same luck as going on as usual.

#include <cstdint>
#include <string>
#include <vector>

#include "sim/replication/opening.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/paired.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

struct Move { std::string what{}; Course course{}; };

/// Moves worth trying from so many batches ahead (negative: behind), in words of the scenario's units. Empty when it is within half a batch.
std::vector<Move> moves(const Scenario& scenario, const Opening& opening, double ahead);

/// What a move changes over the whole run, mean of the paired differences with 95 % intervals (Student's t).
struct Tried {
  std::string what{};
  Estimate money{};             ///< all that is spent [currency]
  Estimate loss{};              ///< money, plus fodder that nobody made up at the reserve's price, less the grain that grows on the rack at the end [currency]
  Estimate short_feedings{};
  Estimate missing{};           ///< fodder wanted and not served [kg]
  /// Against going on as usual: is more fed, or less, or is no difference shown?
  enum class Verdict { feeds_more, alike, both_ways, feeds_less } verdict = Verdict::alike;
};

struct Recovery {
  std::uint32_t replications = 0;
  int days = 0;
  Estimate short_feedings{}, missing{};  ///< of going on as usual
  double wanted_a_day = 0.0;    ///< mean [kg]
  std::vector<Tried> tried{};   ///< by verdict, then the least fodder missing, then the least loss
};

/// Moves in the order in which they are to be thought of. First those that are shown to feed more than going on as usual, last those
/// that make meals short which would not be; a difference of less than a hundredth of what a day wants
/// or of what is missing as usual, of less than a meal in ten plays or a hundredth of those short as usual, is none.
void rank(Recovery& recovery);

/// `scenario`: from the opening's day on (from_day), as lucky as it is; the opening draws luck.
Recovery recover(const Scenario& scenario, const Opening& opening, double ahead, const PairRequest& request);

}  // namespace rackwright::study
