#include "sim/scenario/watering_pipes.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "models/water/way.hpp"
#include "sim/scenario/network.hpp"

namespace rackwright {
namespace {

/// The scenario with one pipe of its network so wide; in a usual network with all of that kind.
Scenario with_wider(Scenario s, const water::Network& network, const Wider& wider) {
  const water::Pipe& pipe = network.pipes[static_cast<std::size_t>(wider.pipe)];
  const bool branch = network.nodes[static_cast<std::size_t>(pipe.to)].kind == water::NodeKind::tier;
  if (!s.water.nodes.empty()) s.water.pipes[static_cast<std::size_t>(wider.pipe)].diameter = wider.to;
  else (branch ? s.water.branch_diameter : s.water.riser_diameter) = wider.to;
  return s;
}

/// Widths of the network's pipes under pressure beyond that of one of them, the narrowest first.
std::vector<Metres> wider_than(const water::Network& network, int pipe) {
  std::vector<Metres> widths;
  for (const water::Pipe& other : network.pipes)
    if (!other.gravity_drop && other.diameter > network.pipes[static_cast<std::size_t>(pipe)].diameter) widths.push_back(other.diameter);
  std::sort(widths.begin(), widths.end());
  widths.erase(std::unique(widths.begin(), widths.end()), widths.end());
  return widths;
}

struct Step { Wider wider; Scenario scenario; Watering watering; double share; };

/// The best of the widths for the costliest pipe on the driest tier's way; nothing where none can be had.
std::optional<Step> next_step(const Scenario& s, const Watering& now) {
  const int pipe = water::costliest_pipe(now.network, now.solution, driest_tier(now).tier);
  if (pipe < 0) return std::nullopt;
  std::optional<Step> best;
  for (const Metres width : wider_than(now.network, pipe)) {
    Scenario tried = with_wider(s, now.network, {pipe, width});
    if (!water::find_faults(network_of(tried)).empty()) continue;
    Watering then = watering_of(tried);
    const double share = driest_tier(then).share;
    if (best && share <= best->share) continue;
    best = Step{{pipe, width}, std::move(tried), std::move(then), share};
    if (share >= watered_enough) break;
  }
  return best;
}

}  // namespace

Driest driest_tier(const Watering& watering) {
  Driest driest;
  for (std::size_t tier = 0; tier < watering.tiers.size(); ++tier)
    if (watering.tiers[tier].share() < driest.share) driest = {tier, watering.tiers[tier].share()};
  return driest;
}

Widening widening_of(const Scenario& scenario, const Watering& watering) {
  constexpr std::size_t most_pipes = 4;
  constexpr double worth_it = 1.1;
  Scenario s = scenario;
  Watering now = watering;
  Widening result{{}, driest_tier(watering).share};
  while (result.share < watered_enough && result.pipes.size() < most_pipes) {
    auto step = next_step(s, now);
    if (!step || step->share < worth_it * result.share) break;
    result.pipes.push_back(step->wider);
    result.share = step->share;
    s = std::move(step->scenario);
    now = std::move(step->watering);
  }
  return result;
}

bool runs_empty(const Scenario& scenario, const Watering& watering) {
  return scenario.water.top_up == TopUp::by_hand && watering.tank_lasts < scenario.water.top_up_every;
}

Hours ample_on_time(const Scenario& scenario, const Watering& watering) {
  constexpr double plenty = 1.5;  // of what the driest tier's mats drink at their thirstiest
  double least = HUGE_VAL;
  for (const TierWater& tier : watering.tiers)
    if (tier.need > 0.0) least = std::min(least, tier.supplied / tier.need);
  const water::Schedule& schedule = scenario.water.schedule;
  const double hours = std::min(24.0, schedule.cycles_per_day * schedule.on_time.value());
  return Hours(hours / schedule.cycles_per_day * plenty / least);
}

}  // namespace rackwright
