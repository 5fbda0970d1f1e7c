// Hard times laid over the fortune that was drawn: no draw is made, and none is moved.

#include <algorithm>
#include <cmath>

#include "sim/replication/fortune.hpp"

namespace rackwright {

void Fortune::lay_hard_times(const Plan& plan) {
  const Keeper& keeper = plan.scenario.keeper;
  for (const HardTime& hard : plan.scenario.hard_times) {
    const Outage outage{starts(hard), ends(hard)};
    const bool in_run = outage.end > -minutes_per_day * lead_days && outage.start < minutes_per_day * horizon_;
    if (!in_run) continue;
    if (hard.kind == HardTimeKind::pump_stop) pump_.push_back(outage);
    if (hard.kind == HardTimeKind::power_cut) power_.push_back(outage);
    if ((hard.kind == HardTimeKind::keeper_away || hard.kind == HardTimeKind::missed_rounds) && !keeper.second_keeper) lay_absence(keeper, hard);
  }
}

void Fortune::lay_absence(const Keeper& keeper, const HardTime& hard) {
  const std::int64_t first = std::max<std::int64_t>(-lead_days, starts(hard) / minutes_per_day - 1);
  const std::int64_t last = std::min<std::int64_t>(horizon_, ends(hard) / minutes_per_day);
  for (std::int64_t day = first; day <= last; ++day) {
    const double clocks[] = {keeper.morning.value(), keeper.evening.value()};
    for (std::size_t session = 0; session < 2; ++session) {
      if (!covers(hard, minutes_per_day * day + std::llround(60.0 * clocks[session]))) continue;
      missed_[2 * index(static_cast<int>(day)) + session] = 1;
    }
  }
}

bool Fortune::away(const Plan& plan, std::int64_t minute) {
  if (plan.scenario.keeper.second_keeper) return false;
  const auto& all = plan.scenario.hard_times;
  return std::any_of(all.begin(), all.end(), [&](const HardTime& hard) { return hard.kind == HardTimeKind::keeper_away && covers(hard, minute); });
}

double Fortune::price_factor(const Plan& plan, int grain, std::int64_t minute) const {
  double factor = 1.0;
  const std::string& name = plan.scenario.grains[static_cast<std::size_t>(grain)].name;
  for (const HardTime& hard : plan.scenario.hard_times) {
    if (hard.kind != HardTimeKind::price_jump || !covers(hard, minute)) continue;
    if (hard.grain.empty() || hard.grain == name) factor *= 1.0 + share_of(hard);
  }
  return factor;
}

double Fortune::more_young(const Plan& plan, std::size_t group, int born_on) {
  double factor = 1.0;
  for (const HardTime& hard : plan.scenario.hard_times) {
    if (hard.kind != HardTimeKind::larger_litter || !covers(hard, minutes_per_day * born_on)) continue;
    if (hard.group.empty() || hard.group == plan.scenario.groups[group].name) factor *= 1.0 + share_of(hard);
  }
  return factor;
}

}  // namespace rackwright
