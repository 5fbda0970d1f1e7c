// Hard times as they meet the line: poor lots, late deliveries, and telling of them.

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "sim/replication/state.hpp"
#include "sim/scenario/hard_time_words.hpp"

namespace rackwright {

// How often a hard time of that kind strikes what is at hand now, the lot or the order of a grain; counts the strike.
template <class Strike>
void Replicator::State::strike(HardTimeKind kind, int grain, Strike&& on) {
  const auto& all = plan_->scenario.hard_times;
  const std::string& name = plan_->scenario.grains[static_cast<std::size_t>(grain)].name;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].kind != kind || sim_.now() < starts(all[i])) continue;
    if (!all[i].grain.empty() && all[i].grain != name) continue;
    int& struck = struck_[i * plan_->grains.size() + static_cast<std::size_t>(grain)];
    if (struck >= all[i].times) continue;
    ++struck;
    on(all[i]);
  }
}

double Replicator::State::living_share(int grain) {
  double living = 1.0;
  strike(HardTimeKind::poor_lot, grain, [&](const HardTime& hard) {
    living *= 1.0 - share_of(hard);
    tell([&] { return fmt::format("this lot of {} is a poor one ({})", plan_->scenario.grains[static_cast<std::size_t>(grain)].name, hard.name); });
  });
  return living;
}

double Replicator::State::order_delay(int grain) {
  double hours = 0.0;
  strike(HardTimeKind::late_delivery, grain, [&](const HardTime& hard) { hours += length_of(hard).value(); });
  return hours;
}

void Replicator::State::tell_of_day(int day) {
  if (journal_ == nullptr) return;
  const auto on_day = [day](std::int64_t minute) {
    return minute >= minutes_per_day * day && minute < minutes_per_day * (day + 1);
  };
  for (const HardTime& hard : plan_->scenario.hard_times) {
    if (on_day(starts(hard))) tell([&] { return fmt::format("hard time \"{}\" begins today: {}", hard.name, in_words(hard, plan_->scenario.units == Units::us)); });
    if (length_of(hard).value() > 0.0 && hard.kind != HardTimeKind::late_delivery && on_day(ends(hard)))
      tell([&] { return fmt::format("hard time \"{}\" ends today", hard.name); });
  }
  for (const climate::Overlay& spell : plan_->scenario.spells) {
    const double rise = spell.rise.value();
    const bool us = plan_->scenario.units == Units::us;
    if (static_cast<int>(spell.first_day) == day)
      tell([&] { return fmt::format("a {} begins: {:.3g} {} {} for {:.3g} days", rise > 0.0 ? "heat wave" : "cold snap", (us ? 1.8 : 1.0) * std::abs(rise), us ? "degF" : "K", rise > 0.0 ? "warmer" : "colder", spell.length_days); });
    if (static_cast<int>(spell.first_day + spell.length_days) == day)
      tell([&] { return std::string(rise > 0.0 ? "the heat wave is over" : "the cold snap is over"); });
  }
}

}  // namespace rackwright
