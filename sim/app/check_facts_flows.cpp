// Water and feed: the facts of `check` that flow.

#include <fmt/core.h>

#include "models/water/demand.hpp"
#include "sim/app/check_facts.hpp"

namespace rackwright::app {

namespace {

std::string pipe_words(const Plan& plan) {
  if (plan.water.limiting_pipe < 0) return "none";
  const water::Pipe& pipe = plan.network.pipes[static_cast<std::size_t>(plan.water.limiting_pipe)];
  const auto name = [&](int node) { return plan.network.nodes[static_cast<std::size_t>(node)].name; };
  return fmt::format("{} to {}", name(pipe.from), name(pipe.to));
}

// A column's mean over the played replications, a day.
double a_day(const Plan& plan, const study::Summary& played, std::string_view column) {
  return played.estimate(column).mean / plan.horizon_days;
}

}  // namespace

Section water_facts(const Plan& plan) {
  const WaterSystem& water = plan.scenario.water;
  const water::Daily daily =
      water::daily_use(water.schedule, plan.water.pump_flow, water.pump.power, 0.0, 0.0, water.tank_litres);
  Section section{
      "water",
      "Water",
      {{"pump_minutes", "pump runs a day", 60.0 * daily.pump_time.value(), "min",
        fmt::format("{:g} times {:.3g} min", water.schedule.cycles_per_day, 60.0 * water.schedule.on_time.value())},
       {"pump_energy", "pump's electricity a day", daily.energy.value(), "kWh"},
       {"pump_flow", "pump works at", plan.water.pump_flow.value(), "L/h",
        fmt::format("against a head of {}", amount(plan, plan.water.pump_head.value(), "m"))},
       {"pump_head", "head at that flow", plan.water.pump_head.value(), "m"}}};
  for (std::size_t tier = 0; tier < plan.water.tier_flow.size(); ++tier) {
    const std::string covered =
        tier < plan.tier_water.size()
            ? fmt::format("{:.0f} % of what its mats drink over a usual week", 100.0 * plan.tier_water[tier])
            : "";
    section.facts.push_back({fmt::format("tier_{}_flow", tier + 1), fmt::format("tier {} gets", tier + 1),
                             plan.water.tier_flow[tier].value(), "L/h", covered});
  }
  section.facts.push_back({"limiting_pipe", "pipe that limits the flow", pipe_words(plan)});
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
                             fmt::format("{:.0f} % of the diet's dry matter{}", 100.0 * want.diet_share, over)});
  }
  const std::string span = fmt::format("mean of {} replications played through", played.replications());
  section.facts.push_back({"wanted_per_day", "fodder wanted a day", a_day(plan, played, "wanted"), "kg", span});
  section.facts.push_back(
      {"harvested_per_day", "fodder harvested a day", a_day(plan, played, "fodder_fresh"), "kg", span});
  section.facts.push_back({"served_per_day", "fodder served a day", a_day(plan, played, "served"), "kg",
                           fmt::format("{:.1f} % of what is wanted", 100.0 * played.ratio("served", "wanted").mean)});
  section.facts.push_back({"water_per_day", "water used a day", a_day(plan, played, "water_used"), "L", span});
  return section;
}

}  // namespace rackwright::app
