#pragma once
// What a set of replications says: a mean and an interval for every column, and ratios that are not means of ratios.

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/replication/columns.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/estimate.hpp"
#include "sim/study/kept.hpp"

namespace rackwright::study {

class Summary {
 public:
  explicit Summary(const Target& target);
  void add(const Outcome& outcome);
  [[nodiscard]] std::uint64_t replications() const { return count_; }
  /// Estimate of a column; throws std::logic_error for an unknown name. Of a price of a kilogram mean and interval are those of the sums of money
  /// and kilograms, the spread that of single years.
  [[nodiscard]] Estimate estimate(std::string_view column) const;
  /// Sum of one column over the sum of another, with a 95 % interval (delta method), e.g. cost over kilograms.
  [[nodiscard]] Estimate ratio(std::string_view numerator, std::string_view denominator) const;
  /// Share of years that kept all limits without a share of their own, with a 95 % score interval.
  [[nodiscard]] Estimate success() const;
  /// What was reached of each requirement of the target, and what was asked.
  [[nodiscard]] std::vector<Kept> kept() const { return keeping_.kept(target_); }
  /// Short days by season as shares of all short days: Dec-Feb, Mar-May, Jun-Aug, Sep-Nov.
  [[nodiscard]] std::array<double, 4> short_day_seasons() const;

 private:
  struct Term { std::size_t column = 0; double times = 1.0; };
  /// Sum of terms over a column, of sums over the replications.
  [[nodiscard]] Estimate quotient_of(const std::vector<Term>& above, std::size_t below) const;
  [[nodiscard]] double covariance(std::size_t i, std::size_t j) const;

  Target target_;
  std::uint64_t count_ = 0, successes_ = 0;
  Keeping keeping_{};
  std::vector<double> sum_, cross_;   ///< shifted first and second moments; pairs i <= j row by row
  std::vector<double> shift_, least_, most_;
  std::array<double, 4> seasons_{};
};

}  // namespace rackwright::study
