#include "sim/app/check_work.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "models/route/feeding_rounds.hpp"
#include "models/route/stations.hpp"
#include "sim/scenario/rounds.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

std::string limit_words(const std::string& bottleneck) {
  return bottleneck == "wash" ? "washing place" : bottleneck == "rack" ? "places on the rack" : bottleneck;
}

/// What the line can handle: where buckets bind, a batch waits for one as long as it may, as it does when it is played.
struct Handled { route::Plan route; bool soak_cut = false; };

Handled handled(const Plan& plan) {
  const Scenario& s = plan.scenario;
  if (plan.route.bottleneck != "soak buckets" || plan.route.daily_ceiling >= trays_a_day(plan)) return {plan.route};
  route::LineShape shape = plan.shape;
  shape.soak = least_soak * shape.soak;
  const auto layout = route::with_feeding_rounds(route::usual_layout(shape, s.keeper.handling, s.keeper.times), shape, rounds_a_day(s));
  Handled out{route::plan(layout, shape, s.keeper.handling, s.keeper.times)};
  out.soak_cut = out.route.daily_ceiling > plan.route.daily_ceiling;
  return out;
}

const RoundWork* tightest(const std::vector<RoundWork>& rounds) {
  return &*std::min_element(rounds.begin(), rounds.end(), [](const RoundWork& a, const RoundWork& b) { return a.most_trays < b.most_trays; });
}

bool told_apart(const Plan& plan) { return plan.scenario.keeper.evening_minutes.has_value(); }

}  // namespace

std::vector<RoundWork> rounds_of(const Plan& plan) {
  const Keeper& keeper = plan.scenario.keeper;
  const double trays = trays_a_day(plan);
  if (!told_apart(plan)) return {{"day", plan.route.minutes_per_day, keeper.minutes_per_day, plan.route.daily_ceiling}};
  const route::Times& times = keeper.times;
  const int rounds = rounds_a_day(plan.scenario);
  const double walk = plan.route.walk_per_day.value() / times.walking_speed / rounds;
  const double moves = keeper.handling == route::Handling::ladder ? times.move_per_tray * plan.scenario.line.days_on_rack : 0.0;
  const double evening_share = rounds > 1 ? plan.evening_share : 0.0;
  std::vector<RoundWork> out;
  for (const int round : {0, 1}) {
    const bool held = round < rounds, sows = round < plan.scenario.line.batches_per_day;
    const auto fed = std::count_if(plan.scenario.groups.begin(), plan.scenario.groups.end(),
                                   [&](const Group& group) { return group.count > 0 && group.feedings > round; });
    const double fixed = (held ? walk : 0.0) + times.feed_per_group * static_cast<double>(fed) + (sows ? times.soak_per_batch + times.drain_per_batch : 0.0);
    const double share = round == 0 ? 1.0 - evening_share : evening_share;
    const double a_tray = (sows ? times.sow_per_tray / plan.scenario.line.batches_per_day : 0.0) + share * (times.harvest_per_tray + times.wash_per_tray) +
                          (round == 0 ? moves : 0.0);
    const double has = round == 0 ? keeper.minutes_per_day - *keeper.evening_minutes : *keeper.evening_minutes;
    const double most = a_tray > 0.0 ? std::max(0.0, has - fixed) / a_tray : has >= fixed ? 1e9 : 0.0;
    out.push_back({round == 0 ? "morning" : "evening", fixed + a_tray * trays, has, most});
  }
  return out;
}

Section work_facts(const Plan& plan) {
  const Handled can = handled(plan);
  const double has = plan.scenario.keeper.minutes_per_day;
  constexpr const char* too_few = ": too few, some work is left undone (washing first)";
  const std::vector<RoundWork> rounds = rounds_of(plan);
  Section section{"work", "Work",
                  {{"minutes_per_day", "work a day", plan.route.minutes_per_day, "min",
                    fmt::format("{}of the {:g} min the keeper has{}", plan.scenario.line.sow == SowRule::all ? "" : "when every tray is sown, ", has, plan.route.minutes_per_day > has ? too_few : "")}}};
  if (told_apart(plan))
    for (const RoundWork& round : rounds)
      section.facts.push_back({"minutes_" + round.name, "  of it in the " + round.name, round.minutes, "min",
                               fmt::format("of the {:g} min then{}", round.has, round.minutes > round.has + 0.5 ? too_few : "")});
  section.facts.push_back({"walk_per_day", "walking a day", plan.route.walk_per_day.value(), "m",
                           rounds_a_day(plan.scenario) > plan.scenario.line.batches_per_day ? "there and back once for each batch sown, and again from the rack by the animals to the washing place where only feeding brings you"
                                                                                            : "there and back once for each batch sown"});
  const RoundWork* least = tightest(rounds);
  const bool by_round = told_apart(plan) && least->most_trays < can.route.daily_ceiling;
  section.facts.push_back({"daily_ceiling", "most trays a day the line can handle", by_round ? least->most_trays : can.route.daily_ceiling, "1",
                           fmt::format("{:g} are planned", trays_a_day(plan))});
  section.facts.push_back({"bottleneck", "what limits that", by_round ? "keeper's time in the " + least->name : limit_words(can.route.bottleneck), "1",
                           can.soak_cut ? "with soaks cut short" : ""});
  return section;
}

std::vector<std::string> work_cautions(const Plan& plan, const study::Summary& played) {
  std::vector<std::string> out;
  if (told_apart(plan))
    for (const RoundWork& round : rounds_of(plan))
      if (round.minutes > round.has + 0.5)
        out.push_back(fmt::format("The {}'s work takes about {:.0f} min and you have {:g} min then (keeper.minutes_per_day, keeper.evening_minutes): "
                                  "what there is no time for is left undone, though the other round may have time to spare.",
                                  round.name, round.minutes, round.has));
  const double washed = plan.scenario.keeper.wash_trays_per_day, sown = trays_a_day(plan);
  if (washed < sown)
    out.push_back(fmt::format("The washing place takes {:g} tray{} a day and {:g} are sown{}: the rest is sown unwashed, and mould is carried from mat to mat (keeper.wash_trays).", washed,
                              washed == 1.0 ? "" : "s", sown, plan.scenario.line.sow == SowRule::all ? "" : " at most"));
  const double undone = played.estimate("overloaded_days").mean / plan.horizon_days;
  constexpr double often = 0.1;  // of the days; our choice
  if (undone >= often)
    out.push_back(fmt::format("On about {:.0f} days in 100 your minutes are too few, and work is left undone: washing first, then moving, sowing, and cutting.", 100.0 * undone));
  if (handled(plan).soak_cut) {
    const Hours soak = plan.scenario.line.soak;
    out.push_back(fmt::format("A batch finds the soak buckets still taken and waits for them, so its soak is cut short, though never below {:.3g} h of the {:.3g} h of line.soak. "
                              "More buckets, or a shorter soak, would let it soak as long as you mean it to.",
                              least_soak * soak.value(), soak.value()));
  }
  return out;
}

}  // namespace rackwright::app
