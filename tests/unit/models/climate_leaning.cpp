// Highs and lows that lean, seasons of the anomaly's spread, and a memory of two days; and that without them nothing is changed by a bit.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <utility>

#include "models/climate/climate.hpp"
#include "tests/catch.hpp"
#include "tests/normal_draws.hpp"

using namespace rackwright;
using namespace rackwright::climate;

namespace {

// Mean, variance and third moment of a shaped standard normal, by steps of a hundredth: another rule than the model's.
struct Moments { double mean = 0.0, variance = 0.0, third = 0.0, fourth = 0.0; };
Moments moments_of(const Shape& shape) {
  Moments m;
  for (int i = -1100; i <= 1100; ++i) {
    const double x = i / 100.0 + 0.003, weight = 0.01 * std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::numbers::pi), y = shaped(shape, x);
    m.mean += weight * y;
    m.variance += weight * y * y;
    m.third += weight * y * y * y;
    m.fourth += weight * y * y * y * y;
  }
  return m;
}

}  // namespace

TEST_CASE("a shape rises everywhere and keeps mean 0 and spread 1") {
  for (const double skew : {-2.0, -0.5, 0.0, 0.1, 1.0, 2.0}) {
    for (const double tail : {-0.7, -0.2, 0.0, 0.3, 0.7}) {
      const Shape shape = shape_of(skew, tail);
      INFO("skew " << skew << ", tail " << tail);
      const Moments m = moments_of(shape);
      CHECK(m.mean == near(0.0, 1e-7));
      CHECK(m.variance == near(1.0, 1e-6));
      for (double x = -8.0; x < 8.0; x += 0.05) REQUIRE(shaped(shape, x + 0.05) > shaped(shape, x));
    }
  }
}

TEST_CASE("no skew and no tail is the score itself, skew leans, tail shortens") {
  const Shape plain = shape_of(0.0, 0.0), warm = shape_of(0.3, 0.0), shorter = shape_of(0.0, 0.3), longer = shape_of(0.0, -0.3);
  for (double x = -6.0; x <= 6.0; x += 0.25) CHECK(shaped(plain, x) == near(x, 1e-8));
  CHECK(moments_of(warm).third > 0.2);
  CHECK(moments_of(shorter).fourth < 2.9);
  CHECK(moments_of(longer).fourth > 3.1);
  CHECK(shaped(shorter, 3.0) < 3.0);
  CHECK(shaped(longer, 3.0) > 3.0);
  // Leaning the other way is the mirror image.
  const Shape cool = shape_of(-0.3, 0.2), other = shape_of(0.3, 0.2);
  for (double x = -5.0; x <= 5.0; x += 0.5) CHECK(shaped(cool, x) == near(-shaped(other, -x), 1e-12));
  // Past the ends the ends hold.
  CHECK(shaped(shape_of(9.0, 9.0), 1.3) == shaped(shape_of(most_skew, most_tail), 1.3));
}

TEST_CASE("the defaults leave a day as it was, to the bit") {
  // The law before highs could lean, written out.
  const Parameters p;
  std::uint32_t state = 5;
  for (int i = 0; i < 2000; ++i) {
    const double day = 1.0 + i % 365, anomaly = test::pseudo_normal(state), range = test::pseudo_normal(state);
    const double wave = wave_at(p.mean, day).value();
    const YearlyWave range_wave{Celsius(p.range_mean.value()), p.range_amplitude, p.mean.peak_day - p.range_lead_days};
    const double strayed = anomaly * p.anomaly_sd.value(), mean = wave + strayed;
    const double half_range = std::max(0.5, 0.5 * std::max(1.0, wave_at(range_wave, day).value()) + 0.5 * p.range_follow * strayed + 0.5 * 0.0 * range);
    const Day got = day_from(p, day, {anomaly, 0.0, range}, Kelvins(1.5));
    REQUIRE(got.maximum == mean + 1.5 + half_range);
    REQUIRE(got.minimum == mean + 1.5 - half_range);
  }
  CHECK_FALSE(normal_of(p, 100.0).leaning);
}

TEST_CASE("without two days' memory the anomaly is the one of one day, to the bit") {
  Parameters p;
  p.slow_share = 0.14;
  Straying straying(p);
  std::uint32_t state = 9;
  double fast = 0.0, slow = 0.0;
  const double memory = fast_memory(p);
  for (int i = 0; i < 500; ++i) {
    const double a = test::pseudo_normal(state), b = test::pseudo_normal(state);
    fast = i > 0 ? memory * fast + std::sqrt(1.0 - memory * memory) * a : a;
    slow = i > 0 ? p.slow_memory * slow + std::sqrt(1.0 - p.slow_memory * p.slow_memory) * b : b;
    REQUIRE(straying.next({a, b, 0.0}).anomaly == std::sqrt(1.0 - p.slow_share) * fast + std::sqrt(p.slow_share) * slow);
  }
}

