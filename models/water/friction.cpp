#include "models/water/friction.hpp"

#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"

namespace rackwright::water {
namespace {

constexpr double gravity = 9.80665;        // m/s2
constexpr double litres_per_hour = 3.6e6;  // in one m3/s
constexpr double laminar_end = 2000.0, turbulent_start = 4000.0;

struct Factor { double value, slope; };  // the friction factor, and how it changes with the Reynolds number

// Swamee & Jain, 0.25 / log10(e/3.7d + 5.74/Re^0.9)^2.
Factor turbulent(double reynolds, double relative_roughness) {
  const double film = 5.74 / std::pow(reynolds, 0.9);
  const double inside = relative_roughness / 3.7 + film, log = std::log(inside);
  const double value = 0.25 * std::numbers::ln10 * std::numbers::ln10 / (log * log);
  return {value, 1.8 * value * film / (reynolds * inside * log) };
}

// The cubic that meets the laminar and the turbulent line; at 4000 with the latter's slope, hence both logarithms there. Another
// printed form has the flow's own Reynolds number in one of them: up to 0.6 % lower near 2900.
Factor between(double reynolds, double relative_roughness) {
  const double edge = relative_roughness / 3.7 + 5.74 / std::pow(turbulent_start, 0.9);
  const double log = -2.0 / std::numbers::ln10 * std::log(edge);
  const double a = 1.0 / (log * log), b = a * (2.0 - 0.00514215 / (edge * log));
  const double x1 = 7.0 * a - b, x2 = 0.128 - 17.0 * a + 2.5 * b, x3 = -0.128 + 13.0 * a - 2.0 * b, x4 = 0.032 - 3.0 * a + 0.5 * b;
  const double r = reynolds / laminar_end;
  return {x1 + r * (x2 + r * (x3 + r * x4)), (x2 + r * (2.0 * x3 + r * 3.0 * x4)) / laminar_end};
}

Factor factor_at(double reynolds, double relative_roughness) {
  return reynolds < turbulent_start ? between(reynolds, relative_roughness) : turbulent(reynolds, relative_roughness);
}

}  // namespace

double kinematic_viscosity(Celsius water) {
  const double t = water.value(), cooler = 20.0 - t;
  EXPECTS(t >= 0.0 && t <= 60.0);
  const double viscosity = 1.002e-3 * std::pow(10.0, cooler / (t + 96.0) * (1.2364 - 1.37e-3 * cooler + 5.7e-6 * cooler * cooler));
  const double off = t - 3.9863;
  const double density = 1000.0 * (1.0 - off * off * (t + 288.9414) / (508929.2 * (t + 68.12963)));
  return viscosity / density;
}

double friction_factor(double reynolds, double relative_roughness) {
  EXPECTS(reynolds > 0.0 && relative_roughness >= 0.0 && relative_roughness <= 0.05);
  return reynolds <= laminar_end ? 64.0 / reynolds : factor_at(reynolds, relative_roughness).value;
}

PipeFriction::PipeFriction(Metres diameter, Metres length, const Wall& wall) {
  const double d = diameter.value();
  EXPECTS(d > 0.0 && length.value() >= 0.0 && wall.roughness.value() >= 0.0);
  const double velocity_per_flow = 4.0 / (std::numbers::pi * d * d * litres_per_hour);
  reynolds_per_flow_ = velocity_per_flow * d / kinematic_viscosity(wall.water);
  relative_roughness_ = std::fmin(wall.roughness.value() / d, 0.05);  // rougher is outside the law: taken as its end
  scale_ = length.value() / d * velocity_per_flow * velocity_per_flow / (2.0 * gravity);
  laminar_ = 64.0 / reynolds_per_flow_ * scale_;
}

HeadLoss PipeFriction::at(double flow) const {
  const double reynolds = reynolds_per_flow_ * flow;
  if (reynolds <= laminar_end) return {laminar_ * flow, laminar_};
  const Factor f = factor_at(reynolds, relative_roughness_);
  return {scale_ * f.value * flow * flow, scale_ * flow * (2.0 * f.value + reynolds * f.slope)};
}

Metres pipe_loss(LitresPerHour flow, Metres diameter, Metres length, const Wall& wall) {
  EXPECTS(flow.value() >= 0.0);
  return Metres(PipeFriction(diameter, length, wall).at(flow.value()).head);
}

Metres hazen_williams_loss(LitresPerHour flow, Metres diameter, Metres length, double c) {
  EXPECTS(flow.value() >= 0.0 && diameter.value() > 0.0 && length.value() >= 0.0 && c > 0.0);
  // Exponents as in the original US form, 10.44 L Q^1.852 / (C^1.852 d^4.8704) in feet, gpm and inches.
  return Metres(10.67 * length.value() * std::pow(flow.value() / litres_per_hour / c, 1.852) /
                std::pow(diameter.value(), 4.8704));
}

}  // namespace rackwright::water
