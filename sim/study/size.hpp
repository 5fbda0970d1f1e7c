#pragma once
// The cheapest design of a grid that meets a target: screen by arithmetic, then replications on common fortunes.

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sim/scenario/scenario.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

/// Why a candidate is out, or in.
enum class Verdict { chosen, meets, fails, costlier, screened, undecided };
std::string_view verdict_name(Verdict verdict);

/// One design tried. Amounts are for 365 days; labour in hours, money in the scenario's currency.
struct Candidate {
  std::vector<std::string> values{}; ///< by choice, as text
  std::optional<double> capital{};   ///< money to build it; none of a design that is no sound scenario
  Verdict verdict = Verdict::undecided;
  std::string why{};                 ///< one sentence for people
  std::uint32_t replications = 0;
  Estimate success{};                ///< share of years that met the limits taken together, score interval
  Estimate fill_rate{}, cost_year{}, short_days{}, spoiled_trays{}, overdue_trays{}, labour{};
  std::array<double, 4> short_seasons{};
  std::vector<Kept> kept{};          ///< each requirement of the target: what was reached, and what was asked
  std::vector<std::pair<std::string, double>> broken{};  ///< limit -> share of failed years that broke it
};

class PieceMemory;  // piece_memory.hpp
class YearMemory;   // year_memory.hpp

/// Runs of one design that sizing needs to show that it meets the target, were it to meet it in all of them; 0 where the target asks for means alone.
std::uint64_t least_replications(const Scenario& scenario, std::size_t designs);

/// That choose.most_replications is too small to show any of so many designs to meet the target, as a sentence without its full stop; empty where it is enough.
std::string too_few_words(const Scenario& scenario, std::size_t designs);

struct SizeRequest {
  std::uint64_t random_seed = 1;
  int threads = 0;
  std::uint32_t first_stage = 16;    ///< replications every unscreened candidate gets
  std::function<void(const std::string& stage, std::size_t done, std::size_t of)> progress{};
  const std::atomic<bool>* stop = nullptr;
  bool advice = true;                ///< also the frontier's steps, remedies and the runway
  YearMemory* memory = nullptr;      ///< years simulated before, and where to keep those simulated now
  PieceMemory* pieces = nullptr;     ///< likewise of the advice
};

/// How long the chosen rack lasts a growing herd.
struct Runway {
  int look_ahead = 0;                ///< [d], whole years; 0: not asked
  std::uint32_t replications = 0;
  std::vector<Estimate> good{};      ///< of each year looked ahead: share of runs in which it reaches the target's fill rate
  int outgrown = -1;                 ///< first day of the first year that no longer does in the share of years asked for; -1: none
  std::string extension{};           ///< the cheapest that is enough then; empty: none
  double extension_success = 0.0;    ///< share of runs in which it is
  Estimate extension_cost{};         ///< more than the chosen design, a year
};

struct SizeResult {
  std::vector<std::string> keys{};   ///< of the choices
  std::vector<Candidate> candidates{};  ///< in grid order
  int chosen = -1;                   ///< index, -1: nothing is shown to meet the target
  int nearest = -1;                  ///< index of the nearest miss when nothing does
  std::vector<int> runners_up{};     ///< cheapest others that meet or nearly meet, at most five
  std::string binding{};             ///< which limit, and in which season, keeps the nearest cheaper design out
  std::string promise{};             ///< what is promised of the choice, in a sentence
  std::vector<int> frontier{};       ///< designs that nothing cheaper serves better than, by cost
  int knee = -1;                     ///< index into candidates of the one where the frontier bends most
  std::vector<std::string> buys{};   ///< what a bit more money buys: steps from the chosen design up the frontier
  std::vector<std::string> help{};   ///< what would make the nearest miss meet the target
  Runway runway{};
  std::string runway_words{};
  std::string thrift{};              ///< what the chosen design would save by sowing as wanted; empty: nothing
  std::uint64_t equal_allocation = 0;  ///< what as many years for every design as the closest contest took would have cost
  bool settled = false;              ///< the whole promise of docs/models/sizing.md holds; else some stay undecided
  bool stopped = false;
  std::uint64_t replications = 0;    ///< spent in all
};

/// The grid: one list of values a candidate, in the order of the choices; the last choice varies fastest. A choice
/// without values gives an empty grid.
std::vector<std::vector<std::string>> grid(const Choose& choose);

/// Why arithmetic alone rules a design out (a rack that does not go into its room, dry tiers, places and mats a day, the route's ceiling, the keeper's
/// minutes), as a sentence; empty when it does not. Assumes the best of luck, so it never discards a design that could be built and
/// meet its target: soak buckets and the keeper's minutes bind in the simulation, too. The design has passed check_scenario.
std::string screen(const Scenario& design);
/// The same with how near it comes: what is to be had over what is needed; 1 when arithmetic does not rule it out, 0 when
/// nothing can be said.
struct Screen { std::string why{}; double reached = 1.0; };
Screen screen_margin(const Scenario& design);

/// Finds the cheapest design. The scenario has passed check_scenario. Throws nothing on bad values of a choice: such a
/// candidate is screened with the reason. The result does not depend on the number of threads.
SizeResult size(const Scenario& scenario, const SizeRequest& request);

}  // namespace rackwright::study
