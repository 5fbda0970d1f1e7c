// Weather against published climates, formulas' worked examples, and astronomy.
#include <array>
#include <cmath>
#include <cstdlib>
#include <string>
#include <fmt/core.h>

#include "models/climate/climate.hpp"
#include "tests/reference/table/kept.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

using namespace rackwright::climate;

void waves(Sheet& sheet) {
  sheet.from("Nottingham 1920-1939 (R data set nottem, 240 months), harmonic regression in R", Standing::worked, Bound::ours);
  std::array<double, 12> monthly{39.70, 39.19, 42.20, 46.29, 52.56, 58.04, 61.90, 60.52, 56.48, 49.50, 42.58, 39.53};
  for (double& month : monthly) month = (month - 32.0) / 1.8;
  const YearlyWave nottingham = fit_yearly_wave(monthly);
  sheet.near("mean of the year, Nottingham", "degC", 9.466, 0.005, nottingham.mean.value());
  sheet.near("amplitude, Nottingham", "K", 6.421, 0.02, nottingham.amplitude.value());
  sheet.bounds(Bound::rounding);
  sheet.near("warmest day, Nottingham", "d", 204.0, 1.0, nottingham.peak_day);
  sheet.from("Badajoz 1981-2010 (R package ks, data set tempb), wave fitted in R to the daily means; monthly means flatten it "
             "by 1.1 %", Standing::worked, Bound::ours);
  const YearlyWave badajoz =
      fit_yearly_wave({8.64, 10.38, 13.38, 15.17, 18.73, 23.49, 26.08, 25.88, 22.82, 17.73, 12.64, 9.64});
  sheet.near("mean of the year, Badajoz", "degC", 17.07, 0.05, badajoz.mean.value());
  sheet.near("amplitude, Badajoz", "K", 8.65 * 0.9886, 0.06, badajoz.amplitude.value());
  sheet.near("warmest day, Badajoz", "d", 204.8, 1.0, badajoz.peak_day);
  const Parameters p;
  sheet.from("the same daily series: residual spread and memory, range of December and July", Standing::worked, Bound::rounding);
  sheet.near("spread of the daily mean", "K", 2.91, 0.005, p.anomaly_sd.value());
  sheet.near("memory of a day", "1", 0.797, 0.0005, p.anomaly_memory);
  sheet.bounds(Bound::ours);
  const Day july = day_from(p, 196.0, {0.0, 0.0}, Kelvins(0.0)), december = day_from(p, 350.0, {0.0, 0.0}, Kelvins(0.0));
  sheet.near("daily range in July", "K", 17.6, 0.2, july.maximum - july.minimum);
  sheet.near("daily range in December", "K", 9.4, 0.2, december.maximum - december.minimum);
}

void shape(Sheet& sheet) {
  sheet.from("Parton & Logan 1981, Agric. Meteorol. 23:205-216, constants for air at 150 cm as listed in the TrenchR manual; "
             "worked by hand for 30 / 10 degC and sun from 6 to 18 h", Standing::worked, Bound::rounding);
  const struct { double hour, celsius; } rows[] = {{12.0, 28.87}, {15.0, 29.32}, {18.0, 23.03},
                                                   {21.0, 17.52}, {24.0, 14.34}, {5.5, 11.58}};
  for (const auto& row : rows)
    sheet.near(fmt::format("temperature at {} h", row.hour), "degC", row.celsius, 0.006,
               temperature_at(Celsius(30.0), Celsius(10.0), {6.0, 18.0}, row.hour).value());
}

void sun(Sheet& sheet) {
  sheet.from("FAO Irrigation and Drainage Paper 56, examples 8 and 9 (20 deg S, 3 September)", Standing::memory, Bound::rounding);
  sheet.near("radiation above the air, 20 deg S, day 246", "MJ/m2", 32.2, 0.05, extraterrestrial_radiation(Degrees(-20.0), 246.0));
  const auto length = [](double latitude, double day) {
    const SunTimes times = sun_times(Degrees(latitude), day);
    return times.sunset - times.sunrise;
  };
  sheet.near("day length, 20 deg S, day 246", "h", 11.7, 0.05, length(-20.0, 246.0));
  sheet.from("FAO-56 annex 2, table 2.6 (middles of the months)", Standing::memory, Bound::rounding);
  const struct { double day, radiation; } year[] = {{15, 15.0},  {46, 20.4},  {74, 27.2},  {105, 34.7}, {135, 39.7}, {166, 41.9},
                                                    {196, 40.8}, {227, 36.7}, {258, 30.0}, {288, 22.5}, {319, 16.3}, {349, 13.6}};
  for (const auto& row : year)
    sheet.near(fmt::format("radiation above the air, 40 deg N, day {:g}", row.day), "MJ/m2", row.radiation, 0.1,
               extraterrestrial_radiation(Degrees(40.0), row.day));
  sheet.near("radiation above the air, equator, day 74", "MJ/m2", 37.9, 0.1, extraterrestrial_radiation(Degrees(0.0), 74.0));
  sheet.from("astronomy: arccos(-tan 40 tan 23.44) 2/15, no refraction", Standing::worked, Bound::ours);
  sheet.near("longest day at 40 deg N", "h", 14.846, 0.03, length(40.0, 172.0));
  sheet.near("shortest day at 40 deg N", "h", 9.154, 0.03, length(40.0, 355.0));
}

// Correlation of neighbouring 30-day means of the anomaly.
double month_to_month(const Parameters& p) {
  const auto alike = [&](int days) {
    return (1.0 - p.slow_share) * std::pow(fast_memory(p), days) + p.slow_share * std::pow(p.slow_memory, days);
  };
  double within = 0.0, between = 0.0;
  for (int i = 0; i < 30; ++i)
    for (int j = 0; j < 30; ++j) {
      within += alike(std::abs(i - j));
      between += alike(30 + j - i);
    }
  return between / within;
}

}  // namespace

Sheet climate_rows() {
  Sheet sheet{std::string(weather_model)};
  waves(sheet);
  shape(sheet);
  sheet.from("Nottingham 1920-1939 (nottem): residuals of the monthly means, acf in R; two standard errors of 0.065", Standing::worked, Bound::scatter);
  Parameters lasting;
  lasting.slow_share = 0.139;  // as `fit weather` finds at Badajoz (tests/reference/outside), another station
  lasting.slow_memory = 0.979;
  sheet.near("memory from month to month, slow part as fitted at Badajoz", "1", 0.26, 0.13, month_to_month(lasting));
  sun(sheet);
  sheet.from("ASHRAE Handbook Fundamentals 2017, ch. 1, saturation pressures, as quoted by the test suite of PsychroLib", Standing::found, Bound::ours);
  for (const auto& [celsius, pascal] : {std::pair{5.0, 872.6}, std::pair{25.0, 3169.7}}) {
    const double ratio = 0.621945 * pascal / (101325.0 - pascal);
    sheet.near(fmt::format("humidity ratio at a dew point of {} degC", celsius), "kg/kg", ratio, 0.002 * ratio,
               humidity_ratio_at_dew_point(Celsius(celsius)));
  }
  add_kept(sheet, weather_model);
  return sheet;
}

}  // namespace rackwright::validation
