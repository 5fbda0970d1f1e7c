#pragma once
// Replications of `simulate` that are finished, kept as parts: outcomes by stretch, and the daily bands of a chain of
// stretches, which replace one another as the chain grows.

#include <cstdint>
#include <string>
#include <vector>

#include "sim/results/parts.hpp"
#include "sim/study/bands.hpp"
#include "sim/study/run.hpp"

namespace rackwright::results {

/// Consecutive replications.
struct Stretch {
  std::uint32_t first = 0, count = 0;
  [[nodiscard]] std::uint32_t end() const { return first + count; }
  friend bool operator==(const Stretch&, const Stretch&) = default;
};

/// Not to be shared between threads.
class KeptRuns {
 public:
  /// Finds what is whole among the parts and removes what is not.
  explicit KeptRuns(Parts& parts);

  /// What is finished, in order; stretches do not overlap.
  [[nodiscard]] const std::vector<Stretch>& finished() const { return finished_; }
  /// A finished stretch as the run delivered it. Throws WriteFault when it has gone since.
  [[nodiscard]] study::Block read(const Stretch& stretch) const;
  /// Adds the days of every stretch finished before to the bands, of replications below `end` only.
  void add_bands(study::Bands& into, std::uint32_t end) const;

  /// Keeps one more stretch. `chain` holds the days of the stretches kept since `chain_first` and of this one; the
  /// bands kept for the shorter chain go.
  void keep(const study::Block& stretch, std::uint32_t count, const study::Bands& chain, std::uint32_t chain_first);

 private:
  void accept(const std::vector<Stretch>& runs, const std::vector<Stretch>& bands);

  Parts* parts_;
  std::vector<Stretch> finished_{}, bands_{};
};

}  // namespace rackwright::results
