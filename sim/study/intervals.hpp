#pragma once
// How sure: intervals for shares, means and ratios. Formulas and when each is right: docs/models/statistics.md.

#include <cstdint>
#include <span>

#include "sim/study/moments.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

struct Interval { double low = 0.0, high = 0.0; };

/// Exact (Clopper & Pearson 1934) two-sided interval of a share; [0, 1] without trials.
Interval clopper_pearson(std::uint64_t successes, std::uint64_t trials, double confidence = 0.95);
/// Score interval (Wilson 1927): covers near the confidence: of 400 years 93 to 97 % for 95 %, for shares of 2 to 98 %; [0, 1] without trials.
Interval wilson(std::uint64_t successes, std::uint64_t trials, double confidence = 0.95);

/// One-sided exact bounds: the true share lies below (above) them with a chance of at most `error`.
double share_lower_bound(std::uint64_t successes, std::uint64_t trials, double error);
double share_upper_bound(std::uint64_t successes, std::uint64_t trials, double error);

/// Student's t: value below which a share p in (0, 1) lies.
double t_quantile(double p, double degrees_of_freedom);
/// Half the two-sided t interval of a mean of `count` values with standard deviation `sd`; infinite below two values.
double mean_half_width(double sd, std::uint64_t count, double confidence = 0.95);
Interval mean_interval(const Moments& moments, double confidence = 0.95);
/// One-sided t bounds of a mean; infinite below two values.
double mean_lower_bound(const Moments& moments, double error);
double mean_upper_bound(const Moments& moments, double error);

/// Ranks, from 1, of two of n values in rising order between which their law's quantile p lies with that confidence; 0 and
/// n + 1 stand for no bound.
struct Ranks { std::uint64_t low = 0, high = 0; };
Ranks quantile_ranks(std::uint64_t n, double p, double confidence = 0.95);
/// Of the quantile p of what was drawn, from the values in rising order: between two of them, whatever their law (binomial
/// ranks; David & Nagaraja 2003, Order Statistics, section 7.1). Infinite on a side that too few values cannot bound.
Interval quantile_interval(std::span<const double> rising, double p, double confidence = 0.95);

/// Of a ratio of sums: delta-method standard error and t with n - 1 degrees of freedom.
Interval ratio_interval(const RatioMoments& moments, double confidence = 0.95);

/// What the reports print: a mean with its 95 % t interval, a share with its score interval, a ratio with its own. Verdicts rest on
/// exact bounds instead.
Estimate mean_estimate(const Moments& moments);
Estimate share_estimate(std::uint64_t successes, std::uint64_t trials);
Estimate ratio_estimate(const RatioMoments& moments);

}  // namespace rackwright::study
