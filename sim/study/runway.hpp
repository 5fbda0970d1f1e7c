#pragma once
// How long a rack lasts a growing herd: when it becomes too small, and what would be enough by then.

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/piece_memory.hpp"
#include "sim/study/size.hpp"

namespace rackwright::study {

/// Does each whole year of `rows`, counted from the first day, serve at least the share `least` of what is wanted in it? 1 or 0.
std::vector<std::uint8_t> good_years(std::span<const DailyRow> rows, double least);

/// First year (0-based) whose share of good runs lies below `asked`, surely (95 % interval) or along with every year after it: one year below
/// by luck is no herd that outgrew its rack. -1: none.
int outgrown_year(std::span<const Estimate> good, double asked);

/// Does any group grow over the years, or come only after the run that was judged?
bool grows(const Scenario& scenario);

struct RunwayRequest {
  std::uint64_t random_seed = 1;
  std::uint32_t replications = 128;
  int threads = 0;                  ///< 0: all cores
  const std::atomic<bool>* stop = nullptr;
  PieceMemory* memory = nullptr;    ///< keeps what was played
};

/// Of `design` over scenario.choose.look_ahead, in whole years, on the fortunes of sizing. `others` are designs of the grid that may replace
/// it, as (words, scenario), cheapest first; more trays, a shorter cycle and a second rack (levers.hpp) are tried as well, and each with
/// more of the keeper's minutes. The cheapest that is enough is told, of runs other than those it was found in, in which it must be enough as well.
Runway runway(const Scenario& design, const std::vector<std::pair<std::string, Scenario>>& others,
              const RunwayRequest& request);

/// The runway in sentences.
std::string runway_words(const Runway& runway, const Scenario& design);

}  // namespace rackwright::study
