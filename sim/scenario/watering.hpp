#pragma once
// Whether the water of a scenario suffices: what the network gives each tier against what the trays that stand there drink
// at their thirstiest, and how long the tank lasts.

#include <vector>

#include "models/growth/mat.hpp"
#include "models/water/network.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Growth parameters of a species by name, the scenario's own first. Expects that one of both knows it.
growth::Parameters growth_of(const Scenario& scenario, const std::string& species);

/// Growth days of so many days at 20 degC, by the line's own pace [d].
inline double growth_at_20(const growth::Parameters& growth, double days) { return days * growth::growth_rate(growth, Celsius(20.0)); }

/// Trays on the rack at a time when every batch is whole: as many as are sown in their days, or as there are places.
int trays_in_use(const Scenario& scenario);

/// What a kilogram of grain loses to the air a day at `pace` growth days a day [L/kg]: `lost` [L/kg], or the species' own figure where that is more.
double daily_loss(const growth::Parameters& parameters, double pace, double lost);

/// Water a kilogram of grain takes up and loses to the air in the day about `age` days from sowing, at `pace` growth days a day [L/kg]; what it
/// loses by daily_loss.
double daily_drink(const growth::Parameters& parameters, double age, double pace, double sprouted, KilogramsPerSquareMetre density,
                   double grain_dry_matter, double lost = 0.0);

struct TierWater {
  double need = 0.0;      ///< of its trays at their thirstiest, in a room as warm as growth is fastest in, in the driest month [L/d]
  double usual = 0.0;     ///< of its trays at their thirstiest, at 20 degC, in air of the year's mean dryness [L/d]
  double falls = 0.0;     ///< on them, while those above are at their thirstiest [L/d]
  double supplied = 0.0;  ///< of that, what they can catch [L/d]
  double usual_supplied = 0.0;  ///< what they can catch while those above drink their `usual` [L/d]
  [[nodiscard]] double share() const { return need > supplied ? supplied / need : 1.0; }
  [[nodiscard]] double usual_share() const { return usual > usual_supplied ? usual_supplied / usual : 1.0; }
};

struct Watering {
  water::Network network;
  water::Solution solution;
  std::vector<TierWater> tiers;  ///< lowest first
  Hours tank_lasts{};            ///< full, with the pump on its timer; infinite when nothing is drawn
};

/// The scenario's network must have no fault. On a ladder a tier holds the ages that its places pass through; at fixed places any
/// run of ages that fits it, of which the thirstiest counts. Half of what falls on a mat runs off unused (assumed, no source).
/// What a tier drinks does not fall on those below it.
Watering watering_of(const Scenario& scenario);

/// Pump time a day with which every tier could catch so many times what its mats drink at their thirstiest [h], be it more than a day has; infinite
/// where one gets nothing.
Hours pump_time_for(const Watering& watering, double times);

}  // namespace rackwright
