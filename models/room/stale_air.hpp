#pragma once
// Carbon dioxide that living mats give to the air of a room.

#include "models/base/quantity.hpp"

namespace rackwright::room {

/// Carbon dioxide for the heat of respiration: glucose, six CO2 of 44.01 g for 2802 kJ [kg/MJ].
inline constexpr double carbon_dioxide_per_mj = 6.0 * 0.04401 / 2.802;
inline constexpr double outdoor_carbon_dioxide = 0.00042;  ///< share of the air's volume (2024, from memory) [1]
/// What people work in for eight hours at most: 5000 ppm (NIOSH and the European Union's limit, from memory) [1].
inline constexpr double carbon_dioxide_for_a_day = 0.005;
/// Dangerous to life at once: 40,000 ppm (NIOSH, from memory) [1].
inline constexpr double carbon_dioxide_of_danger = 0.04;

/// What mats of `heat` (>= 0) breathe out [kg/h].
inline double carbon_dioxide_given(Watts heat) { return heat.value() * 3600.0e-6 * carbon_dioxide_per_mj; }

/// Share of a room's air, by volume, that is carbon dioxide once it is steady: what mats of `heat` (>= 0) give, over the air that comes in, `air_changes` (>= 0) an
/// hour of `volume` (> 0), well mixed, at 20 degC; at most the share of oxygen in fresh air, which breathing ends with [1].
double carbon_dioxide(Watts heat, double air_changes, CubicMetres volume);

}  // namespace rackwright::room
