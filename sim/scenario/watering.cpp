#include "sim/scenario/watering.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/design/rack.hpp"
#include "models/water/cascade.hpp"
#include "models/water/demand.hpp"
#include "sim/scenario/dry_air.hpp"
#include "sim/scenario/network.hpp"
#include "sim/scenario/sowing_order.hpp"

namespace rackwright {
namespace {

/// What the trays in use drink a day, youngest first, at 20 degC or at the fastest growth there is, where the air takes so much from a square metre
/// of mats [L].
std::vector<double> drinks(const Scenario& s, bool fastest, double to_air) {
  const int a_day = s.line.trays_per_batch * s.line.batches_per_day, in_use = trays_in_use(s);
  const double grain_kg = s.line.sowing_density.value() * design::tray_area(s.rack).value();
  std::vector<double> litres(static_cast<std::size_t>(in_use));
  const double lost = to_air / s.line.sowing_density.value();  // per kg of grain
  for (const std::string& name : sowing_order(s)) {
    const auto found = std::find_if(s.grains.begin(), s.grains.end(), [&](const GrainSupply& g) { return g.name == name; });
    EXPECTS(found != s.grains.end());
    const GrainSupply& grain = *found;
    const growth::Parameters growth = growth_of(s, grain.species);
    const double pace = fastest ? growth::growth_rate(growth, growth.optimum) : growth_at_20(growth, 1.0);
    for (int rank = 0; rank < in_use; ++rank) {
      const double age = (rank + 0.5) / a_day;
      litres[static_cast<std::size_t>(rank)] += grain_kg / s.line.batches_per_day *
          daily_drink(growth, age, pace, grain.grade.germination_mean, s.line.sowing_density, 1.0 - grain.moisture, lost);
    }
  }
  return litres;
}

/// What each tier's trays need, lowest tier first [L/d].
std::vector<double> needs(const Scenario& s, const std::vector<double>& litres) {
  const auto tiers = static_cast<std::size_t>(s.rack.tiers), per_tier = static_cast<std::size_t>(s.rack.trays_per_tier);
  std::vector<double> need(tiers);
  if (s.keeper.handling == route::Handling::ladder) {
    for (std::size_t rank = 0; rank < litres.size(); ++rank) need[tiers - 1 - rank / per_tier] += litres[rank];
    return need;
  }
  double most = 0.0, window = 0.0;
  for (std::size_t rank = 0; rank < litres.size(); ++rank) {
    window += litres[rank] - (rank >= per_tier ? litres[rank - per_tier] : 0.0);
    most = std::max(most, window);
  }
  need.assign(tiers, most);
  return need;
}

}  // namespace

growth::Parameters growth_of(const Scenario& scenario, const std::string& species) {
  for (const OwnSpecies& own : scenario.species) {
    if (own.name == species) return on_line(own.growth, scenario.own_line);
  }
  const auto preset = growth::preset(species);
  EXPECTS(preset.has_value());
  return on_line(*preset, scenario.own_line);
}

int trays_in_use(const Scenario& s) { return std::min(s.rack.tiers * s.rack.trays_per_tier, s.line.trays_per_batch * s.line.batches_per_day * s.line.days_on_rack); }

double daily_loss(const growth::Parameters& parameters, double pace, double lost) { return std::max(lost, pace * parameters.evaporated_litres); }

double daily_drink(const growth::Parameters& parameters, double age, double pace, double sprouted, KilogramsPerSquareMetre density,
                   double grain_dry_matter, double lost) {
  const double from = pace * std::max(0.0, age - 0.5);
  const auto taken_up = [&](double g) { return growth::mat(parameters, g, sprouted, density, grain_dry_matter).taken_up_litres; };
  return std::max(0.0, taken_up(from + pace) - taken_up(from) + daily_loss(parameters, pace, lost));
}

Watering watering_of(const Scenario& s) {
  Watering result;
  result.network = network_of(s);
  result.solution = water::solve(result.network);
  const auto tiers = static_cast<std::size_t>(s.rack.tiers);
  EXPECTS(result.solution.tier_flow.size() >= tiers);
  const DryAir air = dry_air(s, SquareMetres(trays_in_use(s) * design::tray_area(s.rack).value()));
  const std::vector<double> litres = drinks(s, false, air.usual), usual = needs(s, litres), need = needs(s, drinks(s, true, air.driest));
  const Hours pumped = water::pump_time(s.water.schedule);
  const auto thirsty = water::shared_out(result.network, result.solution, need, pumped), usually = water::shared_out(result.network, result.solution, usual, pumped);
  for (std::size_t tier = 0; tier < tiers; ++tier)
    result.tiers.push_back({need[tier], usual[tier], thirsty[tier].falls, thirsty[tier].catchable, usually[tier].catchable});
  double kept = 0.0;
  for (const double drunk : litres) kept += drunk;
  result.tank_lasts = water::tank_lasts(s.water.schedule, result.solution.pump_flow, s.water.tank_litres, kept);
  return result;
}

Hours pump_time_for(const Watering& watering, double times) {
  std::vector<double> need;
  for (const TierWater& tier : watering.tiers) need.push_back(tier.need);
  const auto suffices = [&](double hours) {
    const auto shared = water::shared_out(watering.network, watering.solution, need, Hours(hours));
    for (std::size_t tier = 0; tier < need.size(); ++tier)
      if (shared[tier].catchable < times * need[tier]) return false;
    return true;
  };
  constexpr double most = 1e6;
  double low = 0.0, high = 1.0;
  while (!suffices(high))
    if ((high *= 2.0) > most) return Hours(HUGE_VAL);
  for (int halving = 0; halving < 60; ++halving) {
    const double middle = 0.5 * (low + high);
    (suffices(middle) ? high : low) = middle;
  }
  return Hours(high);
}

}  // namespace rackwright
