#pragma once
// Two plans on the same fortunes, replication by replication: what differs between them is not luck.

#include <algorithm>
#include <atomic>
#include <cstdint>
#include <exception>
#include <memory>
#include <optional>
#include <span>
#include <type_traits>
#include <vector>

#include "sim/replication/replicate.hpp"
#include "sim/study/threads.hpp"

namespace rackwright::study {

struct PairRequest {
  std::uint64_t random_seed = 1;
  std::uint32_t replications = 100;
  int threads = 0;                          ///< 0: all cores
  const std::atomic<bool>* stop = nullptr;
};

/// One replication of one of the two; valid only while it is looked at.
struct Side {
  const Outcome& outcome;
  std::span<const DailyRow> rows;
};

/// Runs every replication of `request` in blocks on all cores. `make_worker()` gives a thread its worker, which makes a record
/// of a replication; one that throws is left out. Records reach `sink` in order on the calling thread; returns how many did.
template <class Record, class MakeWorker, class Sink>
std::uint32_t in_blocks(const PairRequest& request, const MakeWorker& make_worker, const Sink& sink) {
  constexpr std::uint32_t block = 8;
  const auto make = [&](int) {
    return [&, worker = std::make_optional(make_worker())](std::size_t item) mutable {
      std::vector<Record> records;
      const auto from = static_cast<std::uint32_t>(item) * block;
      for (std::uint32_t r = from; r < std::min(from + block, request.replications); ++r) {
        try {
          records.push_back((*worker)(r));
        } catch (const std::exception&) {
          worker.emplace(make_worker());  // its memory may be half written
        }
      }
      return records;
    };
  };
  std::uint32_t delivered = 0;
  work_in_order<std::vector<Record>>((request.replications + block - 1) / block, thread_count(request.threads),
                                     request.stop, make, [&](std::size_t, const std::vector<Record>& records) {
                                       for (const Record& record : records) sink(record);
                                       delivered += static_cast<std::uint32_t>(records.size());
                                     });
  return delivered;
}

/// A Replicator made when it is first needed, on the thread that needs it.
class LazyReplicator {
 public:
  explicit LazyReplicator(const Plan& plan) : plan_(&plan) {}
  Replicator& operator*() {
    if (!made_) made_ = std::make_unique<Replicator>(*plan_);
    return *made_;
  }

 private:
  const Plan* plan_;
  std::unique_ptr<Replicator> made_{};
};

/// `judge(before, after)` makes a record of a replication under both plans, on the working thread.
template <class Judge, class Sink>
std::uint32_t paired_runs(const Plan& before, const Plan& after, const PairRequest& request, const Judge& judge,
                          const Sink& sink) {
  using Record = std::invoke_result_t<const Judge&, const Side&, const Side&>;
  const auto make_worker = [&] {
    return [&, seed = request.random_seed, first = LazyReplicator(before), second = LazyReplicator(after)](std::uint32_t r) mutable {
      const Outcome a = (*first).run(seed, r), b = (*second).run(seed, r);
      return judge(Side{a, (*first).daily()}, Side{b, (*second).daily()});
    };
  };
  return in_blocks<Record>(request, make_worker, sink);
}

/// The same for one plan: `judge(side)`.
template <class Judge, class Sink>
std::uint32_t single_runs(const Plan& plan, const PairRequest& request, const Judge& judge, const Sink& sink) {
  using Record = std::invoke_result_t<const Judge&, const Side&>;
  const auto make_worker = [&] {
    return [&, seed = request.random_seed, only = LazyReplicator(plan)](std::uint32_t r) mutable {
      const Outcome outcome = (*only).run(seed, r);
      return judge(Side{outcome, (*only).daily()});
    };
  };
  return in_blocks<Record>(request, make_worker, sink);
}

}  // namespace rackwright::study
