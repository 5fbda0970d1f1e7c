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

/// First day (0-based) from which the fill rate of the last 28 days stays below `least` to the end of `rows`; -1 when there
/// is none, or fewer than `tail` days of it: the end of a run says too little of what stays.
int too_small_from(std::span<const DailyRow> rows, double least, int tail = 84);

/// Does any group grow over the years?
bool grows(const Scenario& scenario);

struct RunwayRequest {
  std::uint64_t random_seed = 1;
  std::uint32_t replications = 64;
  int threads = 0;                  ///< 0: all cores
  const std::atomic<bool>* stop = nullptr;
  PieceMemory* memory = nullptr;    ///< keeps what was played
};

/// Of `design` over scenario.choose.look_ahead, on the fortunes of sizing. `others` are designs of the grid that may replace
/// it, as (words, scenario), cheapest first; more trays, a shorter cycle and a second rack (levers.hpp) are tried as well, and each with
/// more of the keeper's minutes. The cheapest that is enough is told.
Runway runway(const Scenario& design, const std::vector<std::pair<std::string, Scenario>>& others,
              const RunwayRequest& request);

/// The runway in sentences.
std::string runway_words(const Runway& runway, const Scenario& design);

}  // namespace rackwright::study
