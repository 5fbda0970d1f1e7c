#include "sim/study/summary.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/limits.hpp"

namespace rackwright::study {
namespace {

std::size_t column_index(std::string_view name) {
  const Column* column = find_column(name);
  if (column == nullptr) throw std::logic_error("no result column is called " + std::string(name));
  return static_cast<std::size_t>(column - outcome_columns().data());
}

// Columns that are one sum over another: their means are those of the sums, not of the single years' quotients. The money paid for the grain
// sown is no column of its own; it is followed as the price times the kilograms.
struct PerKilogram { std::string_view column, kilograms; bool of_grain = false; };
constexpr std::array per_kilogram{PerKilogram{"cost_per_kg_fresh", "served"}, PerKilogram{"cost_per_kg_dry_matter", "fodder_dry_matter"},
                                  PerKilogram{"dry_grain_per_kg_dry_matter", "grain_dry_matter", true}};

std::size_t grain_money() { return outcome_columns().size(); }  // its place, after the columns

// Place of the pair (i, j), i <= j, in a triangle stored row by row.
std::size_t pair_index(std::size_t i, std::size_t j, std::size_t n) {
  return std::min(i, j) * n - std::min(i, j) * (std::min(i, j) + 1) / 2 + std::max(i, j);
}

}  // namespace

Summary::Summary(const Target& target) : target_(target) {
  const std::size_t n = grain_money() + 1;
  sum_.assign(n, 0.0);
  cross_.assign(n * (n + 1) / 2, 0.0);
  shift_.assign(n, 0.0);
  least_.assign(n, 0.0);
  most_.assign(n, 0.0);
}

void Summary::add(const Outcome& outcome) {
  const auto columns = outcome_columns();
  const std::size_t n = sum_.size();
  std::vector<double> deviation(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double value = i == grain_money() ? outcome.dry_grain_per_kg_dry_matter * outcome.grain_dry_matter : columns[i].get(outcome);
    if (count_ == 0) shift_[i] = least_[i] = most_[i] = value;  // the first one keeps later sums small
    least_[i] = std::min(least_[i], value);
    most_[i] = std::max(most_[i], value);
    deviation[i] = value - shift_[i];
    sum_[i] += deviation[i];
  }
  std::size_t pair = 0;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = i; j < n; ++j) cross_[pair++] += deviation[i] * deviation[j];
  }
  for (std::size_t season = 0; season < seasons_.size(); ++season) {
    seasons_[season] += outcome.short_days_by_season[season];
  }
  const std::vector<double> given = given_by(outcome, target_);
  keeping_.add(given);
  if (given.front() > 0.0) ++successes_;
  ++count_;
}

double Summary::covariance(std::size_t i, std::size_t j) const {
  if (count_ < 2) return 0.0;
  const auto count = static_cast<double>(count_);
  const double spread = cross_[pair_index(i, j, sum_.size())] - sum_[i] * sum_[j] / count;
  return (i == j ? std::max(spread, 0.0) : spread) / (count - 1.0);
}

Estimate Summary::estimate(std::string_view column) const {
  const std::size_t i = column_index(column);
  if (count_ == 0) return {};
  const double mean = shift_[i] + sum_[i] / static_cast<double>(count_);
  const double sd = std::sqrt(covariance(i, i));
  const auto quotient = std::find_if(per_kilogram.begin(), per_kilogram.end(), [&](const PerKilogram& q) { return q.column == column; });
  if (quotient != per_kilogram.end()) {
    const std::vector<Term> money = quotient->of_grain ? std::vector<Term>{{grain_money(), 1.0}}
                                                       : std::vector<Term>{{column_index("cost_total"), 1.0}, {column_index("cost_reserve"), -1.0}};
    const Estimate e = quotient_of(money, column_index(quotient->kilograms));
    return {e.mean, e.low, e.high, sd, least_[i], most_[i]};
  }
  const double half = mean_half_width(sd, count_);
  return {mean, mean - half, mean + half, sd, least_[i], most_[i]};
}

Estimate Summary::ratio(std::string_view numerator, std::string_view denominator) const {
  Estimate e = quotient_of({{column_index(numerator), 1.0}}, column_index(denominator));
  e.least = e.most = e.mean;
  return e;
}

Estimate Summary::quotient_of(const std::vector<Term>& above, std::size_t below) const {
  if (count_ == 0) return {};
  const auto mean = [&](std::size_t column) { return shift_[column] + sum_[column] / static_cast<double>(count_); };
  const double bottom = mean(below);
  if (bottom == 0.0) return {};
  double top = 0.0, of_top = 0.0, with_bottom = 0.0;
  for (const Term& a : above) {
    top += a.times * mean(a.column);
    with_bottom += a.times * covariance(a.column, below);
    for (const Term& b : above) of_top += a.times * b.times * covariance(a.column, b.column);
  }
  const double ratio = top / bottom;
  // Delta method: the spread of a - ratio b, over the mean of b (Cochran 1977, Sampling Techniques, chapter 6).
  const double variance = of_top - 2.0 * ratio * with_bottom + ratio * ratio * covariance(below, below);
  const double sd = std::sqrt(std::max(variance, 0.0)) / std::abs(bottom);
  const double half = mean_half_width(sd, count_);
  return {ratio, ratio - half, ratio + half, sd, 0.0, 0.0};
}

Estimate Summary::success() const {
  if (count_ == 0) return {};
  return share_estimate(successes_, count_);
}

std::array<double, 4> Summary::short_day_seasons() const {
  double all = 0.0;
  for (const double days : seasons_) all += days;
  std::array<double, 4> shares{};
  if (all <= 0.0) return shares;
  for (std::size_t season = 0; season < shares.size(); ++season) shares[season] = seasons_[season] / all;
  return shares;
}

}  // namespace rackwright::study
