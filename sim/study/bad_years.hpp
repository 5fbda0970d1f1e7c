#pragma once
// How bad a bad year is: low quantiles of the fill rate with intervals, in memory that does not grow.

#include <cstdint>
#include <vector>

#include "sim/study/summary.hpp"

namespace rackwright::study {

/// Counts years by their fill rate in steps of 0.005 %.
class BadYears {
 public:
  BadYears() : counts_(steps + 1, 0) {}
  void add(double fill_rate);
  [[nodiscard]] std::uint64_t years() const { return years_; }
  /// Fill rate that a share p of years stays below, with its 95 % interval from ranks (page Statistics of studies); a side
  /// that too few years bound is 0 or 1. Zero without years.
  [[nodiscard]] Estimate quantile(double p) const;

 private:
  static constexpr std::size_t steps = 20000;
  [[nodiscard]] double of_rank(std::uint64_t rank) const;
  std::vector<std::uint64_t> counts_;
  std::uint64_t years_ = 0;
};

}  // namespace rackwright::study
