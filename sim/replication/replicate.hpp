#pragma once
// outcome = replicate(plan, fortune): one replication of one design.

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>

#include "sim/replication/happening.hpp"
#include "sim/replication/outcome.hpp"
#include "sim/replication/plan.hpp"

namespace rackwright {

/// Receives a replication told in words, event by event.
class Journal {
 public:
  virtual ~Journal() = default;
  /// `minutes` since the start of the run.
  virtual void tell(std::int64_t minutes, const std::string& sentence) = 0;
  /// The fact behind a sentence, or one that needs none; before the sentence.
  virtual void note(std::int64_t /*minutes*/, const Happening& /*happening*/) {}
};

/// Runs replications of one plan one after the other, reusing its memory. One per thread; the plan must outlive it.
class Replicator {
 public:
  explicit Replicator(const Plan& plan);
  ~Replicator();
  Replicator(Replicator&&) noexcept;
  Replicator& operator=(Replicator&&) noexcept;

  /// The same (seed, replication) gives the same bits whatever ran before. `assumptions`: the replication whose uncertain parameters it
  /// takes to be true, else its own. Throws std::logic_error when a balance fails.
  Outcome run(std::uint64_t random_seed, std::uint32_t replication, Journal* journal = nullptr,
              std::optional<std::uint32_t> assumptions = {});
  /// The days of the last run; one row a day of the horizon.
  [[nodiscard]] std::span<const DailyRow> daily() const;

 private:
  class State;
  std::unique_ptr<State> state_;
};

}  // namespace rackwright
