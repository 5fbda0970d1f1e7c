// What arithmetic alone rules out. Every bound assumes the best of luck: each grain sprouts, no mat spoils, each is cut
// on its last day at the weight of its best, and the animals want no more than their ration.

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "models/growth/mat.hpp"
#include "models/route/stations.hpp"
#include "models/water/network.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/fits.hpp"
#include "sim/scenario/network.hpp"
#include "sim/scenario/units.hpp"
#include "sim/study/size.hpp"

namespace rackwright::study {
namespace {

constexpr double slack = 0.95;            // of what is wanted: appetite varies from year to year, of short runs more
constexpr double minutes_slack = 1.05;    // a missed round leaves its walk to the other round of the day
constexpr int longest_growth = 40;        // [d at 20 degC] searched for the heaviest mat
constexpr double early_hours = 1.0;       // a mat may be cut this much before its last day is full

/// The heaviest mat any batch of the day can give [kg fresh]; where nobody knows the line for sure, three standard deviations above what is
/// taken to be true.
double heaviest_mat(const Plan& plan) {
  double heaviest = 0.0;
  OwnLine best{};
  if (const Scenario& s = plan.scenario; s.run.ignorance) {
    best.swelling = std::exp(3.0 * s.ignorance.spread[place_of(Law::swelling)]);
    best.loss = std::exp(-3.0 * s.ignorance.spread[place_of(Law::loss)]);
  }
  for (const int index : plan.batch_grain) {
    const GrainPlan& grain = plan.grains[static_cast<std::size_t>(index)];
    const growth::Parameters species = on_line(plan.species[static_cast<std::size_t>(grain.species)].growth, best);
    for (int quarter = 0; quarter <= 4 * longest_growth; ++quarter) {
      const auto mat = growth::mat(species, 0.25 * quarter, 1.0, plan.scenario.line.sowing_density, grain.dry_matter);
      heaviest = std::max(heaviest, plan.grain_per_tray * mat.fresh_ratio);
    }
  }
  return heaviest;
}

Hours shortest_stay(const Plan& plan) { return days(plan.scenario.line.days_on_rack) - Hours(early_hours); }

// No share that every design must reach follows from the worst season; the mean over years does.
double least_fill_rate(const Target& target) { return std::max(target.fill_rate, target.mean_fill_rate.value_or(0.0)); }

/// Days of the run on which a group wants its whole ration (it is here, and it has been brought in since it arrived or there was fodder), and the mean of its
/// size over them, in parts of what it is at the start, where it shrinks; a herd that grows counts as it is.
struct FedDays { double days = 0.0, mean_herd = 1.0; };
FedDays least_fed_days(const Group& group, int horizon, int fodder_from) {
  const double introduction = in_days(group.introduction), rate = std::log1p(std::min(0.0, group.growth)) / 365.0;
  FedDays fed{0.0, 0.0};
  for (int day = 0; day < horizon; ++day) {
    const herd::Presence presence = herd::presence(group.stay, day);
    if (!presence.here || day - std::max<double>({0.0, presence.since, static_cast<double>(fodder_from)}) < introduction) continue;
    fed.days += 1.0;
    fed.mean_herd += std::exp(rate * day);
  }
  fed.mean_herd = fed.days > 0.0 ? fed.mean_herd / fed.days : 0.0;
  return fed;
}

/// Least fodder wanted over the run [kg fresh]: grown animals only, none for those that might die (mean and three
/// standard deviations, all on the first day), a shrinking herd rounded down, nothing while the ration is brought in, and the days' hungers
/// three standard deviations below their mean where that is less than `slack`.
double least_wanted(const Plan& plan) {
  const double horizon = plan.horizon_days;
  double wanted = 0.0;
  for (std::size_t g = 0; g < plan.groups.size(); ++g) {
    const Group& group = plan.scenario.groups[g];
    const double deaths = group.count * group.yearly_death * horizon / 365.0;
    const FedDays fed = least_fed_days(group, plan.horizon_days, plan.fodder.from);
    const double fed_days = fed.days;
    const double kept = group.count * fed.mean_herd - (group.growth < 0.0 ? 0.5 : 0.0);
    const double alive = std::max(0.0, kept - deaths - 3.0 * std::sqrt(deaths));
    const double hunger = std::max(0.0, 1.0 - 3.0 * group.demand_sd / std::sqrt(std::max(1.0, fed_days)));
    wanted += alive * plan.groups[g].ration * fed_days * std::min(slack, hunger);
  }
  return wanted;
}

Screen dry_tier(const Scenario& design) {
  const auto faults = water::find_faults(network_of(design));
  if (faults.empty()) return {};
  return {fmt::format("the water does not work at {}: {}", faults.front().node, faults.front().why), 0.0};
}

Screen too_little_fodder(const Plan& plan, double heaviest, double needed_kg) {
  const Line& line = plan.scenario.line;
  const double horizon = plan.horizon_days, places = plan.positions;
  const double sown = static_cast<double>(line.trays_per_batch) * line.batches_per_day;
  // What stands on the rack when the run opens is fed too: one rackful on top of what is sown or finds a place.
  const double by_sowing = sown * horizon + places;
  const double by_places = places * (horizon / in_days(shortest_stay(plan)) + 1.0);
  const double reached = std::min(by_sowing, by_places) * heaviest / needed_kg;
  if (reached >= 1.0) return {};
  const bool us = plan.scenario.units == Units::us;
  const auto mass = [us](double kg, int digits) { return write_quantity(kg, "kg", us, digits); };
  // What it would take, with everything else as it is.
  const double trays_needed = needed_kg / heaviest;
  const double batch = std::ceil((trays_needed - places) / horizon / line.batches_per_day - 1e-9);
  const double room = std::ceil(trays_needed / (horizon / in_days(shortest_stay(plan)) + 1.0) - 1e-9);
  if (by_sowing <= by_places) {
    return {fmt::format("{:.0f} trays a day of at most {} give at best {} a day; the target needs {}: at "
                        "least {:.0f} trays a batch{}", sown, mass(heaviest, 2), mass(by_sowing * heaviest / horizon, 3),
                        mass(needed_kg / horizon, 3), batch, room > places ? fmt::format(" and {:.0f} places", room) : std::string()), reached};
  }
  return {fmt::format("{:.0f} places give at most {:.1f} mats a day when each takes {} days, at best {} a day; "
                      "the target needs {}: at least {:.0f} places{}", places, by_places / horizon, line.days_on_rack,
                      mass(by_places * heaviest / horizon, 3), mass(needed_kg / horizon, 3), room,
                      batch > line.trays_per_batch ? fmt::format(" and {:.0f} trays a batch", batch) : std::string()),
          reached};
}

// The route at its best: no lane of a ladder is left half used, a batch waits for its bucket as long as it may, and a keeper short of
// time neither moves nor washes.
Screen blocked_route(const Plan& plan, double trays_needed) {
  const Keeper& keeper = plan.scenario.keeper;
  route::LineShape shape = plan.shape;
  shape.days_on_rack = shortest_stay(plan);
  shape.wash_trays_per_day = 0.0;  // no limit
  shape.keeper_minutes_per_day *= minutes_slack;
  // Animals that come and go may be fed on few days.
  for (const Group& group : plan.scenario.groups)
    if (group.count > 0 && herd::comes_or_goes(group.stay)) shape.feedings_per_day -= group.feedings;
  shape.feedings_per_day *= 1.0 - keeper.miss_chance;
  shape.soak = least_soak * shape.soak;
  route::Times times = keeper.times;
  times.wash_per_tray = 0.0;
  const auto handling = route::Handling::fixed;
  const auto best = route::plan(route::usual_layout(shape, handling, times), shape, handling, times);
  if (best.daily_ceiling >= trays_needed) return {};
  const double reached = best.daily_ceiling / trays_needed;
  std::string remedy;
  if (best.bottleneck == "keeper's time") {
    remedy = fmt::format(": about {:.0f} minutes a day", std::ceil(keeper.minutes_per_day / std::max(reached, 1e-3)));
  } else if (best.bottleneck == "soak buckets") {
    remedy = fmt::format(": about {:.0f} buckets", std::ceil(keeper.soak_buckets / std::max(reached, 1e-3)));
  }
  return {fmt::format("{} can pass {:.1f} trays a day at most; the target needs at least {:.1f}{}", best.bottleneck,
                      best.daily_ceiling, trays_needed, remedy), reached};
}

}  // namespace

Screen screen_margin(const Scenario& design) {
  if (const auto why = what_does_not_fit(design); !why.empty()) return {why.front(), 0.0};
  if (Screen out = dry_tier(design); !out.why.empty()) return out;
  const Plan plan = make_plan(design);
  const double heaviest = heaviest_mat(plan);
  if (heaviest <= 0.0) return {"its trays hold no grain", 0.0};
  const double needed_kg = least_fill_rate(design.target) * least_wanted(plan);
  if (Screen out = too_little_fodder(plan, heaviest, needed_kg); !out.why.empty()) return out;
  // The rackful at the start spares that many trays.
  return blocked_route(plan, std::max(0.0, needed_kg / heaviest - plan.positions) / plan.horizon_days);
}

std::string screen(const Scenario& design) { return screen_margin(design).why; }

}  // namespace rackwright::study
