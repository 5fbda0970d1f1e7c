#include "sim/study/bad_years.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::study {

void BadYears::add(double fill_rate) {
  EXPECTS(fill_rate >= 0.0 && fill_rate <= 1.0);
  ++counts_[static_cast<std::size_t>(std::llround(fill_rate * static_cast<double>(steps)))];
  ++years_;
}

double BadYears::of_rank(std::uint64_t rank) const {
  std::uint64_t below = 0;
  std::size_t step = 0;
  while (step < steps && (below += counts_[step]) < rank) ++step;
  return static_cast<double>(step) / static_cast<double>(steps);
}

Estimate BadYears::quantile(double p) const {
  if (years_ == 0) return {};
  const Ranks ranks = quantile_ranks(years_, p);
  const auto middle = static_cast<std::uint64_t>(std::ceil(p * static_cast<double>(years_)));
  const double low = ranks.low == 0 ? 0.0 : of_rank(ranks.low), high = ranks.high > years_ ? 1.0 : of_rank(ranks.high);
  return {of_rank(std::clamp<std::uint64_t>(middle, 1, years_)), low, high, 0.0, of_rank(1), of_rank(years_)};
}

}  // namespace rackwright::study
