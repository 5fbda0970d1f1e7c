#include "sim/replication/plan_parts.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"
#include "models/cost/ledger.hpp"
#include "models/grain/acceptance.hpp"
#include "models/herd/animals.hpp"
#include "models/herd/young.hpp"
#include "models/route/feeding_rounds.hpp"
#include "sim/replication/species_models.hpp"
#include "sim/scenario/build.hpp"
#include "sim/scenario/ration.hpp"
#include "sim/scenario/room_of.hpp"
#include "sim/scenario/rounds.hpp"
#include "sim/scenario/store_policy.hpp"
#include "sim/scenario/watering.hpp"

namespace rackwright {

room::Step room_step(const Plan& plan, double share, bool open, bool course) {
  room::Parameters room = room_of(plan.scenario, open);
  if (course && plan.opening) {
    room.heater = std::max(room.heater, plan.opening->course.heater);
    room.heater_set = room.heater_set + plan.opening->course.warmer;
  }
  if (plan.scenario.shaded.stated()) room.shade = 0.0;  // the days' sun is shaded instead
  room.wet_area = SquareMetres(room.wet_area.value() + share * plan.positions * plan.tray_area);
  return room::prepare(room);
}

int first_due(const Scenario& scenario, std::int64_t now) {
  const Line& line = scenario.line;
  int first = std::numeric_limits<int>::max();
  for (const Hours round : {scenario.keeper.morning, scenario.keeper.evening}) {
    if (line.batches_per_day < 2 && round == scenario.keeper.evening) break;
    const double soaked = 60.0 * (round - line.soak).value();  // minute of day 0
    first = std::min(first, static_cast<int>(std::ceil((static_cast<double>(now) - soaked) / minutes_per_day)));
  }
  return std::max(0, first) + line.days_on_rack;
}

void plan_lots(Plan& plan) {
  for (const GrainSupply& supply : plan.scenario.grains) {
    const ShortSeason& shortage = supply.shortage;
    const LotPolicy& policy = supply.policy;
    LotPlan& lots = plan.lots.emplace_back();
    lots.store = policy_in_use(supply);
    const auto models = species_models(plan.scenario, supply.species);
    EXPECTS(models.has_value());
    lots.ageing = grain::Ageing(models->viability, 100.0 * supply.moisture);
    if (policy.trial > 0) {
      lots.trial = policy.trial * models->physical.thousand_kernel_grams * 1e-6;
      lots.scatter = grain::pooled_scatter(policy.trial, supply.grade.tray_rho);
    }
    lots.instead = supply.grade;
    lots.dear = 1.0 + shortage.dearer;
    if (shortage.instead == grain::GradeName::own) continue;
    const grain::GradeTerms other = grain::terms_of(shortage.instead, {}, supply.grade);
    lots.instead = other.law;
    lots.dear *= other.price_multiple / supply.price_multiple;
  }
}

void plan_water(Plan& plan) {
  const Scenario& s = plan.scenario;
  const Watering watering = watering_of(s);
  plan.network = watering.network;
  plan.water = watering.solution;
  for (const TierWater& tier : watering.tiers) plan.tier_water.push_back(tier.usual_share());
  plan.tank_hours = watering.tank_lasts.value();
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
  const route::Layout layout = route::with_feeding_rounds(route::usual_layout(shape, s.keeper.handling, s.keeper.times), shape, rounds_a_day(s));
  plan.route = route::plan(layout, shape, s.keeper.handling, s.keeper.times);
}

herd::GrowthCurve young_curve(const Group& group) {
  const auto animal = herd::find_class(group.animal_class);
  EXPECTS(animal.has_value());
  return herd::curve_of_young(*animal, group.weight.value_or(animal->weight));
}

double litter_of(const Group& group) {
  const auto animal = herd::find_class(group.animal_class);
  EXPECTS(animal.has_value());
  return group.litter.value_or(animal->litter);
}

void plan_herd(Plan& plan) {
  double daily = 0.0, evening = 0.0;
  for (const Group& group : plan.scenario.groups) {
    const Diet diet = diet_of(group, plan.standard_dry_matter);
    const double ration = diet.ration.value();
    daily += group.count * ration;  // away or not: what the keeper's day must be able to hold
    evening += group.feedings > 1 ? 0.5 * group.count * ration : 0.0;
    GroupPlan& want = plan.groups.emplace_back();
    want.ration = ration;
    want.diet_share = diet.share;
    want.limit = diet.kind.fodder_limit;
    plan.evening_share = daily > 0.0 ? evening / daily : 0.0;
    if (group.breeding.first_birth_day < 0.0) continue;
    const double gone = plan.opening ? plan.opening->days_gone : 0.0;
    want.first_birth = herd::first_season_felt(group.breeding, gone) - gone;
    want.litter_mean = litter_of(group);
    want.litter.emplace(std::max(1.0, want.litter_mean), group.breeding.litter_sd);  // fewer than one: of so many more females none
    const auto animal = herd::find_class(group.animal_class);
    const Kilograms grown = group.weight.value_or(animal->weight);
    const herd::GrowthCurve young = young_curve(group);
    const int sold = static_cast<int>(in_days(group.breeding.sale));
    for (int age = 0; age < sold; ++age) {
      want.young.push_back(static_cast<float>(herd::young_share(*animal, young, grown, group.milk, days(age), group.breeding.weaning)));
    }
  }
}

void plan_money(Plan& plan) {
  const Scenario& s = plan.scenario;
  plan.capital_per_day = cost::annual_cost(capital_of(s), s.prices.life_years, s.prices.interest).value() / 365.0;
}

}  // namespace rackwright
