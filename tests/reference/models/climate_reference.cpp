// Weather against published climates, formulas' worked examples, and astronomy.
#include <array>

#include "models/climate/climate.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::climate;

TEST_CASE("the yearly wave through published monthly normals") {
  SECTION("Nottingham 1920-1939 (R dataset nottem, 240 months): harmonic regression in R gives 49.0396 degF, amplitude 11.557 degF") {
    const std::array<double, 12> fahrenheit{39.70, 39.19, 42.20, 46.29, 52.56, 58.04, 61.90, 60.52, 56.48, 49.50, 42.58, 39.53};
    std::array<double, 12> monthly{};
    for (std::size_t m = 0; m < 12; ++m) monthly[m] = (fahrenheit[m] - 32.0) / 1.8;
    const YearlyWave wave = fit_yearly_wave(monthly);
    CHECK(wave.mean.value() == Approx(9.466).margin(0.005));
    CHECK(wave.amplitude.value() == Approx(6.421).margin(0.02));
    CHECK(wave.peak_day == Approx(204.0).margin(1.0));
  }
  SECTION("Badajoz 1981-2010 (R package ks, data tempb): wave fitted to the daily means 17.07, 8.65, 204.8") {
    const std::array<double, 12> monthly{8.64, 10.38, 13.38, 15.17, 18.73, 23.49, 26.08, 25.88, 22.82, 17.73, 12.64, 9.64};
    const YearlyWave wave = fit_yearly_wave(monthly);
    CHECK(wave.mean.value() == Approx(17.07).margin(0.05));
    // A month's mean flattens the wave by sin(pi/12)/(pi/12) = 0.9886, here 0.10 K.
    CHECK(wave.amplitude.value() == Approx(8.65 * 0.9886).margin(0.06));
    CHECK(wave.peak_day == Approx(204.8).margin(1.0));
  }
}

TEST_CASE("the day's shape at six hours") {
  // Parton & Logan 1981, Agric. Meteorol. 23:205-216, constants for air at 150 cm (1.86, 2.20, -0.17) as listed in the
  // TrenchR manual; worked by hand for 30 / 10 degC and sun from 6 to 18 h, c moving the sine's start only.
  const struct { double hour, celsius; } rows[] = {{12.0, 28.87}, {15.0, 29.32}, {18.0, 23.03},
                                                   {21.0, 17.52}, {24.0, 14.34}, {5.5, 11.58}};
  for (const auto& row : rows) {
    INFO("hour " << row.hour << ", want " << row.celsius);
    CHECK(temperature_at(Celsius(30.0), Celsius(10.0), {6.0, 18.0}, row.hour).value() == Approx(row.celsius).margin(0.006));
  }
}

TEST_CASE("radiation and day length of the FAO-56 worked examples") {
  // FAO Irrigation and Drainage Paper 56, examples 8 and 9: 20 deg S, 3 September (day 246), from memory.
  CHECK(extraterrestrial_radiation(Degrees(-20.0), 246.0) == Approx(32.2).margin(0.05));
  const SunTimes sun = sun_times(Degrees(-20.0), 246.0);
  CHECK(sun.sunset - sun.sunrise == Approx(11.7).margin(0.05));
}

TEST_CASE("daily radiation at the equator in mid-March") {
  // FAO-56 annex 2, table 2.6: 37.9 MJ/m2/d (15 March, day 74), from memory.
  CHECK(extraterrestrial_radiation(Degrees(0.0), 74.0) == Approx(37.9).margin(0.1));
}

TEST_CASE("longest and shortest day at 40 degrees north") {
  // Astronomical day length without refraction at 40 deg N: 14 h 51 min and 9 h 9 min (declination 23.44 deg), by
  // arccos(-tan 40 tan 23.44) * 2/15.
  const SunTimes june = sun_times(Degrees(40.0), 172.0);
  const SunTimes december = sun_times(Degrees(40.0), 355.0);
  CHECK(june.sunset - june.sunrise == Approx(14.846).margin(0.03));
  CHECK(december.sunset - december.sunrise == Approx(9.154).margin(0.03));
}

TEST_CASE("the default site keeps the published spread, memory and range of its station") {
  // Badajoz (R package ks, tempb): daily residual sd 2.91 K, lag-1 0.797; range 9.4 K in December to 17.6 K in July.
  const Parameters p;
  CHECK(p.anomaly_sd.value() == Approx(2.91));
  CHECK(p.anomaly_memory == Approx(0.797));
  const Day july = day_from(p, 196.0, 0.0, 0.0, Kelvins(0.0));
  const Day december = day_from(p, 350.0, 0.0, 0.0, Kelvins(0.0));
  CHECK(july.maximum - july.minimum == Approx(17.6).margin(0.2));
  CHECK(december.maximum - december.minimum == Approx(9.4).margin(0.2));
}

TEST_CASE("vapour by FAO-56 equation 11 agrees with the printed saturation table") {
  // ASHRAE Handbook Fundamentals 2017, ch. 1, saturation pressures 872.6 Pa at 5 degC and 3169.7 Pa at 25 degC.
  const struct { double celsius, pascal; } rows[] = {{5.0, 872.6}, {25.0, 3169.7}};
  for (const auto& row : rows) {
    INFO("dew point " << row.celsius << " degC, " << row.pascal << " Pa");
    const double ratio = 0.621945 * row.pascal / (101325.0 - row.pascal);
    CHECK(humidity_ratio_at_dew_point(Celsius(row.celsius)) == Approx(ratio).epsilon(0.002));
  }
}
