// How often 95 % intervals hold the truth, by simulation: means, quantiles, shares, ratios elsewhere, and a mean whose number
// of replications was chosen by looking at it. They must do so in 93 to 97 % of games. With 4000 games and a true coverage of
// 95 % a count outside comes with probability 1e-8; each seed is fixed. Exact intervals of shares may hold more often than
// they say; coverage of shares is computed, not simulated.

#include <algorithm>
#include <cmath>
#include <vector>

#include <boost/math/distributions/binomial.hpp>
#include <boost/random/exponential_distribution.hpp>
#include <boost/random/lognormal_distribution.hpp>
#include <boost/random/normal_distribution.hpp>

#include "sim/random/philox_stream.hpp"
#include "sim/study/bad_years.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/precision.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;
namespace rnd = rackwright::random;

namespace {

constexpr int games = 4000;

/// Share of games in which `holds(stream)`.
template <class Game>
double coverage(std::uint32_t seed, const Game& holds) {
  int held = 0;
  for (int game = 0; game < games; ++game) {
    rnd::Stream luck(rnd::make_key(seed, static_cast<std::uint32_t>(game)), rnd::Purpose::test, 0);
    held += holds(luck);
  }
  return held / static_cast<double>(games);
}

template <class Law>
double coverage_of_mean(std::uint32_t seed, Law law, double truth, int n) {
  return coverage(seed, [&](rnd::Stream& luck) {
    Moments moments;
    law.reset();
    for (int i = 0; i < n; ++i) moments.add(law(luck));
    const Interval range = mean_interval(moments);
    return range.low <= truth && truth <= range.high;
  });
}

void check(double covered) {
  CHECK(covered >= 0.93);
  CHECK(covered <= 0.97);
}

}  // namespace

TEST_CASE("coverage: t intervals of means, of normal and of skewed values") {
  check(coverage_of_mean(1, boost::random::normal_distribution<double>(5.0, 2.0), 5.0, 24));
  check(coverage_of_mean(2, boost::random::normal_distribution<double>(5.0, 2.0), 5.0, 400));
  check(coverage_of_mean(3, boost::random::exponential_distribution<double>(1.0), 1.0, 100));
  check(coverage_of_mean(4, boost::random::lognormal_distribution<double>(0.0, 0.5), std::exp(0.125), 100));
}

TEST_CASE("coverage: order-statistic intervals of quantiles, whatever the law") {
  for (const double p : {0.05, 0.1, 0.5, 0.9}) {
    const double truth = -std::log1p(-p);  // of the exponential law
    check(coverage(10 + static_cast<std::uint32_t>(100.0 * p), [&](rnd::Stream& luck) {
      boost::random::exponential_distribution<double> law;
      std::vector<double> values(400);
      for (double& value : values) value = law(luck);
      std::sort(values.begin(), values.end());
      const Interval range = quantile_interval(values, p);
      return range.low <= truth && truth <= range.high;
    }));
  }
}

TEST_CASE("coverage: score intervals of shares hold as often as they say, exact ones at least so") {
  struct Range { std::uint64_t years; double from, to; };
  // Outside these fewer than about eight years miss (or succeed), and whole counts cannot hold 95 % evenly.
  for (const Range range : {Range{100, 0.5, 0.9}, Range{200, 0.5, 0.95}, Range{400, 0.02, 0.98}}) {
    std::vector<Interval> exact_ranges;
    for (std::uint64_t k = 0; k <= range.years; ++k) exact_ranges.push_back(clopper_pearson(k, range.years));
    for (double p = range.from; p <= range.to; p += 0.004) {
      const boost::math::binomial law(static_cast<double>(range.years), p);
      double exact = 0.0, score = 0.0;
      for (std::uint64_t k = 0; k <= range.years; ++k) {
        const Interval& e = exact_ranges[k];
        const Estimate printed = share_estimate(k, range.years);
        const double chance = boost::math::pdf(law, static_cast<double>(k));
        if (e.low <= p && p <= e.high) exact += chance;
        if (printed.low <= p && p <= printed.high) score += chance;
      }
      CAPTURE(range.years, p, exact, score);
      REQUIRE(exact >= 0.95);
      REQUIRE(score >= 0.93);
      REQUIRE(score <= 0.97);
    }
  }
}

TEST_CASE("coverage: a mean played until its interval is narrow enough still holds as often as it says") {
  for (const double half : {0.05, 0.1, 0.2}) {
    for (const bool skewed : {false, true}) {
      check(coverage(50 + static_cast<std::uint32_t>(100.0 * half) + (skewed ? 1 : 0), [&](rnd::Stream& luck) {
        boost::random::normal_distribution<double> normal(1.0, 1.0);
        boost::random::exponential_distribution<double> exponential(1.0);
        Moments moments;
        for (std::uint32_t goal = first_look; goal < 20000; goal = next_look(goal)) {
          while (moments.count() < goal) moments.add(skewed ? exponential(luck) : normal(luck));
          if (narrow_enough(moments, half)) break;
        }
        const Interval range = mean_interval(moments);
        return range.low <= 1.0 && 1.0 <= range.high;
      }));
    }
  }
}

TEST_CASE("a quantile's interval: ranks by hand, and no bound where there are too few values") {
  const std::vector<double> ten{1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
  // Of ten, the median lies between the 2nd and the 9th with 97.9 %: P(B < 2) = 11/1024 is at most 2.5 %, P(B < 3) = 56/1024 not.
  CHECK(quantile_interval(ten, 0.5).low == 2.0);
  CHECK(quantile_interval(ten, 0.5).high == 9.0);
  CHECK(std::isinf(quantile_interval(ten, 0.05).low));
  BadYears years;
  for (const double value : ten) years.add(value / 20.0);
  CHECK(years.quantile(0.5).mean == Approx(0.25));
  CHECK(years.quantile(0.5).low == Approx(0.10));
  CHECK(years.quantile(0.5).high == Approx(0.45));
  CHECK(years.quantile(0.05).low == 0.0);
  CHECK(years.quantile(0.99).high == 1.0);
}
