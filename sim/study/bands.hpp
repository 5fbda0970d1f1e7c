#pragma once
// Quantile bands by day, kept as counts in bins: order, threads and number of replications do not matter.

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/study/quantile_sketch.hpp"

namespace rackwright::study {

/// One count histogram for each day and daily variable (columns of daily_columns()). Not to be shared between threads, not
/// even to read: the last few years are counted when somebody asks.
class Bands {
 public:
  explicit Bands(int days);
  ~Bands();
  Bands(Bands&&) noexcept;
  Bands& operator=(Bands&&) noexcept;
  /// One replication's days, `days()` of them, all finite (EXPECTS); nothing is added when they are not.
  void add(std::span<const DailyRow> rows);
  /// As if the other's replications had been added here, to the last bit.
  void merge(const Bands& other);
  [[nodiscard]] int days() const;
  [[nodiscard]] std::uint64_t replications() const;
  /// Quantile p in [0, 1] of variable `column` on `day`; within QuantileSketch::relative_error.
  [[nodiscard]] double quantile(int day, std::size_t column, double p) const;
  /// Mean to about 1e-6, summed in whole steps so that the order of replications does not matter.
  [[nodiscard]] double mean(int day, std::size_t column) const;

  /// All counts as plain numbers, for a file, and back to the last bit.
  struct Parts {
    int days = 0;
    std::uint64_t replications = 0;
    std::vector<std::int64_t> sums{};             ///< by day, then column
    std::vector<QuantileSketch::Parts> sketches{};///< likewise
  };
  [[nodiscard]] Parts parts() const;
  static Bands from(const Parts& parts);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace rackwright::study
