#include "models/room/heat_balance.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::room {

namespace {

constexpr double infiltration_watts = 0.33;  // per m3/h and kelvin: density times specific heat of air / 3600
constexpr double air_density = 1.2;          // kg dry air per m3 near 20 degC
constexpr double inner_surface = 7.7;        // W/m2K between room air and a wall (ISO 6946: 0.13 m2K/W)

void expect_sound(const Parameters& p) {
  EXPECTS(p.floor_area.value() > 0.0 && p.height.value() > 0.0 && p.heat_capacity.value() > 0.0);
  EXPECTS(p.shell_area.value() >= 0.0 && p.shell.value() >= 0.0 && p.air_changes >= 0.0);
  EXPECTS(p.insulation.value() >= 0.0 && p.insulation_conductivity > 0.0);
  EXPECTS(p.shade >= 0.0 && p.shade <= 1.0 && p.solar_aperture.value() >= 0.0);
  EXPECTS(p.heater.value() >= 0.0 && p.cooler.value() >= 0.0 && p.cooler_efficiency > 0.0);
  EXPECTS(p.wet_area.value() >= 0.0 && p.evaporation_film >= 0.0);
}

}  // namespace

Transmittance insulated(Transmittance bare, Metres thickness, double conductivity) {
  EXPECTS(bare.value() >= 0.0 && thickness.value() >= 0.0 && conductivity > 0.0);
  return Transmittance(bare.value() / (1.0 + bare.value() * thickness.value() / conductivity));
}

Step prepare(const Parameters& p) {
  expect_sound(p);
  const double shell = insulated(p.shell, p.insulation, p.insulation_conductivity).value();
  const double air_m3_h = p.air_changes * (p.floor_area * p.height).value();
  Step step;
  step.conductance = shell * p.shell_area.value() + infiltration_watts * air_m3_h;
  EXPECTS(step.conductance > 0.0);
  const double hour_over_time_constant = 3.6 * step.conductance / p.heat_capacity.value();  // 3600 s, kJ
  step.decay = std::exp(-hour_over_time_constant);
  step.ingress = -std::expm1(-hour_over_time_constant);
  step.gain_to_kelvin = step.ingress / step.conductance;
  step.kelvin_to_gain = 1.0 / step.gain_to_kelvin;
  step.heater_watts = p.heater.value();
  step.heater_set = p.heater_set.value();
  step.cooler_watts = p.cooler.value();
  // A heater of no power has no set point that a cooler could fight.
  step.cooler_set = p.heater.value() > 0.0 ? std::max(p.cooler_set.value(), p.heater_set.value()) : p.cooler_set.value();
  step.heater_rise = step.heater_watts * step.gain_to_kelvin;
  step.cooler_fall = step.cooler_watts * step.gain_to_kelvin;
  step.cooler_efficiency = p.cooler_efficiency;
  step.cooler_input = 1.0 / p.cooler_efficiency;
  step.solar_area = p.solar_aperture.value() * (1.0 - p.shade);
  step.vapour_vent = air_density * air_m3_h;
  step.vapour_film = p.evaporation_film * p.wet_area.value();
  const double both = step.vapour_vent + step.vapour_film;
  // A sealed dry room has no law for its humidity: it is given the outdoor air's.
  step.outdoor_share = both > 0.0 ? step.vapour_vent / both : 1.0;
  step.evaporation = both > 0.0 ? step.vapour_vent * step.vapour_film / both : 0.0;
  step.wall_film = p.evaporation_film * p.shell_area.value();
  step.wall_fall = std::min(1.0, shell / inner_surface);
  return step;
}

Walls on_walls(const Step& step, double ratio, double wall_ratio, bool evaporating) {
  Walls walls;
  const double wet = ratio - wall_ratio, film = evaporating ? step.vapour_film : 0.0, both = step.vapour_vent + film;
  if (!(wet > 0.0 && both > 0.0)) return walls;
  walls.lowered = step.wall_film * wet / (both + step.wall_film);
  walls.condensed = both * walls.lowered;
  walls.drawn = film * walls.lowered;
  walls.watts = latent_watts_per_kg_h * (walls.condensed * (1.0 - step.wall_fall) - walls.drawn);
  return walls;
}

}  // namespace rackwright::room