TEST_CASE("a memory of two days keeps the spread and the memory of one, and has the second it is given") {
  // 200,000 days: a lag's standard error is below 0.004, the spread's 0.5 %; limits of five of them, numbers fixed.
  Parameters p;
  p.anomaly_memory = 0.75;
  for (const double second : {-0.3, 0.2}) {
    p.anomaly_two_days = second;
    Straying straying(p);
    std::uint32_t state = 77;
    double one = 0.0, two = 0.0, squares = 0.0, first = 0.0, after = 0.0;
    constexpr int days = 200000;
    for (int i = 0; i < days; ++i) {
      const double x = straying.next({test::pseudo_normal(state), 0.0, 0.0}).anomaly;
      squares += x * x;
      first += x * one;
      after += x * two;
      two = one;
      one = x;
    }
    INFO("second " << second);
    CHECK(squares / days == Approx(1.0).epsilon(0.05));
    CHECK(first / squares == near(0.75, 0.02));
    // Yule and Walker: the correlation after two days is memory squared, and the partial one of what that leaves.
    CHECK(after / squares == near(0.75 * 0.75 + second * (1.0 - 0.75 * 0.75), 0.02));
  }
}

TEST_CASE("the anomaly's spread has its season, and its mean square stays") {
  Parameters p;
  p.anomaly_season = 0.3;
  p.anomaly_season_peak = 10.0;
  p.anomaly_half_year = 0.2;
  p.anomaly_half_year_peak = 10.0;
  CHECK(normal_of(p, 10.0).spread == Approx(2.91 * std::sqrt(1.5)));
  CHECK(normal_of(p, 192.5).spread == Approx(2.91 * std::sqrt(1.0 - 0.3 + 0.2)));
  double square = 0.0;
  for (int day = 1; day <= 365; ++day) square += std::pow(normal_of(p, day).spread, 2) / 365.0;
  CHECK(square == Approx(2.91 * 2.91));
  p.anomaly_season = 0.95;
  p.anomaly_half_year_peak = 101.25;
  CHECK(normal_of(p, 192.5).spread == Approx(2.91 * 0.2));  // never under a fifth
}

TEST_CASE("leaning moves highs and lows by themselves, keeps their order and their spread") {
  Parameters p;
  p.range_sd = Kelvins(3.0);
  p.range_follow = 0.2;
  p.highs = {-0.3, 0.0, 0.0, 0.2, 0.0, 0.0};
  const Normal usual = normal_of(p, 200.0);
  REQUIRE(usual.leaning);
  CHECK(usual.high_spread == Approx(std::hypot(2.91 * 1.1, 1.5)));
  CHECK(usual.low_spread == Approx(std::hypot(2.91 * 0.9, 1.5)));
  Parameters straight = p;
  straight.highs = {};
  const Normal before = normal_of(straight, 200.0);
  for (double score = -4.0; score <= 4.0; score += 0.5) {
    const auto was = extremes_from(before, {score, 0.0, 0.3}), is = extremes_from(usual, {score, 0.0, 0.3});
    if (is.half_range > 0.5) CHECK(is.mean - is.half_range == near(was.mean - was.half_range, 1e-6));  // lows are as they were
    const double high = was.mean + was.half_range - before.mean - before.half_range;
    CHECK(is.mean + is.half_range == Approx(usual.mean + usual.half_range + usual.high_spread * shaped(usual.highs, high / usual.high_spread)));
  }
  // However far apart highs and lows are drawn, a day is a kelvin wide at least, and it is the low that gives way.
  p.range_mean = Kelvins(1.0);
  p.range_amplitude = Kelvins(0.0);
  const Normal narrow = normal_of(p, 50.0);
  for (double range = -6.0; range <= 6.0; range += 1.0) {
    const auto day = extremes_from(narrow, {1.0, 0.0, range});
    const double high = narrow.spread + 0.5 * (0.2 * narrow.spread + 3.0 * range);
    CHECK(day.half_range >= 0.5);
    CHECK(day.mean + day.half_range == Approx(narrow.mean + narrow.half_range + narrow.high_spread * shaped(narrow.highs, high / narrow.high_spread)));
  }
}
