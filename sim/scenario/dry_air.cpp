#include "sim/scenario/dry_air.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "models/base/expects.hpp"
#include "models/climate/climate.hpp"
#include "models/climate/record.hpp"
#include "models/room/moist_air.hpp"
#include "sim/scenario/room_of.hpp"

namespace rackwright {
namespace {

struct Month { double days = 0.0, mean = 0.0, ratio = 0.0; };  ///< sums of days, of their means [degC] and of humidity ratios [1]
using Months = std::array<Month, 12>;

constexpr double month_days = 365.0 / 12.0;

void add(Months& months, int day_of_year, const climate::Day& weather) {
  Month& month = months[static_cast<std::size_t>(std::min(11.0, day_of_year / month_days))];
  month.days += 1.0;
  month.mean += 0.5 * (weather.maximum + weather.minimum);
  month.ratio += weather.humidity_ratio;
}

/// Days of usual weather of the climate's waves.
void add_waves(Months& months, const climate::Parameters& climate, int step) {
  for (int day = 0; day < 365; day += step) add(months, day, climate::day_from(climate, day + 1.0, {}, Kelvins(0.0)));
}

void add_record(Months& months, const climate::RecordedWeather& weather, const climate::Parameters& climate, int step) {
  for (std::size_t i = 0; i < weather.record.size(); i += static_cast<std::size_t>(step)) {
    if (!weather.record.has(i)) continue;
    const int day = static_cast<int>(i % 365);
    add(months, day, climate::day_of(weather, i, climate, climate::normal_of(climate, day + 1.0), 0.0, Kelvins(0.0)));
  }
}

}  // namespace

double lost_to_air(const room::Step& step, Celsius inside, double outdoor_ratio, SquareMetres wet) {
  EXPECTS(wet.value() > 0.0);
  return 24.0 * step.evaporation * std::max(0.0, room::saturation_humidity_ratio(inside) - outdoor_ratio) / wet.value();
}

DryAir dry_air(const Scenario& s, SquareMetres wet) {
  EXPECTS(wet.value() > 0.0);
  Months months{};
  constexpr int step = 5;  // days; a month's mean needs no more
  if (s.weather.record) add_record(months, *s.weather.record, s.climate, step);
  else add_waves(months, s.climate, step);
  room::Parameters closed = room_of(s, false), open = room_of(s, true);
  closed.wet_area = open.wet_area = wet;
  const room::Step shut = room::prepare(closed), wide = room::prepare(open);
  DryAir air;
  double known = 0.0;
  for (std::size_t m = 0; m < months.size(); ++m) {
    const Month& month = months[m];
    if (month.days <= 0.0) continue;
    const room::Step& now = s.opened.holds(static_cast<int>((static_cast<double>(m) + 0.5) * month_days) + 1) ? wide : shut;
    double inside = month.mean / month.days;
    if (now.heater_watts > 0.0) inside = std::max(inside, now.heater_set);
    if (now.cooler_watts > 0.0) inside = std::min(inside, now.cooler_set);
    const double a_day = lost_to_air(now, Celsius(inside), month.ratio / month.days, wet);
    air.usual += a_day;
    air.driest = std::max(air.driest, a_day);
    known += 1.0;
  }
  if (known > 0.0) air.usual /= known;
  return air;
}

}  // namespace rackwright
