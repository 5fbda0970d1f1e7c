#pragma once
// What dry air draws from the mats in a usual year.

#include "models/room/heat_balance.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// What a square metre of `wet` mats (> 0) loses in a day to air from outdoors of that humidity ratio, in a room of that step (its wet area `wet`) kept at `inside` [kg/m2/d].
double lost_to_air(const room::Step& step, Celsius inside, double outdoor_ratio, SquareMetres wet);

/// What a square metre of mats loses to the air a day [kg/m2/d]: in the mean of the months, and in the driest.
struct DryAir { double usual = 0.0, driest = 0.0; };

/// By the room's law with `wet` square metres of mats (> 0) in a room as warm as the month's mean outdoors, or as heater and cooler keep it;
/// months of the weather file where there is one, else of the climate's waves. Days and hours of a month
/// are taken at their mean.
DryAir dry_air(const Scenario& scenario, SquareMetres wet);

}  // namespace rackwright
