#pragma once
// How much water the line uses and what a failure of it does to a mat. Equations and sources: docs/models/water.md.

#include "models/base/quantity.hpp"

namespace rackwright::water {

/// Watering by timer.
struct Schedule {
  double cycles_per_day = 4.0;
  Hours on_time{0.05};              ///< pump on per cycle
  bool recirculating = false;       ///< drain returns to the tank
  double renewals_per_week = 2.0;   ///< tank emptied and refilled, when recirculating
};

/// How long the timer has the pump on in a day: all of it at most.
Hours pump_time(const Schedule& schedule);

/// Pump hours a day and water through the emitters.
struct Daily { Hours pump_time{}; double through_litres = 0.0; double fresh_litres = 0.0; KilowattHours energy{}; };

/// `taken_up` what the mats keep a day of what waters them [L], `evaporated` [L], `tank` [L]; the pump runs at most all day, and
/// not in the share `idle` of it. Fresh water is all that passes when nothing returns; otherwise what is kept and evaporated (no more than passes) and
/// the renewals of the tank.
Daily daily_use(const Schedule& schedule, LitresPerHour pump_flow, Watts pump_power, double taken_up, double evaporated, double tank,
                double idle = 0.0);

/// How long a full tank lasts with the pump on its timer [h]: by what passes when nothing returns, else by what is `kept` (taken
/// up and evaporated) a day [L]; infinite when nothing is drawn.
Hours tank_lasts(const Schedule& schedule, LitresPerHour pump_flow, double tank, double kept);

/// How drought hurts a wet mat: hours count double every `doubling` warmer, from 18 degC, and are added up as they pass (all assumed;
/// no source).
struct DryLaw {
  Kelvins doubling{8.0};
  Hours stall{10.0};       ///< dry hours at 18 degC by which most growth has stopped
  Hours death{60.0};       ///< dry hours at 18 degC that kill all but 1/e of the sprouts
  double sharpness = 2.5;  ///< of the killing [1]
};

/// Days of growth lost (never more than the dry time) and share of sprouts killed [1] in a mat left dry.
struct DryDamage { double growth_lost_days = 0.0; double sprouts_killed = 0.0; };

/// How many hours at 18 degC an hour counts for; the temperature within 0..45 degC.
double dry_weight(Celsius temperature, const DryLaw& law = {});
/// By hours dry and by the same hours counted by their warmth.
DryDamage dry_damage(Hours dry, Hours counted, const DryLaw& law = {});
/// At one temperature. Grows with `dry` and with `temperature`; next to nothing for 2 h at 18 degC.
DryDamage dry_damage(Hours dry, Celsius temperature, const DryLaw& law = {});

}  // namespace rackwright::water
