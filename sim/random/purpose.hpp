#pragma once

#include <cstdint>

namespace rackwright::random {

/// What a draw is for. The numbers are part of every result file's meaning: never change or reuse one, only add.
enum class Purpose : std::uint32_t {
  weather = 1,    ///< daily temperatures; day: the day (entity 1: blocks of a measured record; day: which block)
  humidity = 2,   ///< daily moisture of the outside air, and how its months stray from the climate's; day: the day
  lot = 3,        ///< germination and vigour of a lot; entity: the grain, day: the number of its order
  tray = 4,       ///< germination, spoilage and notice of a tray; entity: its place in the batch, by session (for its notice 2^20 more), day: sowing day
  chore = 5,      ///< is a round missed; day: the day
  failure = 6,    ///< breakdowns and repairs; entity: the machine, day: which breakdown
  birth = 7,      ///< conception, date and litter; entity: group and dam, day: the season
  death = 8,      ///< deaths of a month; entity: the group, day: the day
  delivery = 9,   ///< lead times; entity: the grain, day: the number of the order
  demand = 10,    ///< day-to-day wants; entity: the group, day: the day
  parameter = 11, ///< uncertain model parameters drawn once a replication; entity: the parameter
  sample = 12,    ///< designs, bootstrap resamples and posterior draws of a study: apart from one another by the study's key
  test = 13,      ///< tests only
  queue = 14,     ///< the reference queues; entity: 0 arrivals, 1 services
  shortage = 15,  ///< is a grain short in its season; entity: the grain, day: the year
  harvest = 16,   ///< how a harvest turned out; entity: the grain, day: the year
  trial = 17,     ///< kernels that sprouted in a trial; entity: the grain, day: the lot's number
};

/// How many there are: numbers 1 to this.
inline constexpr std::uint32_t random_purposes = static_cast<std::uint32_t>(Purpose::trial);

}  // namespace rackwright::random
