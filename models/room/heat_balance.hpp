#pragma once
// The room as one heat store: walls, air change, sun, mats, evaporation, heater and cooler; exact hourly step.
//
//   C dT/dt = K (T_out - T) + gain + sun * aperture - latent heat of (evaporation - condensation) + heater - cooler
//   K = U A + 0.33 (air changes) (volume)
//
// Equations, sources and what is left out: docs/models/room.md.

#include "models/base/quantity.hpp"

namespace rackwright::room {

/// What the keeper can build or measure.
struct Parameters {
  SquareMetres floor_area{12.0};
  Metres height{2.4};
  SquareMetres shell_area{50.0};         ///< walls and roof towards outdoors
  Transmittance shell{1.8};              ///< mean of walls and roof, without what insulation adds
  Metres insulation{0.0};                ///< thickness put on all of them, on the outside: the masonry still stores the room's heat
  double insulation_conductivity = 0.037;///< [W/m/K]; boards of mineral wool or foam 0.030 to 0.040 (from memory)
  double air_changes = 1.0;              ///< per hour [1/h]
  HeatCapacity heat_capacity{4000.0};    ///< air, masonry skin, water, rack
  SquareMetres solar_aperture{0.8};      ///< window and roof area times transmitted share
  double shade = 0.0;                    ///< share of the sun kept out [0..1]
  Watts heater{0.0};
  Celsius heater_set{16.0};
  Watts cooler{0.0};                     ///< heat it can move
  Celsius cooler_set{26.0};              ///< taken no lower than heater_set where there is a heater: the two never fight
  double cooler_efficiency = 2.5;        ///< heat moved per unit of electricity [1]
  SquareMetres wet_area{0.0};            ///< mats and wet floor that evaporate (derived from the rack)
  double evaporation_film = 11.0;        ///< per wet area and unit of humidity ratio [kg/m2/h]; Lewis relation at 3 W/m2/K, assumed
};

/// The same room reduced to the numbers an hour needs.
struct Step {
  double decay{};             ///< exp(-K dt / C) for one hour [1]
  double ingress{};           ///< 1 - decay: weight of outdoor air at the end of the hour [1]
  double conductance{};       ///< K: shell + air change [W/K]
  double gain_to_kelvin{};    ///< (1 - decay) / K: what a watt kept up for the hour does to its end temperature [K/W]
  double kelvin_to_gain{};    ///< its inverse [W/K]
  double heater_watts{}, heater_set{};
  double cooler_watts{}, cooler_set{}, cooler_efficiency{};
  double heater_rise{};       ///< end temperature gained by the heater flat out [K]
  double cooler_fall{};       ///< end temperature lost by the cooler flat out [K]
  double cooler_input{};      ///< 1 / cooler_efficiency [1]
  double solar_area{};        ///< aperture after shade [m2]
  double vapour_vent{};       ///< dry air exchanged [kg/h]
  double vapour_film{};       ///< evaporation coefficient times wet area [kg/h per unit humidity ratio]
  double outdoor_share{};     ///< vent / (vent + film): weight of outdoor air in the room's humidity [1]
  double evaporation{};       ///< vent * film / (vent + film) [kg/h per unit humidity ratio]
  double wall_film{};         ///< condensation coefficient times shell area [kg/h per unit humidity ratio]
  double wall_fall{};         ///< share of the fall of temperature to outdoors that lies between air and inner surface: U / 7.7, at most 1 [1]
};

/// Water on the inner surface of the shell where that is colder than the air's dew point, an hour.
struct Walls {
  double condensed = 0.0;         ///< on the walls [kg/h]
  double drawn = 0.0;             ///< evaporated beside what wet surfaces gave without it, since it dries the air [kg/h]
  double lowered = 0.0;           ///< of the air's humidity ratio [1]
  double watts = 0.0;             ///< to the room: heat of condensation that does not go out through the wall, less that of what is drawn
};
/// Quasi-steady as the room's humidity, with the shell as one more surface: vent (w_out - w) + film (w_sat - w) = wall (w - w_wall).
/// `ratio` is what the air would hold without it, `wall_ratio` saturation at the inner surface, `evaporating` whether wet surfaces are.
Walls on_walls(const Step& step, double ratio, double wall_ratio, bool evaporating);

/// Latent heat of evaporation near 20 degC as power per mass flow: 2.45 MJ/kg (FAO-56) [W per kg/h].
inline constexpr double latent_watts_per_kg_h = 2.45e6 / 3600.0;

/// Transmittance of a wall that lets through `bare` once insulation of `thickness` (>= 0) and `conductivity` (> 0) [W/m/K] is put on it: their
/// resistances add (ISO 6946). `bare` itself at no thickness.
Transmittance insulated(Transmittance bare, Metres thickness, double conductivity);

/// Needs positive area, height, heat capacity, conductivity and cooler efficiency, K > 0, shade in 0..1, nothing negative.
Step prepare(const Parameters& parameters);

/// One hour of the room.
struct Hour {
  double temperature{};      ///< at the end of the hour [degC]
  double humidity_ratio{};    ///< [1]
  double evaporated{};        ///< [kg]
  double condensed{};         ///< [kg]
  double heater_wh{};         ///< electricity or fuel heat used [Wh]
  double cooler_wh{};         ///< electricity used [Wh]
};

namespace detail {
// By value: std::min and std::max choose between addresses, which costs a trip through memory in the hottest loop.
constexpr double lesser(double a, double b) { return b < a ? b : a; }
constexpr double greater(double a, double b) { return a < b ? b : a; }
}  // namespace detail

/// Exact solution over one hour for constant inputs. The heater (cooler) runs at the constant power that ends the hour at
/// its set point, or flat out where that is not enough. `gain` is mat heat + lamp + pump [W], `sun` on a plane [W/m2],
/// `saturation_ratio` the saturation humidity ratio at `temperature` (tabulated by the caller). Humidity is quasi-steady,
/// vent (w_out - w) + film (w_sat - w) = 0, and never above saturation_ratio: where outdoor air is wetter than that, what it brings
/// beyond saturation condenses, vent (w_out - w_sat), and gives its heat to the room.
inline Hour advance(const Step& step, double temperature, double outdoor, double outdoor_ratio, double saturation_ratio,
                    double gain, double sun) {
  const double dryness = saturation_ratio - outdoor_ratio;
  const double evaporated = detail::greater(0.0, step.evaporation * dryness);
  const double condensed = step.vapour_vent * detail::greater(0.0, -dryness);
  const double watts = gain + step.solar_area * sun - latent_watts_per_kg_h * (evaporated - condensed);
  const double drifted = temperature * step.decay + (outdoor * step.ingress + watts * step.gain_to_kelvin);
  // The set points do not cross, so at most one of the two clamps acts; written side by side they keep the chain from hour
  // to hour short.
  const double warmed = detail::greater(drifted, detail::lesser(step.heater_set, drifted + step.heater_rise));
  const double cooled = detail::greater(step.cooler_set, drifted - step.cooler_fall);
  Hour hour;
  hour.temperature = detail::lesser(warmed, cooled);
  hour.humidity_ratio = saturation_ratio - step.outdoor_share * detail::greater(0.0, dryness);
  hour.evaporated = evaporated;
  hour.condensed = condensed;
  const double pushed = (hour.temperature - drifted) * step.kelvin_to_gain;
  hour.heater_wh = detail::lesser(step.heater_watts, detail::greater(0.0, pushed));
  hour.cooler_wh = detail::lesser(step.cooler_watts, detail::greater(0.0, -pushed)) * step.cooler_input;
  return hour;
}

/// What outdoor air and sun alone do to the temperature that ends an hour [degC].
inline double outdoor_part(const Step& step, double outdoor, double sun) {
  return outdoor * step.ingress + step.solar_area * sun * step.gain_to_kelvin;
}

}  // namespace rackwright::room
