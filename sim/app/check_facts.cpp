#include "sim/app/check_facts.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "models/base/expects.hpp"
#include "models/cost/ledger.hpp"
#include "models/design/rack.hpp"
#include "models/route/stations.hpp"
#include "sim/replication/species_models.hpp"
#include "sim/report/build_words.hpp"
#include "sim/scenario/build.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

// One US cup (1/16 US gallon of 231 cubic inches), the measure a keeper has at hand.
constexpr double cup_m3 = 236.5882365e-6;

double cups(const Plan& plan, const GrainSupply& supply) {
  const auto species = species_models(plan.scenario, supply.species);
  ENSURES(species.has_value());
  return plan.grain_per_tray / (species->physical.bulk_density.value() * cup_m3);
}

std::string at_most(const Plan& plan) { return plan.scenario.line.sow == SowRule::all ? "" : " at most: no more than are to be wanted"; }

// Fresh mass of a ripe mat per mass of grain, of the grain whose mats are heaviest when all of it sprouts: what the
// rack must carry.
double heaviest_fresh_ratio(const Plan& plan) {
  double most = 0.0;
  for (std::size_t i = 0; i < plan.grains.size(); ++i) {
    const growth::Parameters& growth = plan.species[static_cast<std::size_t>(plan.grains[i].species)].growth;
    most = std::max(most,
                    growth::mat(growth, growth.ripe, 1.0, plan.scenario.line.sowing_density, plan.grains[i].dry_matter)
                        .fresh_ratio);
  }
  return most;
}

}  // namespace

double trays_a_day(const Plan& plan) { return plan.scenario.line.trays_per_batch * plan.scenario.line.batches_per_day; }

std::string amount(const Plan& plan, double value, std::string_view unit) {
  const bool us = plan.scenario.units == Units::us;
  // A hen's share is grams or ounces.
  if (unit == "kg" && value > 0.0 && value < 0.1) return us ? fmt::format("{:.2g} oz", convert(value, "kg", "oz")) : fmt::format("{:.2g} g", 1000.0 * value);
  return write_quantity(value, unit, us, 3);
}

Section line_facts(const Plan& plan) {
  const Line& line = plan.scenario.line;
  const route::Positions need = route::littles_law(trays_a_day(plan), days(line.days_on_rack), line.soak);
  const double spare = plan.positions - need.on_rack;
  const std::string verdict = spare < 0.0    ? "too few"
                              : spare == 0.0 ? "just enough, none to spare"
                                             : fmt::format("{:g} to spare", spare);
  return {
      "line",
      "The line",
      {{"trays_per_day", "trays sown a day", trays_a_day(plan), "1",
        fmt::format("{} batch{} of {}{}", line.batches_per_day, line.batches_per_day == 1 ? "" : "es",
                    line.trays_per_batch, at_most(plan))},
       {"days_on_rack", "days on the rack", static_cast<double>(line.days_on_rack), "d"},
       {"positions_needed", "places needed", need.on_rack, "1", "trays a day times days on the rack"},
       {"positions", "places on the rack", static_cast<double>(plan.positions), "1",
        fmt::format("{} tier{} of {}; {}", plan.scenario.rack.tiers, plan.scenario.rack.tiers == 1 ? "" : "s", plan.scenario.rack.trays_per_tier, verdict)},
       {"in_soak", "trays' worth of grain in the soak", need.in_soak, "1", "on average over the day"}}};
}

Section grain_facts(const Plan& plan) {
  Section section{"grain", "Grain", {}};
  const auto& grains = plan.scenario.grains;
  section.facts.push_back({"per_tray", "grain on a tray", plan.grain_per_tray, "kg",
                           fmt::format("at {} on {}", amount(plan, plan.scenario.line.sowing_density.value(), "kg/m2"),
                                       amount(plan, plan.tray_area, "m2"))});
  const std::string at_most_words = plan.scenario.line.sow == SowRule::all ? "" : "when every tray is sown";
  for (std::size_t i = 0; i < grains.size(); ++i) {
    const double daily = most_sown_a_day(plan.scenario, i);
    const std::string& name = grains[i].name;
    section.facts.push_back({name + ".cups_per_tray", name + " on a tray", cups(plan, grains[i]), "1", "level cups (of the US measure, 237 ml)"});
    section.facts.push_back({name + ".per_day", name + " a day", daily, "kg", at_most_words});
    section.facts.push_back({name + ".per_week", name + " a week", 7.0 * daily, "kg", at_most_words});
    if (daily <= 0.0) continue;
    const Kilograms bag = grains[i].store.bag;
    const double life = in_days(grain::bag_life(bag, Kilograms(daily)));
    section.facts.push_back({name + ".bag_life", name + ": one bag lasts", life, "d",
                             fmt::format("a bag of {}", amount(plan, bag.value(), "kg"))});
  }
  return section;
}

Section rack_facts(const Plan& plan) {
  const design::Rack& rack = plan.scenario.rack;
  const design::Load load = design::loaded(rack, plan.scenario.line.sowing_density, heaviest_fresh_ratio(plan));
  const double slender = design::slenderness(rack);
  return {"rack",
          "The rack",
          {{"height", "height", design::total_height(rack).value(), "m"},
           {"footprint", "floor it stands on", design::footprint(rack).value(), "m2"},
           {"slenderness", "height over depth", slender, "1",
            slender > design::slenderness_to_anchor ? "fix it to the wall" : "fix it all the same where children or animals come to it"},
           {"load_per_tray", "a ripe, wet tray weighs", load.per_tray.value(), "kg"},
           {"load_per_tier", "a full tier weighs", load.per_tier.value(), "kg"},
           {"load_total", "the full rack weighs", load.total.value(), "kg",
            "ripe mats, water and trays, without its frame"}}};
}

Section money_facts(const Plan& plan) {
  const Scenario& s = plan.scenario;
  Section section{"money", "Money to build it", {}};
  for (const cost::Part& part : cost::bill(build_of(s), s.prices))
    section.facts.push_back({std::string(part.name), std::string(part.name), (part.amount * part.each).value(), "1", report::part_words(part.amount, part.unit, part.each.value(), s.currency, s.units == Units::us)});
  const Money capital = capital_of(s);
  section.facts.push_back({"capital", "together", capital.value(), "1", s.currency});
  section.facts.push_back({"capital_year", "spread, a year", 365.0 * plan.capital_per_day, "1", fmt::format("{} {}", s.currency, report::annuity_words(s.prices.life_years, s.prices.interest))});
  return section;
}

}  // namespace rackwright::app
