// Sunrise, sunset and radiation by the formulas of FAO Irrigation and Drainage Paper 56.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"
#include "models/climate/climate.hpp"

namespace rackwright::climate {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double solar_constant = 0.0820;  // MJ/m2/min

struct Geometry { double sine, cosine, sunset_angle, distance; };  // products sin sin, cos cos; [rad]; inverse square

Geometry geometry(Degrees latitude, double day_of_year) {
  EXPECTS(std::abs(latitude.value()) <= 90.0);
  const double phi = latitude.value() * pi / 180.0;
  const double year = 2.0 * pi * day_of_year / 365.0;
  const double declination = 0.409 * std::sin(year - 1.39);
  const double sine = std::sin(phi) * std::sin(declination);
  const double cosine = std::cos(phi) * std::cos(declination);
  // -tan tan written without a division by cos(90 deg): beyond +-1 the sun stays up or down all day.
  const double angle = std::abs(sine) >= cosine ? (sine > 0.0 ? pi : 0.0) : std::acos(-sine / cosine);
  return {sine, cosine, angle, 1.0 + 0.033 * std::cos(year)};
}

// MJ/m2 between two hour angles inside the day.
double between(const Geometry& g, double from, double to) {
  const double start = std::clamp(from, -g.sunset_angle, g.sunset_angle);
  const double end = std::clamp(to, -g.sunset_angle, g.sunset_angle);
  const double integral = (end - start) * g.sine + g.cosine * (std::sin(end) - std::sin(start));
  return std::max(0.0, 12.0 * 60.0 / pi * solar_constant * g.distance * integral);
}

}  // namespace

SunTimes sun_times(Degrees latitude, double day_of_year) {
  const double half_day = 12.0 / pi * geometry(latitude, day_of_year).sunset_angle;
  return {12.0 - half_day, 12.0 + half_day};
}

double extraterrestrial_radiation(Degrees latitude, double day_of_year) {
  return between(geometry(latitude, day_of_year), -pi, pi);
}

std::array<double, 24> hourly_sun(Degrees latitude, double day_of_year, double clear_sky_share) {
  EXPECTS(clear_sky_share >= 0.0 && clear_sky_share <= 1.0);
  const Geometry g = geometry(latitude, day_of_year);
  std::array<double, 24> sun{};
  for (int h = 0; h < 24; ++h) {
    const double megajoules = between(g, (h - 12) * pi / 12.0, (h - 11) * pi / 12.0);
    sun[static_cast<std::size_t>(h)] = clear_sky_share * megajoules * 1e6 / 3600.0;
  }
  return sun;
}

}  // namespace rackwright::climate
