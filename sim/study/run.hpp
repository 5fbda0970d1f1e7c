#pragma once
// Many replications in parallel, delivered in order. Memory does not grow with their number.

#include <atomic>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/replication/plan.hpp"
#include "sim/study/bands.hpp"

namespace rackwright::study {

struct RunRequest {
  std::uint64_t random_seed = 1;
  std::uint32_t first = 0;            ///< first replication
  std::uint32_t replications = 400;
  std::uint32_t assumptions_back = 0; ///< each takes the uncertain parameters of the replication so many before it
  std::uint32_t block = 32;           ///< replications in a block, the unit of delivery
  int threads = 0;                    ///< 0: all cores
  std::vector<std::uint32_t> series{};///< replications whose daily rows are delivered whole
  std::function<void(std::uint32_t done)> progress{};   ///< called from the delivering thread
  const std::atomic<bool>* stop = nullptr;              ///< set to stop after the blocks under way
};

/// A replication that threw: recorded, the others finish.
struct Failure { std::uint32_t replication = 0; std::string what; };

struct Series { std::uint32_t replication = 0; std::vector<DailyRow> rows; };

/// Consecutive replications, in order.
struct Block {
  std::uint32_t first = 0;
  std::vector<Outcome> outcomes{};
  std::vector<Failure> failures{};
  std::vector<Series> series{};
};

/// Runs them and hands blocks to `sink` in replication order from the calling thread; daily rows are added to `bands`
/// (may be nullptr). An exception of the sink stops the run and is passed on; nothing is added to the bands then.
/// Returns the number of replications delivered, those that failed included.
std::uint32_t run_replications(const Plan& plan, const RunRequest& request, Bands* bands,
                               const std::function<void(const Block&)>& sink);

}  // namespace rackwright::study
