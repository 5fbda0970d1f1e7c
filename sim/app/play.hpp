#pragma once
// Replications of one plan played in stretches, each kept as it is finished.

#include <cstdint>
#include <functional>
#include <string>

#include "sim/app/options.hpp"
#include "sim/app/progress.hpp"
#include "sim/results/kept_runs.hpp"
#include "sim/study/run.hpp"

namespace rackwright::app {

class Player {
 public:
  /// What the parts hold is not played again. `stage` is what the progress line calls it.
  Player(const Plan& plan, const Options& options, results::Parts& parts, std::string stage = "replications");

  /// Everything of the range, kept or played now, goes to `sink` (may be empty) in order and, with `bands`, its days
  /// too. Returns the replications from the beginning of the range on that are done; fewer than it holds when stopped.
  std::uint32_t play(results::Stretch range, study::Bands* bands, const std::function<void(const study::Block&)>& sink);

  /// From now on even a range that is played in no time is kept.
  void keep_all() { keep_all_ = true; }
  /// Are all replications of the study among the parts? Looks at them anew.
  bool all_finished();
  [[nodiscard]] bool stopped() const { return request_.stop->load(); }
  [[nodiscard]] std::uint32_t replications() const;
  [[nodiscard]] int days() const { return plan_.horizon_days; }
  [[nodiscard]] std::uint32_t block() const { return request_.block; }

 private:
  using Sink = std::function<void(const study::Block&)>;
  std::uint32_t fill(results::Stretch gap, bool last, study::Bands* bands, const Sink& sink);

  const Plan& plan_;
  results::Parts& parts_;
  results::KeptRuns kept_;
  study::RunRequest request_{};
  Progress progress_;
  std::string stage_;
  bool keep_all_ = false;
  std::uint32_t pace_;  ///< replications of the next stretch
};

}  // namespace rackwright::app
