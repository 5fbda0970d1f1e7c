#include "models/water/hydraulics.hpp"

#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"

namespace rackwright::water {

namespace {

constexpr double gravity = 9.80665;  // m/s2
constexpr double litres_per_hour = 3.6e6;  // in one m3/s

double area(Metres diameter) {
  EXPECTS(diameter.value() > 0.0);
  return 0.25 * std::numbers::pi * diameter.value() * diameter.value();
}

}  // namespace

double velocity(LitresPerHour flow, Metres diameter) { return flow.value() / litres_per_hour / area(diameter); }

LitresPerHour flow_at(double metres_per_second, Metres diameter) {
  return LitresPerHour(metres_per_second * area(diameter) * litres_per_hour);
}

Metres minor_loss(LitresPerHour flow, Metres diameter, double k) {
  EXPECTS(k >= 0.0);
  const double v = velocity(flow, diameter);
  return Metres(k * v * v / (2.0 * gravity));
}

LitresPerHour emitter_flow(const Emitter& emitter, Metres head) {
  EXPECTS(emitter.reference_flow.value() >= 0.0 && emitter.reference_head.value() > 0.0 && emitter.exponent >= 0.0);
  if (head.value() <= 0.0) return LitresPerHour(0.0);
  return emitter.reference_flow * std::pow(head / emitter.reference_head, emitter.exponent);
}

Metres emitter_head(const Emitter& emitter, LitresPerHour flow) {
  EXPECTS(emitter.reference_flow.value() > 0.0 && emitter.exponent > 0.0 && flow.value() >= 0.0);
  return emitter.reference_head * std::pow(flow / emitter.reference_flow, 1.0 / emitter.exponent);
}

LitresPerHour orifice_flow(Metres diameter, Metres head, double cd) {
  EXPECTS(head.value() >= 0.0 && cd >= 0.0);
  return LitresPerHour(cd * area(diameter) * std::sqrt(2.0 * gravity * head.value()) * litres_per_hour);
}

Metres pump_head(const Pump& pump, LitresPerHour flow) {
  EXPECTS(pump.full_flow.value() > 0.0);
  const double share = flow / pump.full_flow;
  return pump.shutoff * (1.0 - share * share);
}

LitresPerHour drain_capacity(Metres diameter, double slope, double roughness) {
  EXPECTS(slope >= 0.0 && roughness > 0.0);
  const double hydraulic_radius = 0.25 * diameter.value();
  return LitresPerHour(area(diameter) * std::pow(hydraulic_radius, 2.0 / 3.0) * std::sqrt(slope) / roughness *
                       litres_per_hour);
}

}  // namespace rackwright::water
