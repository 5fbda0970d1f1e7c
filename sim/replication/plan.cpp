#include "sim/replication/plan.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "models/base/expects.hpp"
#include "models/room/moist_air.hpp"
#include "sim/replication/beta_tables.hpp"
#include "sim/replication/plan_parts.hpp"
#include "sim/replication/species_models.hpp"
#include "sim/scenario/horizon.hpp"
#include "sim/scenario/ration.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/scenario/year_day.hpp"

namespace rackwright {
namespace {

void plan_grains(Plan& plan) {
  const Scenario& s = plan.scenario;
  std::vector<std::string> known;
  const auto add = [&](const GrainSupply& supply, double charge) {
    const auto models = species_models(s, supply.species);
    EXPECTS(models.has_value());
    auto at = std::find(known.begin(), known.end(), supply.species);
    if (at == known.end()) {
      plan.species.push_back({models->germination, models->growth});
      at = known.insert(known.end(), supply.species);
    }
    GrainPlan grain;
    grain.supply = static_cast<int>(&supply - s.grains.data());
    grain.charge = charge;
    grain.per_tray = charge * s.line.sowing_density.value() * design::tray_area(s.rack).value();
    grain.species = static_cast<int>(at - known.begin());
    grain.dry_matter = 1.0 - supply.moisture;
    grain.protein = s.feed.grain_protein.value_or(models->physical.crude_protein);
    grain.soak = models->soak;
    grain.dip = soak::dip_effect(s.line.dip);
    grain.trays = beta_table(supply.grade.tray_rho);
    grain.mats = MatTable(models->growth, charge * s.line.sowing_density, grain.dry_matter);
    plan.grains.push_back(grain);
  };
  for (const double charge : plan.charges) {
    for (const GrainSupply& supply : s.grains) add(supply, charge);
  }
  for (const std::string& name : sowing_order(s)) {
    const auto found = std::find_if(s.grains.begin(), s.grains.end(), [&](const GrainSupply& g) { return g.name == name; });
    EXPECTS(found != s.grains.end());
    plan.batch_grain.push_back(static_cast<int>(found - s.grains.begin()));
  }
}

void plan_days(Plan& plan) {
  const climate::Parameters& site = plan.scenario.climate;
  for (int day = 0; day <= 366; ++day) {
    const auto weights = climate::hour_weights(climate::sun_times(site.latitude, day));
    const auto sun = climate::hourly_sun(site.latitude, day, site.clear_sky_share);
    const YearPart& shaded = plan.scenario.shaded;
    const double let_in = shaded.stated() && shaded.holds(day) ? 1.0 - plan.scenario.room.shade : 1.0;
    DayPlan& shape = plan.days.emplace_back();
    shape.normal = climate::normal_of(site, day);
    for (std::size_t hour = 0; hour < 24; ++hour) {
      shape.today_max[hour] = static_cast<float>(weights[hour].today_max);
      shape.today_min[hour] = static_cast<float>(weights[hour].today_min);
      shape.yesterday_max[hour] = static_cast<float>(weights[hour].yesterday_max);
      shape.yesterday_min[hour] = static_cast<float>(weights[hour].yesterday_min);
      shape.sun[hour] = static_cast<float>(let_in * sun[hour]);
    }
  }
}

void plan_response(Plan& plan) {
  plan.response = ResponseTable(2 + 3 * plan.species.size());
  plan.saturation.resize(plan.response.bins());
  const spoilage::Parameters& spoil = plan.scenario.spoilage;
  for (std::size_t row = 0; row < plan.response.bins(); ++row) {
    const Celsius t(ResponseTable::coldest + ResponseTable::bin * static_cast<double>(row));
    plan.saturation[row] = static_cast<float>(room::saturation_humidity_ratio(t));
    const auto set = [&](std::size_t curve, double per_day) { plan.response.at(row, curve) = static_cast<float>(per_day / 24.0); };
    set(ResponseTable::mould, spoilage::growth_factor(spoil.mould, t));
    set(ResponseTable::sour, spoilage::growth_factor(spoil.sour, t));
    for (std::size_t i = 0; i < plan.species.size(); ++i) {
      const SpeciesPlan& species = plan.species[i];
      const int index = static_cast<int>(i);
      const double rate = germination::rate(species.germination, t);
      set(ResponseTable::growth(index), growth::growth_rate(species.growth, t));
      set(ResponseTable::rate(index), rate);
      set(ResponseTable::rate_fraction(index), rate * germination::fraction(species.germination, t));
    }
  }
  plan.response.close();
}

void plan_rack(Plan& plan) {
  const Scenario& s = plan.scenario;
  plan.positions = design::positions(s.rack);
  plan.tray_area = design::tray_area(s.rack).value();
  plan.grain_per_tray = s.line.sowing_density.value() * plan.tray_area;
  const auto heights = design::tier_heights(s.rack);
  // The room model's one temperature stands for mid-height of the rack.
  const double middle = 0.5 * (heights.front().value() + heights.back().value());
  for (const Metres height : heights) plan.tier_offset.push_back(s.tier_gradient.value() * (height.value() - middle));
  const growth::Mat ripe = standard_mat(s);
  plan.standard_dry_matter = ripe.dry_matter;
  plan.standard_mat = plan.grain_per_tray * ripe.fresh_ratio;
}

void plan_opening(Plan& plan, const Opening& opening) {
  plan.opening = std::make_shared<Opening>(opening);
  EXPECTS(opening.now >= 0 && opening.kept.size() <= plan.scenario.grains.size());
  int oldest = 1;
  for (const Opening::Sown& sown : opening.sown) {
    EXPECTS(sown.day >= -lead_days && minutes_per_day * sown.day < opening.now + minutes_per_day && sown.trays > 0);
    oldest = std::max(oldest, -sown.day);
    plan.most_trays = std::max(plan.most_trays, sown.trays);
  }
  int due = opening.sown.empty() && opening.wet.empty() ? first_due(plan.scenario, opening.now) : std::numeric_limits<int>::max();
  for (const Opening::Sown& sown : opening.sown) due = std::min(due, sown.day + plan.scenario.line.days_on_rack);
  for (const Opening::Wet& wet : opening.wet) due = std::min(due, wet.day + plan.scenario.line.days_on_rack);
  plan.fodder.from -= std::max(0, opening.days_gone);
  if (due >= new_feed_days) plan.fodder = {due, false};
  else plan.fodder.from = std::min(due, plan.fodder.from);
  // As long as the room takes to forget where it began: heater, cooler and usual weather have then made it what it is.
  constexpr double forgotten = 5.0;  // time constants
  const room::Step step = room::prepare(plan.scenario.room);
  const double constant = plan.scenario.room.heat_capacity.value() / (3.6 * step.conductance) / 24.0;
  plan.warm_up_days = std::max(oldest, static_cast<int>(std::min<double>(lead_days, std::ceil(forgotten * constant))));
  const auto charge_with = [&](double charge) {
    if (std::find(plan.charges.begin(), plan.charges.end(), charge) == plan.charges.end()) plan.charges.push_back(charge);
  };
  for (const Opening::Sown& sown : opening.sown) charge_with(sown.charge);
  for (const Opening::Wet& wet : opening.wet) {
    plan.most_trays = std::max(plan.most_trays, wet.trays);
    charge_with(wet.charge);
  }
  for (const Sowing& sowing : opening.course.sowings) {
    plan.most_trays = std::max(plan.most_trays, sowing.trays);
    charge_with(sowing.charge);
  }
}

Plan planned(const Scenario& scenario, const Opening* opening) {
  EXPECTS(!scenario.grains.empty() && !scenario.groups.empty());
  Plan plan;
  plan.scenario = scenario;
  plan.horizon_days = horizon_days(scenario);
  plan.first_day_of_year = plain_day_of_year(std::chrono::sys_days(scenario.run.start));
  if (const auto& length = scenario.run.warm_up_length) {
    plan.warm_up_days = std::clamp(static_cast<int>(std::ceil(in_days(*length))), 0, lead_days);
  } else if (scenario.run.rack_full_at_start) {
    plan.warm_up_days = std::min(lead_days, scenario.line.days_on_rack + scenario.line.grace_days + 3);
  }
  if (const int due = first_due(scenario, 0) - plan.warm_up_days; due > 0) plan.fodder = {due, false};
  plan.spells = scenario.spells;
  for (const HardTime& hard : scenario.hard_times) {
    if (const Kelvins change = change_of(hard); change.value() != 0.0)
      plan.spells.push_back({static_cast<double>(starts(hard)) / minutes_per_day, in_days(length_of(hard)), change});
  }
  plan.most_trays = scenario.line.trays_per_batch;
  if (opening != nullptr) plan_opening(plan, *opening);
  plan_grains(plan);
  plan_lots(plan);
  plan_rack(plan);
  plan_days(plan);
  plan_response(plan);
  plan_water(plan);
  plan_route(plan);
  plan_herd(plan);
  plan_money(plan);
  return plan;
}

}  // namespace

Plan make_plan(const Scenario& scenario) { return planned(scenario, nullptr); }

Plan make_plan(const Scenario& scenario, const Opening& opening) { return planned(scenario, &opening); }

}  // namespace rackwright
