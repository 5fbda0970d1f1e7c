// One day: its extremes, its water vapour, and its shape hour by hour.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"
#include "models/climate/climate.hpp"

namespace rackwright::climate {

namespace {

// Share of the way from minimum to maximum reached in daylight, `hours` after sunrise.
double daylight_share(double hours, double day_length, const DayShape& shape) {
  return std::sin(std::numbers::pi * std::max(0.0, hours - shape.c) / (day_length + 2.0 * shape.a));
}

// Share of the sunset excess left `hours` after sunset.
double night_share(double hours, double night_length, const DayShape& shape) {
  return std::exp(-shape.b * hours / night_length);
}

bool in_daylight(SunTimes sun, double hour) { return hour >= sun.sunrise && hour <= sun.sunset; }

void expect_sound(SunTimes sun, const DayShape& shape) {
  EXPECTS(sun.sunrise >= 0.0 && sun.sunset >= sun.sunrise && sun.sunset <= 24.0);
  EXPECTS(shape.a > 0.0 && shape.b >= 0.0);
}

}  // namespace

Celsius temperature_at(Celsius maximum, Celsius minimum, SunTimes sun, double hour, const DayShape& shape) {
  expect_sound(sun, shape);
  EXPECTS(hour >= 0.0 && hour <= 24.0 && maximum >= minimum);
  const double day_length = sun.sunset - sun.sunrise;
  const Kelvins range(maximum.value() - minimum.value());
  if (in_daylight(sun, hour)) return minimum + range * daylight_share(hour - sun.sunrise, day_length, shape);
  const double since_sunset = hour > sun.sunset ? hour - sun.sunset : hour + 24.0 - sun.sunset;
  const double at_sunset = daylight_share(day_length, day_length, shape);
  return minimum + range * (at_sunset * night_share(since_sunset, 24.0 - day_length, shape));
}

std::array<HourWeights, 24> hour_weights(SunTimes sun, const DayShape& shape) {
  expect_sound(sun, shape);
  const double day_length = sun.sunset - sun.sunrise;
  const double at_sunset = daylight_share(day_length, day_length, shape);
  std::array<HourWeights, 24> weights{};
  for (std::size_t h = 0; h < 24; ++h) {
    const double hour = static_cast<double>(h) + 0.5;
    HourWeights& w = weights[h];
    if (in_daylight(sun, hour)) {
      w.today_max = daylight_share(hour - sun.sunrise, day_length, shape);
      w.today_min = 1.0 - w.today_max;
    } else if (hour > sun.sunset) {
      w.today_max = at_sunset * night_share(hour - sun.sunset, 24.0 - day_length, shape);
      w.today_min = 1.0 - w.today_max;
    } else {
      const double left = night_share(hour + 24.0 - sun.sunset, 24.0 - day_length, shape);
      w.yesterday_max = left * at_sunset;
      w.yesterday_min = left * (1.0 - at_sunset);
      w.today_min = 1.0 - left;
    }
  }
  return weights;
}

double humidity_ratio_at_dew_point(Celsius dew_point) {
  // Air that dry holds no water that matters (a few thousandths of a milligram a kilogram); the law of vapour pressure ends a little below.
  constexpr double driest = -90.0;
  const double t = std::max(driest, dew_point.value());
  EXPECTS(t < 100.0);
  const double vapour_kpa = 0.6108 * std::exp(17.27 * t / (t + 237.3));
  return 0.621945 * vapour_kpa / (101.325 - vapour_kpa);
}

namespace {

// The variance's waves about its mean; never under a 25th of it.
double anomaly_spread(const Parameters& p, double day_of_year) {
  const double turn = 2.0 * std::numbers::pi / 365.0;
  const double share = 1.0 + p.anomaly_season * std::cos(turn * (day_of_year - p.anomaly_season_peak)) +
                       p.anomaly_half_year * std::cos(2.0 * turn * (day_of_year - p.anomaly_half_year_peak));
  return p.anomaly_sd.value() * std::sqrt(std::max(0.04, share));
}

}  // namespace

Shape shape_at(const Leaning& l, double summer, double half_year) {
  return shape_of(l.skew + l.skew_summer * summer + l.skew_half_year * half_year, l.tail + l.tail_summer * summer + l.tail_half_year * half_year);
}

Normal normal_of(const Parameters& parameters, double day_of_year) {
  const YearlyWave range_wave{Celsius(parameters.range_mean.value()), parameters.range_amplitude,
                              parameters.mean.peak_day - parameters.range_lead_days, parameters.range_half_year, parameters.range_half_year_peak};
  const YearlyWave dryness{Celsius(parameters.dew_depression_mean.value()), parameters.dew_depression_amplitude,
                           parameters.mean.peak_day};
  const double since_peak = 2.0 * std::numbers::pi * (day_of_year - parameters.mean.peak_day) / 365.0;
  const double summer = std::cos(since_peak), half_year = std::cos(2.0 * since_peak);
  const double range_since_peak = 2.0 * std::numbers::pi * (day_of_year - parameters.mean.peak_day + parameters.range_follow_lead) / 365.0;
  const double range_summer = std::cos(range_since_peak), range_half_year = std::cos(2.0 * range_since_peak);
  const double follow = parameters.range_follow + parameters.range_follow_summer * range_summer + parameters.range_follow_half_year * range_half_year;
  const double strays = std::max(0.0, parameters.range_sd.value() + parameters.range_sd_summer.value() * range_summer +
                                          parameters.range_sd_half_year.value() * range_half_year);
  Normal normal{wave_at(parameters.mean, day_of_year).value(), 0.5 * std::max(1.0, wave_at(range_wave, day_of_year).value()),
                wave_at(dryness, day_of_year).value(), 0.5 * follow, 0.5 * strays, anomaly_spread(parameters, day_of_year)};
  normal.high_spread = std::hypot(normal.spread * (1.0 + normal.half_follow), normal.half_spread);
  normal.low_spread = std::hypot(normal.spread * (1.0 - normal.half_follow), normal.half_spread);
  normal.leaning = (parameters.highs != Leaning{} || parameters.lows != Leaning{}) && normal.high_spread > 0.0 && normal.low_spread > 0.0;
  if (normal.leaning) {
    normal.highs = shape_at(parameters.highs, summer, half_year);
    normal.lows = shape_at(parameters.lows, summer, half_year);
  }
  return normal;
}

Day day_from(const Parameters& parameters, double day_of_year, const Luck& luck, Kelvins rise) {
  return day_from(parameters, normal_of(parameters, day_of_year), luck, rise);
}

Extremes extremes_from(const Normal& normal, const Luck& luck) {
  const double strayed = luck.anomaly * normal.spread;
  if (!normal.leaning)
    return {normal.mean + strayed, std::max(0.5, normal.half_range + normal.half_follow * strayed + normal.half_spread * luck.range)};
  const double wider = normal.half_follow * strayed + normal.half_spread * luck.range;
  const double high = normal.half_range + normal.high_spread * shaped(normal.highs, (strayed + wider) / normal.high_spread);
  const double low = -normal.half_range + normal.low_spread * shaped(normal.lows, (strayed - wider) / normal.low_spread);
  // Dull days of winter are narrow and have the lowest maxima: were these to give way, too, they would never be met.
  const double half_range = std::max(0.5, 0.5 * (high - low));
  return {normal.mean + high - half_range, half_range};
}

Day day_from(const Parameters& parameters, const Normal& normal, const Luck& luck, Kelvins rise) {
  const auto [mean, half_range] = extremes_from(normal, luck);
  const double depression = std::max(0.5, normal.dew_depression + luck.dew * parameters.dew_depression_sd.value());
  Day day;
  day.maximum = mean + rise.value() + half_range;
  day.minimum = mean + rise.value() - half_range;
  day.humidity_ratio = humidity_ratio_at_dew_point(Celsius(std::min(mean - depression, day.minimum)));
  return day;
}

Kelvins overlay_rise(const std::vector<Overlay>& overlays, double day) {
  Kelvins total{};
  for (const Overlay& overlay : overlays) {
    const double since_start = day + 0.5 - overlay.first_day;
    const double until_end = overlay.length_days - since_start;
    total += overlay.rise * std::clamp(std::min(since_start, until_end), 0.0, 1.0);
  }
  return total;
}

}  // namespace rackwright::climate
