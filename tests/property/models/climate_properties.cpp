// Weather that holds for every day, latitude and series.
#include <cmath>
#include <numeric>
#include <random>

#include "models/climate/climate.hpp"
#include "tests/catch.hpp"
#include "tests/normal_draws.hpp"

using namespace rackwright;
using namespace rackwright::climate;

TEST_CASE("hour weights are temperature_at written as a sum, at every latitude and season") {
  for (double latitude = -66.0; latitude <= 90.0; latitude += 6.0) {
    for (double day = 1.0; day <= 365.0; day += 28.0) {
      const SunTimes sun = sun_times(Degrees(latitude), day);
      const auto weights = hour_weights(sun);
      for (std::size_t h = 0; h < 24; ++h) {
        const HourWeights& w = weights[h];
        const double hour = static_cast<double>(h) + 0.5;
        INFO("latitude " << latitude << " day " << day << " hour " << hour);
        REQUIRE(w.today_max + w.today_min + w.yesterday_max + w.yesterday_min == Approx(1.0).epsilon(1e-12));
        const double sum = 27.0 * (w.today_max + w.yesterday_max) + 11.0 * (w.today_min + w.yesterday_min);
        REQUIRE(sum == Approx(temperature_at(Celsius(27.0), Celsius(11.0), sun, hour).value()).epsilon(1e-12));
        if (hour >= sun.sunrise) REQUIRE(w.yesterday_max + w.yesterday_min == 0.0);
        else REQUIRE(w.today_max == 0.0);
      }
    }
  }
}

TEST_CASE("the hours of a day add up to its radiation and are dark at night") {
  for (double latitude = -90.0; latitude <= 90.0; latitude += 7.5) {
    for (double day = 1.0; day <= 365.0; day += 13.0) {
      const auto sun = hourly_sun(Degrees(latitude), day, 0.65);
      const double total = std::accumulate(sun.begin(), sun.end(), 0.0) * 3600.0 / 1e6;
      INFO("latitude " << latitude << " day " << day);
      REQUIRE(total == near(0.65 * extraterrestrial_radiation(Degrees(latitude), day), 1e-9));
      const SunTimes times = sun_times(Degrees(latitude), day);
      for (std::size_t h = 0; h < 24; ++h) {
        REQUIRE(sun[h] >= 0.0);
        REQUIRE(sun[h] < 1420.0);
        if (static_cast<double>(h + 1) <= times.sunrise || static_cast<double>(h) >= times.sunset) REQUIRE(sun[h] < 1e-9);
      }
    }
  }
}

TEST_CASE("temperature is a rising function of both extremes") {
  const SunTimes sun{5.3, 19.1};
  for (double hour = 0.0; hour <= 24.0; hour += 0.1) {
    const double base = temperature_at(Celsius(25.0), Celsius(12.0), sun, hour).value();
    REQUIRE(temperature_at(Celsius(26.0), Celsius(12.0), sun, hour).value() >= base);
    REQUIRE(temperature_at(Celsius(25.0), Celsius(13.0), sun, hour).value() >= base);
  }
}

TEST_CASE("the anomaly keeps unit spread and its memory") {
  // 20,000 steps: the sd of the sample variance is about 0.021 and of the lag about 0.0043 at memory 0.797; limits of
  // five of them (false alarm below 1e-5), seed fixed.
  test::NormalDraws normal(4711);
  const double memory = 0.797;
  Parameters p;
  p.anomaly_memory = memory;
  Straying straying(p);
  double x = 0.0, squares = 0.0, products = 0.0;
  constexpr int n = 20000;
  for (int i = 0; i < n; ++i) {
    const double next = straying.next({normal(), 0.0, 0.0}).anomaly;
    products += x * next;
    squares += next * next;
    x = next;
  }
  CHECK(squares / n == near(1.0, 0.105));
  CHECK(products / squares == near(memory, 0.022));
}

TEST_CASE("a fit gives back what a series was made from") {
  // Thirty years: the mean's standard error is 2.91 sqrt((1+m)/(1-m)/n) = 0.083, amplitude and peak like it (x sqrt 2);
  // limits of five of them, seed fixed.
  test::NormalDraws normal(20261);
  Parameters p;
  std::vector<double> day, celsius;
  Straying straying(p);
  for (int i = 0; i < 30 * 365; ++i) {
    day.push_back(1.0 + i % 365);
    const Day weather = day_from(p, day.back(), {straying.next({normal(), 0.0, 0.0}).anomaly, 0.0}, Kelvins(0.0));
    celsius.push_back(0.5 * (weather.maximum + weather.minimum));
  }
  const SeriesFit fit = fit_series(day, celsius);
  CHECK(fit.wave.mean.value() == near(17.07, 0.42));
  CHECK(fit.wave.amplitude.value() == near(8.65, 0.59));
  CHECK(fit.wave.peak_day == near(204.8, 4.0));
  CHECK(fit.anomaly_sd == near(2.91, 0.22));
  CHECK(fit.lag1 == near(0.797, 0.03));
}

TEST_CASE("a day's air is never wetter than saturation at its minimum") {
  test::NormalDraws normal(99);
  const Parameters p;
  for (int i = 0; i < 5000; ++i) {
    const double d = 1.0 + i % 365;
    const Day day = day_from(p, d, {normal(), 2.0 * normal()}, Kelvins(5.0 * normal()));
    REQUIRE(day.maximum > day.minimum);
    REQUIRE(day.humidity_ratio > 0.0);
    REQUIRE(day.humidity_ratio <= humidity_ratio_at_dew_point(Celsius(day.minimum)) * (1.0 + 1e-12));
  }
}

TEST_CASE("an overlay adds its rise times its length less one day of ramps") {
  for (const double length : {1.0, 2.0, 5.0, 14.0}) {
    double total = 0.0;
    for (int d = -5; d < 40; ++d) total += overlay_rise({{10.0, length, Kelvins(6.0)}}, d).value();
    CHECK(total == Approx(6.0 * (length > 1.0 ? length - 1.0 : 0.5)));
  }
}
