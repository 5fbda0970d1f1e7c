#pragma once

#include <cstdint>

namespace rackwright::random {

/// What a draw is for. The numbers are part of every result file's meaning: never change or reuse one, only add.
enum class Purpose : std::uint32_t {
  weather = 1,    ///< daily temperatures; day: the day (entity 1: blocks of a measured record; day: which block)
  humidity = 2,   ///< daily moisture of the outside air; day: the day
  lot = 3,        ///< germination, vigour, moisture of a purchase; entity: the lot's number
  tray = 4,       ///< vigour and spoilage threshold of a tray; entity: sowing slot, day: sowing day
  chore = 5,      ///< was it done, and how late; entity: which chore, day: the day
  failure = 6,    ///< breakdowns and repairs; entity: the machine, day: which breakdown
  birth = 7,      ///< conception, date and litter; entity: the animal
  death = 8,      ///< deaths; entity: the animal
  delivery = 9,   ///< lead times; entity: what is delivered, day: which order
  demand = 10,    ///< day-to-day wants; entity: the group, day: the day
  parameter = 11, ///< uncertain model parameters drawn once a replication; entity: the parameter
  sample = 12,    ///< designs and bootstrap resamples of a study
  test = 13,      ///< tests only
  queue = 14,     ///< the reference queues; entity: 0 arrivals, 1 services
  shortage = 15,  ///< is a grain short in its season; entity: the grain, day: the year
  harvest = 16,   ///< how a brand turned out; entity: the grain, day: the year
  trial = 17,     ///< kernels that sprouted in a trial; entity: the grain, day: the lot's number
};

}  // namespace rackwright::random
