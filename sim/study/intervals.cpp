#include "sim/study/intervals.hpp"

#include <algorithm>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

bool is_chance(double p) { return p > 0.0 && p < 1.0; }

Interval around(double middle, double half) { return {middle - half, middle + half}; }

}  // namespace

double share_lower_bound(std::uint64_t successes, std::uint64_t trials, double error) {
  EXPECTS(successes <= trials && is_chance(error));
  if (successes == 0) return 0.0;
  const auto k = static_cast<double>(successes);
  const auto n = static_cast<double>(trials);
  return boost::math::ibeta_inv(k, n - k + 1.0, error);
}

double share_upper_bound(std::uint64_t successes, std::uint64_t trials, double error) {
  EXPECTS(successes <= trials && is_chance(error));
  if (successes == trials) return 1.0;
  const auto k = static_cast<double>(successes);
  const auto n = static_cast<double>(trials);
  return boost::math::ibetac_inv(k + 1.0, n - k, error);
}

Interval clopper_pearson(std::uint64_t successes, std::uint64_t trials, double confidence) {
  EXPECTS(is_chance(confidence));
  const double each_side = 0.5 * (1.0 - confidence);
  return {share_lower_bound(successes, trials, each_side), share_upper_bound(successes, trials, each_side)};
}

Interval wilson(std::uint64_t successes, std::uint64_t trials, double confidence) {
  EXPECTS(successes <= trials && is_chance(confidence));
  if (trials == 0) return {0.0, 1.0};
  const double z = boost::math::quantile(boost::math::normal(), 0.5 * (1.0 + confidence));
  const auto n = static_cast<double>(trials);
  const double share = static_cast<double>(successes) / n;
  const double shrink = 1.0 + z * z / n;
  const double middle = (share + 0.5 * z * z / n) / shrink;
  const double half = z / shrink * std::sqrt(share * (1.0 - share) / n + 0.25 * z * z / (n * n));
  // At the ends middle and half agree but for rounding; the interval holds the share it came from.
  return {std::clamp(middle - half, 0.0, share), std::clamp(middle + half, share, 1.0)};
}

double t_quantile(double p, double degrees_of_freedom) {
  EXPECTS(is_chance(p) && degrees_of_freedom > 0.0);
  return boost::math::quantile(boost::math::students_t(degrees_of_freedom), p);
}

double mean_half_width(double sd, std::uint64_t count, double confidence) {
  EXPECTS(is_chance(confidence) && !(sd < 0.0));
  if (count < 2) return infinite;
  const auto n = static_cast<double>(count);
  return t_quantile(0.5 * (1.0 + confidence), n - 1.0) * sd / std::sqrt(n);
}

Interval mean_interval(const Moments& moments, double confidence) {
  return around(moments.mean(), mean_half_width(moments.sd(), moments.count(), confidence));
}

double mean_lower_bound(const Moments& moments, double error) {
  EXPECTS(is_chance(error));
  if (moments.count() < 2) return -infinite;
  return moments.mean() + t_quantile(error, static_cast<double>(moments.count() - 1)) * moments.standard_error();
}

double mean_upper_bound(const Moments& moments, double error) {
  EXPECTS(is_chance(error));
  if (moments.count() < 2) return infinite;
  return moments.mean() - t_quantile(error, static_cast<double>(moments.count() - 1)) * moments.standard_error();
}

Ranks quantile_ranks(std::uint64_t n, double p, double confidence) {
  EXPECTS(n > 0 && is_chance(p) && is_chance(confidence));
  // The number of values below the quantile is binomial(n, p): the r-th value lies above it with chance P(B < r).
  const boost::math::binomial below(static_cast<double>(n), p);
  const double each_side = 0.5 * (1.0 - confidence);
  const auto chance_below = [&](std::uint64_t r) { return r == 0 ? 0.0 : boost::math::cdf(below, static_cast<double>(r - 1)); };
  // Both chances are monotone in the rank: halving finds the innermost ranks that keep them.
  std::uint64_t low = 0, out = n + 1;  // low keeps, out does not
  while (out - low > 1) {
    const std::uint64_t middle = low + (out - low) / 2;
    (chance_below(middle) <= each_side ? low : out) = middle;
  }
  std::uint64_t high = n + 1, in = 0;
  while (high - in > 1) {
    const std::uint64_t middle = in + (high - in) / 2;
    (1.0 - chance_below(middle) <= each_side ? high : in) = middle;
  }
  return {low, high};
}

Interval quantile_interval(std::span<const double> rising, double p, double confidence) {
  if (rising.empty()) return {-infinite, infinite};
  const Ranks ranks = quantile_ranks(rising.size(), p, confidence);
  return {ranks.low == 0 ? -infinite : rising[ranks.low - 1],
          ranks.high > rising.size() ? infinite : rising[ranks.high - 1]};
}

Interval ratio_interval(const RatioMoments& moments, double confidence) {
  EXPECTS(is_chance(confidence));
  const double error = moments.standard_error();
  if (!std::isfinite(error)) return {-infinite, infinite};
  return around(moments.ratio(),
                t_quantile(0.5 * (1.0 + confidence), static_cast<double>(moments.count() - 1)) * error);
}

Estimate mean_estimate(const Moments& moments) {
  const Interval range = mean_interval(moments);
  return {moments.mean(), range.low, range.high, moments.sd(), moments.least(), moments.most()};
}

Estimate share_estimate(std::uint64_t successes, std::uint64_t trials) {
  EXPECTS(successes <= trials);
  const Interval range = wilson(successes, trials);
  if (trials == 0) return {0.0, range.low, range.high, 0.0, 0.0, 0.0};
  const double share = static_cast<double>(successes) / static_cast<double>(trials);
  const double least = successes == trials ? 1.0 : 0.0;  // of single trials, each 0 or 1
  const double most = successes == 0 ? 0.0 : 1.0;
  return {share, range.low, range.high, std::sqrt(share * (1.0 - share)), least, most};
}

Estimate ratio_estimate(const RatioMoments& moments) {
  const Interval range = ratio_interval(moments);
  const double ratio = moments.ratio();
  const double sd =
      moments.count() < 2 ? 0.0 : moments.standard_error() * std::sqrt(static_cast<double>(moments.count()));
  return {ratio, range.low, range.high, sd, ratio, ratio};
}

}  // namespace rackwright::study
