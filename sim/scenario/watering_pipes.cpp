#include "sim/scenario/watering_pipes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <utility>

#include "models/water/way.hpp"
#include "sim/scenario/network.hpp"
#include "sim/scenario/rounds.hpp"

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

/// The node to which pressure brings the water of a tier: its own, or that of the one that it falls from; -1 none.
int pressed_end(const Watering& watering, std::size_t tier) {
  int node = -1;
  for (const int index : water::way_to(watering.network, watering.solution, tier)) {
    const water::Pipe& pipe = watering.network.pipes[static_cast<std::size_t>(index)];
    if (pipe.gravity_drop) break;
    node = watering.solution.pipe_flow[static_cast<std::size_t>(index)] < LitresPerHour(0.0) ? pipe.from : pipe.to;
  }
  return node;
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
  Widening result{{}, driest_tier(watering).share, {}};
  while (result.share < watered_enough && result.pipes.size() < most_pipes) {
    auto step = next_step(s, now);
    if (!step || step->share < worth_it * result.share) break;
    result.pipes.push_back(step->wider);
    result.share = step->share;
    s = std::move(step->scenario);
    now = std::move(step->watering);
  }
  result.pump_time = pump_time_for(now, 1.0);
  return result;
}

Lift higher_lift(const Scenario& scenario, const Watering& watering) {
  constexpr Metres near{0.5}, little{0.2};
  constexpr double worth_it = 1.1;
  const Driest driest = driest_tier(watering);
  const int pressed = pressed_end(watering, driest.tier);
  if (pressed < 0) return {};
  const auto node = static_cast<std::size_t>(pressed);
  const Metres height = watering.network.nodes[node].height, left = watering.solution.head[node] - height;
  if (scenario.water.pump.shutoff - height >= near || left >= little) return {};
  Lift best{{}, driest.share, {}, left};
  for (const double above : {0.25, 0.5, 1.0, 2.0}) {
    Scenario tried = scenario;
    tried.water.pump.shutoff = Metres(0.1 * std::ceil(10.0 * (height.value() + above)));
    if (tried.water.pump.shutoff <= scenario.water.pump.shutoff || !water::find_faults(network_of(tried)).empty()) continue;
    const Watering then = watering_of(tried);
    const double share = driest_tier(then).share;
    if (share > best.share) best = {tried.water.pump.shutoff, share, pump_time_for(then, 1.0), left};
    if (share >= watered_enough) break;
  }
  return best.share < worth_it * driest.share ? Lift{} : best;
}

Hours fill_gap(const Scenario& scenario, Hours every) {
  constexpr std::int64_t a_day = 1440, early = 60;  // as the simulator fills it
  const auto minute = [](Hours time) { return static_cast<std::int64_t>(std::llround(60.0 * time.value())); };
  std::vector<std::int64_t> rounds{minute(scenario.keeper.morning)};
  if (rounds_a_day(scenario) > 1) rounds.push_back(minute(scenario.keeper.evening));
  const std::int64_t least = std::max<std::int64_t>(1, static_cast<std::int64_t>(60.0 * every.value()) - early);
  std::int64_t longest = 0;
  for (const std::int64_t from : rounds) {
    std::int64_t next = std::numeric_limits<std::int64_t>::max();
    for (const std::int64_t round : rounds) {
      const std::int64_t days = std::max<std::int64_t>(0, (from + least - round + a_day - 1) / a_day);
      next = std::min(next, round + days * a_day - from);
    }
    longest = std::max(longest, next);
  }
  return Hours(static_cast<double>(longest) / 60.0);
}

std::optional<Hours> filled_in_time(const Scenario& scenario, Hours lasts) {
  for (int every = static_cast<int>(std::ceil(scenario.water.top_up_every.value())) - 1; every >= 1; --every) {
    const Hours gap = fill_gap(scenario, Hours(every));
    if (gap <= lasts) return std::min(Hours(every), Hours(std::floor(gap.value())));
  }
  return std::nullopt;
}

bool runs_empty(const Scenario& scenario, const Watering& watering) {
  return scenario.water.top_up == TopUp::by_hand && watering.tank_lasts < fill_gap(scenario, scenario.water.top_up_every);
}

Hours ample_on_time(const Scenario& scenario, const Watering& watering) {
  constexpr double plenty = 1.5;  // of what the driest tier's mats drink at their thirstiest
  return pump_time_for(watering, plenty) * (1.0 / scenario.water.schedule.cycles_per_day);
}

}  // namespace rackwright
