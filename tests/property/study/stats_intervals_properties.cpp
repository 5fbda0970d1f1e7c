#include <cmath>
#include <random>
#include <vector>

#include "sim/study/intervals.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

namespace {
double binomial(unsigned k, unsigned n, double p) {
  return std::exp(std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) + k * std::log(p) +
                  (n - k) * std::log1p(-p));
}
}  // namespace

TEST_CASE("the exact interval covers at least as often as it says, for every share", "[property][statistics]") {
  for (const unsigned n : {1U, 5U, 24U, 60U}) {
    std::vector<Interval> ranges;
    for (unsigned k = 0; k <= n; ++k) ranges.push_back(clopper_pearson(k, n, 0.9));
    for (int i = 1; i < 500; ++i) {
      const double p = i / 500.0;
      double covered = 0.0;
      for (unsigned k = 0; k <= n; ++k)
        covered += (ranges[k].low <= p && p <= ranges[k].high) ? binomial(k, n, p) : 0.0;
      INFO("n " << n << " p " << p);
      REQUIRE(covered >= 0.9 - 1e-9);
    }
  }
}

TEST_CASE("the score interval covers as often as it says on average", "[property][statistics]") {
  const unsigned n = 40;
  double covered = 0.0;
  for (int i = 0; i < 1000; ++i) {
    const double p = (i + 0.5) / 1000.0;
    for (unsigned k = 0; k <= n; ++k) {
      const auto range = wilson(k, n, 0.95);
      covered += (range.low <= p && p <= range.high) ? binomial(k, n, p) / 1000.0 : 0.0;
    }
  }
  CHECK(covered == Approx(0.95).margin(0.01).epsilon(0));
}

TEST_CASE("intervals hold their share, order with successes and narrow with trials", "[property][statistics]") {
  for (unsigned n = 1; n < 80; ++n) {
    for (unsigned k = 0; k <= n; ++k) {
      const double share = static_cast<double>(k) / n;
      for (const Interval& range : {clopper_pearson(k, n), wilson(k, n)}) {
        REQUIRE((range.low <= share && share <= range.high));
        REQUIRE((range.low >= 0.0 && range.high <= 1.0));
      }
      if (k == n) continue;
      REQUIRE(clopper_pearson(k + 1, n).low > clopper_pearson(k, n).low - 1e-15);
      REQUIRE(clopper_pearson(k + 1, n).high >= clopper_pearson(k, n).high);
      const auto more = clopper_pearson(4 * k, 4 * n), few = clopper_pearson(k, n);
      REQUIRE(more.high - more.low < few.high - few.low);
    }
  }
}

TEST_CASE("moments merged in any split are the moments of all", "[property][statistics]") {
  std::mt19937 engine(31);
  std::lognormal_distribution<double> law(2.0, 1.5);
  for (int round = 0; round < 50; ++round) {
    Moments all, left, right;
    RatioMoments ratio, ratio_left, ratio_right;
    std::uniform_int_distribution<int> cut(0, 300);
    const int at = cut(engine);
    for (int i = 0; i < 300; ++i) {
      const double x = law(engine), y = x + law(engine);
      all.add(x);
      (i < at ? left : right).add(x);
      ratio.add(x, y);
      (i < at ? ratio_left : ratio_right).add(x, y);
    }
    left.merge(right);
    ratio_left.merge(ratio_right);
    REQUIRE(left.count() == all.count());
    REQUIRE(left.mean() == Approx(all.mean()).epsilon(1e-12));
    REQUIRE(left.variance() == Approx(all.variance()).epsilon(1e-10));
    REQUIRE((left.least() == all.least() && left.most() == all.most()));
    REQUIRE(ratio_left.ratio() == Approx(ratio.ratio()).epsilon(1e-12));
    REQUIRE(ratio_left.standard_error() == Approx(ratio.standard_error()).epsilon(1e-9));
  }
}

TEST_CASE("the delta method agrees with the jackknife", "[property][statistics]") {
  // Same data, two ways; they differ by O(1/n) of the error: tolerance 2 % at n = 400.
  std::mt19937 engine(32);
  std::normal_distribution<double> noise(0.0, 1.0);
  std::vector<double> above, below;
  RatioMoments ratio;
  double above_sum = 0.0, below_sum = 0.0;
  for (int i = 0; i < 400; ++i) {
    const double z = noise(engine);
    above.push_back(50.0 + 5.0 * z + 3.0 * noise(engine));
    below.push_back(200.0 - 15.0 * z + 8.0 * noise(engine));
    ratio.add(above.back(), below.back());
    above_sum += above.back();
    below_sum += below.back();
  }
  Moments without;
  for (std::size_t i = 0; i < above.size(); ++i) without.add((above_sum - above[i]) / (below_sum - below[i]));
  const auto n = static_cast<double>(above.size());
  const double jackknife = std::sqrt((n - 1.0) * (n - 1.0) / n * without.variance());
  CHECK(ratio.ratio() == Approx(above_sum / below_sum));
  CHECK(ratio.standard_error() == Approx(jackknife).epsilon(0.02));
}

TEST_CASE("t intervals of normal means cover as often as they say", "[property][statistics]") {
  // 20,000 means of 6: the count is binomial, sd 0.0015; +-4 sd, a false alarm of 1 in 16,000 (seed fixed).
  std::mt19937 engine(33);
  std::normal_distribution<double> law(3.0, 2.0);
  int covered = 0;
  for (int i = 0; i < 20000; ++i) {
    Moments m;
    for (int j = 0; j < 6; ++j) m.add(law(engine));
    const auto range = mean_interval(m);
    covered += range.low <= 3.0 && 3.0 <= range.high;
  }
  CHECK(covered / 20000.0 == Approx(0.95).margin(0.0062).epsilon(0));
}
