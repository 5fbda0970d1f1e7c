#include "models/room/moist_air.hpp"

#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::room {

namespace {

constexpr double triple_point_celsius = 0.01;
constexpr double mass_ratio = 0.621945;             // water to dry air
constexpr double dry_air_gas_constant = 287.042;    // J/(kg K)
constexpr double volume_factor = 1.607858;          // 1 / mass_ratio, as printed

double log_pressure_ice(double kelvin) {
  constexpr double c1 = -5.6745359e3, c2 = 6.3925247, c3 = -9.677843e-3, c4 = 6.2215701e-7, c5 = 2.0747825e-9,
                   c6 = -9.484024e-13, c7 = 4.1635019;
  return c1 / kelvin + c2 + kelvin * (c3 + kelvin * (c4 + kelvin * (c5 + kelvin * c6))) + c7 * std::log(kelvin);
}

double log_pressure_water(double kelvin) {
  constexpr double c8 = -5.8002206e3, c9 = 1.3914993, c10 = -4.8640239e-2, c11 = 4.1764768e-5, c12 = -1.4452093e-8,
                   c13 = 6.5459673;
  return c8 / kelvin + c9 + kelvin * (c10 + kelvin * (c11 + kelvin * c12)) + c13 * std::log(kelvin);
}

// Bisection of a rising function: cannot miss the step of the formula at the triple point as Newton's rule could.
template <class Rising>
double bisect(double low, double high, double target, const Rising& rising) {
  while (high - low > 1e-10) {
    const double middle = 0.5 * (low + high);
    (rising(middle) < target ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double ratio_of(double vapour_pa, double pressure_pa) { return mass_ratio * vapour_pa / (pressure_pa - vapour_pa); }

MoistAir from_ratio(Celsius temperature, double ratio, Pascals pressure) {
  const double t = temperature.value();
  const Pascals vapour(pressure.value() * ratio / (mass_ratio + ratio));
  MoistAir air;
  air.humidity_ratio = ratio;
  air.relative_humidity = vapour / saturation_pressure(temperature);
  air.dew_point = dew_point(vapour);
  air.enthalpy = 1.006 * t + ratio * (2501.0 + 1.86 * t);
  air.volume = dry_air_gas_constant * (t + 273.15) * (1.0 + volume_factor * ratio) / pressure.value();
  return air;
}

}  // namespace

Pascals saturation_pressure(Celsius temperature) {
  EXPECTS(temperature >= coldest && temperature <= hottest);
  const double kelvin = temperature.value() + 273.15;
  return Pascals(
      std::exp(temperature.value() < triple_point_celsius ? log_pressure_ice(kelvin) : log_pressure_water(kelvin)));
}

Celsius dew_point(Pascals vapour) {
  EXPECTS(vapour.value() >= 0.0);
  if (vapour <= saturation_pressure(coldest)) return coldest;
  if (vapour >= saturation_pressure(hottest)) return hottest;
  return Celsius(bisect(coldest.value(), hottest.value(), vapour.value(),
                        [](double t) { return saturation_pressure(Celsius(t)).value(); }));
}

double saturation_humidity_ratio(Celsius temperature, Pascals pressure) {
  const Pascals vapour = saturation_pressure(temperature);
  EXPECTS(vapour < pressure);
  return ratio_of(vapour.value(), pressure.value());
}

MoistAir from_relative_humidity(Celsius temperature, double relative_humidity, Pascals pressure) {
  EXPECTS(relative_humidity >= 0.0 && relative_humidity <= 1.0);
  const Pascals vapour = relative_humidity * saturation_pressure(temperature);
  EXPECTS(vapour < pressure);
  return from_ratio(temperature, ratio_of(vapour.value(), pressure.value()), pressure);
}

double wet_bulb_humidity_ratio(Celsius temperature, Celsius wet_bulb, Pascals pressure) {
  EXPECTS(wet_bulb <= temperature);
  const double t = temperature.value();
  const double b = wet_bulb.value();
  const double saturated = saturation_humidity_ratio(wet_bulb, pressure);
  if (b >= 0.0) return ((2501.0 - 2.326 * b) * saturated - 1.006 * (t - b)) / (2501.0 + 1.86 * t - 4.186 * b);
  return ((2830.0 - 0.24 * b) * saturated - 1.006 * (t - b)) / (2830.0 + 1.86 * t - 2.1 * b);
}

MoistAir from_wet_bulb(Celsius temperature, Celsius wet_bulb, Pascals pressure) {
  const double ratio = wet_bulb_humidity_ratio(temperature, wet_bulb, pressure);
  EXPECTS(ratio >= 0.0);
  return from_ratio(temperature, ratio, pressure);
}

Celsius wet_bulb(Celsius temperature, double humidity_ratio, Pascals pressure) {
  EXPECTS(humidity_ratio >= 0.0);
  // Hot air may stand above the boiling point; a wet bulb never does.
  const bool boils = saturation_pressure(temperature) >= pressure;
  EXPECTS(boils || humidity_ratio <= saturation_humidity_ratio(temperature, pressure) * (1.0 + 1e-12));
  const double highest = boils ? dew_point(pressure).value() - 1e-6 : temperature.value();
  return Celsius(bisect(coldest.value(), highest, humidity_ratio, [&](double b) {
    return wet_bulb_humidity_ratio(temperature, Celsius(b), pressure);
  }));
}

}  // namespace rackwright::room
