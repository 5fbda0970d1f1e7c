#include "sim/replication/plan_parts.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/cost/ledger.hpp"
#include "models/feed/value.hpp"
#include "models/herd/animals.hpp"
#include "sim/scenario/network.hpp"

namespace rackwright {

void plan_room(Plan& plan) {
  room::Parameters room = plan.scenario.room;
  room.wet_area = SquareMetres(room.wet_area.value() + plan.positions * plan.tray_area);
  plan.room = room::prepare(room);
}

void plan_water(Plan& plan) {
  const Scenario& s = plan.scenario;
  plan.network = network_of(s);
  plan.water = water::solve(plan.network);
  const auto tiers = static_cast<std::size_t>(s.rack.tiers);
  EXPECTS(plan.water.tier_flow.size() >= tiers);
  // A week's mean uptake of a growing mat is 0.8 to 1 litre per kg of grain a day; half of what falls runs off unused
  // (assumed, no source). Only the trays that stand there drink.
  constexpr double litres_per_kg = 0.8, caught = 0.5;
  const double places = static_cast<double>(s.rack.tiers) * s.rack.trays_per_tier;
  const double in_use = std::min(1.0, static_cast<double>(s.line.trays_per_batch) * s.line.batches_per_day * s.line.days_on_rack / places);
  const double need = plan.grain_per_tray * s.rack.trays_per_tier * in_use * litres_per_kg;
  const double hours = s.water.schedule.cycles_per_day * s.water.schedule.on_time.value();
  for (std::size_t tier = 0; tier < tiers; ++tier) {
    const double supplied = plan.water.tier_flow[tier].value() * hours * caught;
    plan.tier_water.push_back(std::min(1.0, supplied / need));
  }
}

void plan_route(Plan& plan) {
  const Scenario& s = plan.scenario;
  route::LineShape& shape = plan.shape;
  shape.positions = plan.positions;
  shape.trays_per_batch = s.line.trays_per_batch;
  shape.batches_per_day = s.line.batches_per_day;
  shape.days_on_rack = days(s.line.days_on_rack);
  shape.soak = s.line.soak;
  shape.soak_buckets = s.keeper.soak_buckets;
  shape.trays_per_bucket = s.keeper.trays_per_bucket;
  shape.feedings_per_day = 0.0;
  for (const Group& group : s.groups) shape.feedings_per_day += group.count > 0 ? group.feedings : 0;
  shape.wash_trays_per_day = s.keeper.wash_trays_per_day;
  shape.keeper_minutes_per_day = s.keeper.minutes_per_day;
  shape.store_to_soak = s.keeper.store_to_soak;
  shape.soak_to_rack = s.keeper.soak_to_rack;
  shape.rack_to_animals = s.keeper.rack_to_animals;
  shape.animals_to_wash = s.keeper.animals_to_wash;
  plan.route = route::plan(route::usual_layout(shape, s.keeper.handling, s.keeper.times), shape, s.keeper.handling, s.keeper.times);
}

herd::GrowthCurve young_curve(const Group& group) {
  const auto animal = herd::find_class(group.animal_class);
  EXPECTS(animal.has_value());
  return herd::scaled_to(animal->growth, group.weight.value_or(animal->weight) * (animal->growth.mature / animal->weight));
}

Ration group_ration(const Group& group, double mat_dry_matter) {
  const auto animal = herd::find_class(group.animal_class);
  EXPECTS(animal.has_value());
  Ration ration;
  const Kilograms weight = group.weight.value_or(animal->weight);
  ration.intake = herd::intake(*animal, weight, group.milk).value();
  ration.limit = animal->fodder_limit;
  ration.fresh = group.ration ? group.ration->value() : group.share * ration.intake / mat_dry_matter;
  ration.share = feed::diet_share(Kilograms(ration.fresh * mat_dry_matter), Kilograms(ration.intake));
  return ration;
}

void plan_herd(Plan& plan) {
  double daily = 0.0, evening = 0.0;
  for (const Group& group : plan.scenario.groups) {
    const Ration ration = group_ration(group, plan.standard_dry_matter);
    daily += group.count * ration.fresh;
    evening += group.feedings > 1 ? 0.5 * group.count * ration.fresh : 0.0;
    GroupPlan& want = plan.groups.emplace_back();
    want.ration = ration.fresh;
    want.diet_share = ration.share;
    want.limit = ration.limit;
    plan.evening_share = daily > 0.0 ? evening / daily : 0.0;
    if (group.breeding.first_birth_day < 0.0) continue;
    want.litter.emplace(std::max(1.0, group.breeding.litter_mean), group.breeding.litter_sd);
    const auto animal = herd::find_class(group.animal_class);
    const Kilograms grown = group.weight.value_or(animal->weight);
    const herd::GrowthCurve young = young_curve(group);
    const int sold = static_cast<int>(in_days(group.breeding.sale));
    for (int age = 0; age < sold; ++age) {
      want.young.push_back(static_cast<float>(herd::young_share(young, grown, days(age), group.breeding.weaning)));
    }
  }
}

void plan_money(Plan& plan) {
  const Scenario& s = plan.scenario;
  cost::Build build;
  build.tiers = s.rack.tiers;
  // Trays in the wash and on the way: one batch more than there are places.
  build.trays = plan.positions + s.line.trays_per_batch;
  build.buckets = s.keeper.soak_buckets;
  build.heater = s.room.heater.value() > 0.0;
  build.cooler = s.room.cooler.value() > 0.0;
  plan.capital_per_day = cost::annual_cost(cost::capital(build, s.prices), s.prices.life_years, s.prices.interest).value() / 365.0;
}

}  // namespace rackwright
