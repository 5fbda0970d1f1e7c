// Water and feed: the facts of `check` that flow.

#include <chrono>
#include <cmath>

#include <fmt/core.h>

#include "models/herd/breeding.hpp"
#include "models/water/demand.hpp"
#include "models/water/way.hpp"
#include "sim/app/check_facts.hpp"
#include "sim/scenario/watering_pipes.hpp"

namespace rackwright::app {

namespace {

std::string pipe_words(const Plan& plan, int index) {
  if (index < 0) return "none";
  const water::Pipe& pipe = plan.network.pipes[static_cast<std::size_t>(index)];
  const auto name = [&](int node) { return plan.network.nodes[static_cast<std::size_t>(node)].name; };
  return fmt::format("{} to {}", name(pipe.from), name(pipe.to));
}

// A column's mean over the played replications, a day.
double a_day(const Plan& plan, const study::Summary& played, std::string_view column) {
  return played.estimate(column).mean / plan.horizon_days;
}

std::string date_words(const Plan& plan, double day) {
  const std::chrono::year_month_day date{std::chrono::sys_days(plan.scenario.run.start) +
                                         std::chrono::days(static_cast<int>(std::floor(day)))};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

// What a group's births bring, on average.
void add_births(const Group& group, const Plan& plan, Section& into) {
  const herd::Breeding& breeding = group.breeding;
  const auto animal = herd::find_class(group.animal_class);
  if (breeding.first_birth_day < 0.0 || !animal) return;
  const Kilograms grown = group.weight.value_or(animal->weight);
  const double litter = litter_of(group);
  const double at_sale = herd::young_share(*animal, young_curve(group), grown, group.milk, breeding.sale, breeding.weaning);
  const double most = group.count * herd::peak_young_rations(breeding, litter, at_sale);
  into.facts.push_back({group.name + ".young", group.name + ", young weaned a season",
                        group.count * herd::weaned_per_female(breeding, litter), "1", "on average"});
  into.facts.push_back({group.name + ".young_rations", group.name + ", most their young want", most, "1",
                        "rations of a grown animal, just before they are sold"});
  into.facts.push_back({group.name + ".mating", group.name + ", mated from",
                        date_words(plan, herd::first_mating_day(breeding, animal->gestation)), "1",
                        "for births from " + date_words(plan, breeding.first_birth_day)});
}

// When a group is here, where that is not always.
void add_stay(const Group& group, const Plan& plan, Section& into) {
  const herd::Stay& stay = group.stay;
  if (!herd::comes_or_goes(stay)) return;
  const std::string from = stay.arrives < 0.0 ? "" : "from " + date_words(plan, stay.arrives);
  // One that leaves on the first day is not seen before it comes; where it leaves every year, it does so a year on.
  const double leaves = stay.leaves == 0.0 && stay.each_year ? 365.0 : stay.leaves;
  const std::string until = leaves < 1.0 ? "" : "until " + date_words(plan, leaves - 1.0);
  const bool both = !from.empty() && !until.empty(), leaves_first = both && leaves < stay.arrives;
  const std::string words = leaves_first ? until + ", and again " + from : both ? from + " " + until : from.empty() && until.empty() ? "never" : from + until;
  into.facts.push_back({group.name + ".here", group.name + ", fed here", words, "1", stay.each_year ? "each year" : ""});
}

}  // namespace

Section water_facts(const Plan& plan) {
  const WaterSystem& water = plan.scenario.water;
  const Watering water_of = watering_of(plan.scenario);
  const water::Daily daily =
      water::daily_use(water.schedule, plan.water.pump_flow, water.pump.power, 0.0, 0.0, water.tank_litres);
  const Hours pumped = daily.pump_time;
  Section section{
      "water",
      "Water",
      {{"pump_minutes", "pump runs a day", 60.0 * daily.pump_time.value(), "min",
        fmt::format("{:g} times for {:.3g} min", water.schedule.cycles_per_day, 60.0 * water.schedule.on_time.value())},
       {"pump_energy", "pump's electricity a day", daily.energy.value(), "kWh"},
       {"pump_flow", "pump works at", plan.water.pump_flow.value(), "L/h", "with all tiers running"},
       {"pump_head", "height it then lifts against", plan.water.pump_head.value(), "m",
        "the rise, and the friction in the pipes as if it were height"}}};
  for (std::size_t tier = 0; tier < plan.water.tier_flow.size(); ++tier) {
    const std::string covered =
        tier < water_of.tiers.size()
            ? fmt::format("{:.0f} % of what its mats drink at their thirstiest", 100.0 * water_of.tiers[tier].share())
            : "";
    // What falls from tiers above is what their mats leave of it.
    const double falls = tier < water_of.tiers.size() ? water_of.tiers[tier].falls / pumped.value() : plan.water.tier_flow[tier].value();
    section.facts.push_back({fmt::format("tier_{}_flow", tier + 1), fmt::format("tier {} gets", tier + 1), falls, "L/h", covered});
  }
  section.facts.push_back({"limiting_pipe", "pipe that slows the whole flow most", pipe_words(plan, plan.water.limiting_pipe)});
  for (std::size_t tier = 0; tier < water_of.tiers.size(); ++tier) {
    if (water_of.tiers[tier].share() >= watered_enough) continue;
    const int pipe = water::costliest_pipe(plan.network, plan.water, tier);
    if (pipe < 0) continue;
    section.facts.push_back({fmt::format("tier_{}_pipe", tier + 1), fmt::format("pipe that slows tier {} most", tier + 1), pipe_words(plan, pipe), "1",
                             fmt::format("it takes {} of what the pump lifts", amount(plan, water::head_lost(plan.network, plan.water, pipe).value(), "m"))});
  }
  section.facts.push_back(
      {"drain", "the drain should carry", plan.water.drain_needed.value(), "L/h", "three times the pump"});
  return section;
}

Section feed_facts(const Plan& plan, const study::Summary& played) {
  Section section{"feed", "Fodder", {}};
  const auto& groups = plan.scenario.groups;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const GroupPlan& want = plan.groups[i];
    const std::string over =
        want.diet_share > want.limit ? fmt::format(", above the usual limit of {:.0f} %", 100.0 * want.limit) : "";
    section.facts.push_back({groups[i].name + ".ration", groups[i].name + ", ration a head", want.ration, "kg",
                             fmt::format("{:.0f} % of the dry matter they eat{}", 100.0 * want.diet_share, over)});
    add_stay(groups[i], plan, section);
    add_births(groups[i], plan, section);
  }
  const std::string span = fmt::format("on average, in {} plays of the scenario", played.replications());
  section.facts.push_back({"wanted_per_day", "fodder wanted a day", a_day(plan, played, "wanted"), "kg", span});
  section.facts.push_back(
      {"harvested_per_day", "fodder harvested a day", a_day(plan, played, "fodder_fresh") + a_day(plan, played, "leftover"), "kg",
       "with what is cut and not eaten"});
  section.facts.push_back({"served_per_day", "fodder served a day", a_day(plan, played, "served"), "kg",
                           fmt::format("{:.1f} % of what is wanted", 100.0 * played.ratio("served", "wanted").mean)});
  section.facts.push_back({"water_per_day", "water used a day", a_day(plan, played, "water_used"), "L", span});
  return section;
}

}  // namespace rackwright::app
