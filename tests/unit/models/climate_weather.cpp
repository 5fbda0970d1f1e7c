#include <cmath>
#include <numbers>
#include <stdexcept>

#include "models/climate/climate.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::climate;

TEST_CASE("the wave peaks on its peak day and turns over half a year later") {
  const YearlyWave wave{Celsius(15.0), Kelvins(8.0), 200.0};
  CHECK(wave_at(wave, 200.0).value() == Approx(23.0));
  CHECK(wave_at(wave, 200.0 + 182.5).value() == Approx(7.0));
  CHECK(wave_at(wave, 200.0 + 365.0).value() == Approx(23.0));
}

TEST_CASE("twelve values of a wave give that wave back, in either hemisphere") {
  constexpr std::array<double, 12> middle{16, 45.5, 75, 105.5, 136, 166.5, 197, 228, 258.5, 289, 319.5, 350};
  for (const double peak : {19.7, 204.8, 350.0}) {
    const YearlyWave wave{Celsius(12.0), Kelvins(6.0), peak};
    std::array<double, 12> monthly{};
    for (std::size_t m = 0; m < 12; ++m) monthly[m] = wave_at(wave, middle[m]).value();
    const YearlyWave fit = fit_yearly_wave(monthly);
    CHECK(fit.mean.value() == near(12.0, 0.06));  // months are not equally long
    CHECK(fit.amplitude.value() == Approx(6.0).epsilon(0.01));
    CHECK(fit.peak_day == near(peak, 0.6));
  }
}

TEST_CASE("day length follows season and latitude") {
  const auto length = [](double latitude, double day) {
    const SunTimes sun = sun_times(Degrees(latitude), day);
    return sun.sunset - sun.sunrise;
  };
  CHECK(length(0.0, 80.0) == near(12.0, 1e-9));
  CHECK(length(40.0, 172.0) > 14.5);
  CHECK(length(40.0, 355.0) < 9.6);
  CHECK(length(-40.0, 172.0) == Approx(24.0 - length(40.0, 172.0)));
  CHECK(length(80.0, 172.0) == Approx(24.0));
  CHECK(length(80.0, 355.0) == near(0.0, 1e-12));
  CHECK_THROWS_AS(sun_times(Degrees(91.0), 1.0), std::logic_error);
}

TEST_CASE("the day's shape is continuous at sunset and stays between its extremes by day") {
  const SunTimes sun{6.0, 18.0};
  const double before = temperature_at(Celsius(30.0), Celsius(10.0), sun, 18.0).value();
  const double after = temperature_at(Celsius(30.0), Celsius(10.0), sun, 18.0 + 1e-9).value();
  CHECK(before == near(after, 1e-6));
  const DayShape late{2.59, 1.55, 2.20};  // a positive c: the minimum holds until the sine starts
  CHECK(temperature_at(Celsius(30.0), Celsius(10.0), sun, 7.0, late).value() == Approx(10.0));
  CHECK_THROWS_AS(temperature_at(Celsius(10.0), Celsius(30.0), sun, 7.0), std::logic_error);
  CHECK_THROWS_AS(temperature_at(Celsius(30.0), Celsius(10.0), sun, 24.5), std::logic_error);
}

TEST_CASE("before sunrise the weights cool from yesterday's sunset towards today's minimum") {
  const SunTimes sun{6.0, 18.0};
  const HourWeights w = hour_weights(sun)[3];
  CHECK(w.today_max == 0.0);
  const double at_sunset = temperature_at(Celsius(34.0), Celsius(14.0), sun, 18.0).value();
  const double left = std::exp(-2.20 * 9.5 / 12.0);
  const double expected = 10.0 + (at_sunset - 10.0) * left;
  CHECK(w.today_min * 10.0 + w.yesterday_max * 34.0 + w.yesterday_min * 14.0 == Approx(expected));
}

TEST_CASE("a day is wave, anomaly, rise and range, its vapour never exceeds saturation at the minimum") {
  Parameters p;
  p.range_lead_days = 0.0;
  const Day plain = day_from(p, 204.8, {0.0, 0.0}, Kelvins(0.0));
  CHECK(plain.maximum == Approx(17.07 + 8.65 + (13.5 + 4.1) / 2.0));
  CHECK(plain.minimum == Approx(17.07 + 8.65 - (13.5 + 4.1) / 2.0));
  const Day hot = day_from(p, 204.8, {2.0, 0.0}, Kelvins(6.0));
  CHECK(hot.maximum - plain.maximum == Approx(2.0 * 2.91 + 6.0));
  const Day same_water = day_from(p, 204.8, {2.0, 0.0}, Kelvins(0.0));
  CHECK(hot.humidity_ratio == Approx(same_water.humidity_ratio));
  const Day snap = day_from(p, 20.0, {0.0, -5.0}, Kelvins(-10.0));
  CHECK(snap.humidity_ratio == Approx(humidity_ratio_at_dew_point(Celsius(snap.minimum))));
  p.range_mean = Kelvins(0.0);
  p.range_amplitude = Kelvins(0.0);
  const Day flat = day_from(p, 100.0, {0.0, 0.0}, Kelvins(0.0));
  CHECK(flat.maximum - flat.minimum == Approx(1.0));
}

TEST_CASE("an overlay ramps over its first and last day, and overlays add") {
  const std::vector<Overlay> one{{10.0, 4.0, Kelvins(8.0)}};
  const std::vector<double> expected{0.0, 4.0, 8.0, 8.0, 4.0, 0.0};
  for (std::size_t i = 0; i < expected.size(); ++i)
    CHECK(overlay_rise(one, 9.0 + static_cast<double>(i)).value() == near(expected[i], 1e-12));
  const std::vector<Overlay> two{{10.0, 4.0, Kelvins(8.0)}, {11.0, 4.0, Kelvins(-3.0)}};
  CHECK(overlay_rise(two, 12.0).value() == Approx(5.0));
  CHECK(overlay_rise({}, 3.0).value() == 0.0);
  CHECK(overlay_rise({{5.0, 0.0, Kelvins(8.0)}}, 5.0).value() == 0.0);
}

TEST_CASE("a series that is a wave has no anomaly, and gaps do not count as memory") {
  std::vector<double> day, celsius;
  const YearlyWave wave{Celsius(14.0), Kelvins(9.0), 210.0};
  for (int d = 1; d <= 365; ++d) {
    day.push_back(d);
    celsius.push_back(wave_at(wave, d).value());
  }
  const SeriesFit fit = fit_series(day, celsius);
  CHECK(fit.wave.mean.value() == Approx(14.0));
  CHECK(fit.wave.amplitude.value() == Approx(9.0));
  CHECK(fit.wave.peak_day == Approx(210.0));
  CHECK(fit.anomaly_sd == near(0.0, 1e-9));
  for (std::size_t i = 0; i < day.size(); ++i) celsius[i] += i % 2 == 0 ? 1.0 : -1.0;
  CHECK(fit_series(day, celsius).lag1 == near(-1.0, 0.02));
  std::vector<double> sparse_day, sparse;
  for (std::size_t i = 0; i < day.size(); i += 3) {
    sparse_day.push_back(day[i]);
    sparse.push_back(celsius[i]);
  }
  CHECK(fit_series(sparse_day, sparse).lag1 == 0.0);
  CHECK_THROWS_AS(fit_series({1.0, 2.0}, {3.0, 4.0}), std::logic_error);
}
