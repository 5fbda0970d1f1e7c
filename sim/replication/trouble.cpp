// Outages of pump and power, clogged emitters, and what a dry spell does to the mats.

#include <algorithm>

#include <fmt/core.h>

#include "models/water/demand.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {
namespace {

constexpr std::int64_t spare_pump_minutes = 30;  // to change a pump (assumed)

}  // namespace

// A spare pump goes in at the next round held; tank and battery shorten the time without water, not the outage.
Replicator::State::Stop Replicator::State::stop_of(const Event& event) const {
  const bool pump = event.system == 0;
  const WaterSystem& water = plan_->scenario.water;
  const Outage& outage = (pump ? fortune_.pump() : fortune_.power())[event.number];
  Stop stop{outage.start, outage.end, 0.0};
  if (pump && water.spare_pump) {
    const auto first = static_cast<int>((stop.start + minutes_per_day * lead_days) / minutes_per_day) - lead_days;
    for (int round = 2 * first; round / 2 < plan_->horizon_days; ++round) {
      const int day = round >= 0 ? round / 2 : (round - 1) / 2, session = round - 2 * day;
      const std::int64_t minute = session_minute(day, session) + spare_pump_minutes;
      if (minute >= stop.end) break;
      if (session >= sessions_ || session_minute(day, session) < stop.start || fortune_.missed(day, session)) continue;
      stop.end = minute;
      break;
    }
  }
  const double bridged = water.header_tank.value() + (pump ? 0.0 : water.battery.value());
  stop.dry_hours = std::max(0.0, static_cast<double>(stop.end - stop.start) / 60.0 - bridged);
  return stop;
}

void Replicator::State::on_outage_starts(const Event& event) {
  catch_up();
  const bool pump = event.system == 0;
  ++down_[event.system];
  ++(pump ? out_.pump_failures : out_.power_cuts);
  const Stop stop = stop_of(event);
  Event end = event;
  end.kind = EventKind::outage_ends;
  sim_.schedule_at(stop.end, phase_trouble, end);
  tell([&] { return fmt::format("{} for {:.1f} h", pump ? "the pump stopped" : "the power failed",
                                static_cast<double>(stop.end - stop.start) / 60.0); });
}

void Replicator::State::on_outage_ends(const Event& event) {
  catch_up();
  --down_[event.system];
  dry_out(stop_of(event).dry_hours, -1);
  tell([&] { return std::string(event.system == 0 ? "the pump ran again" : "the power came back"); });
}

void Replicator::State::on_clog_starts(const Event& event) {
  ++out_.clogs;
  const int tiers = plan_->scenario.rack.tiers;
  const int tier = std::min(tiers - 1, static_cast<int>(fortune_.clogs()[event.number].where * tiers));
  clogged_.emplace_back(tier, sim_.now());
  tell([&] { return fmt::format("the emitters of tier {} clogged", tier + 1); });
}

void Replicator::State::mend_clogs() {
  for (const auto& [tier, since] : clogged_) {
    dry_out(static_cast<double>(sim_.now() - since) / 60.0, tier);
    tell([&, cleared = tier] { return fmt::format("the emitters of tier {} were cleared", cleared + 1); });
  }
  clogged_.clear();
}

void Replicator::State::dry_out(double hours, int tier) {
  mats_.slot = -1;  // growth changes without a settling
  for (Batch& batch : rack_.batches()) {
    // Grain sown after the water failed was dry for less.
    const double dry = std::min(hours, static_cast<double>(sim_.now() - batch.sown) / 60.0);
    const double between = 24.0 / std::max(1.0, plan_->scenario.water.schedule.cycles_per_day);
    if (dry <= between) continue;  // no longer than the usual gap between waterings
    const water::DryDamage damage =
        water::dry_damage(Hours(dry), Celsius(room_.temperature() + batch.offset + batch.excess));
    double touched = 0.0;
    if (tier >= 0) rack_.lay(batch);
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here || (tier >= 0 && tray.tier != tier)) continue;
      tray.kept *= 1.0 - damage.sprouts_killed;
      touched += 1.0;
    }
    // The growth clock is the batch's: a part of its trays set back sets it back in part.
    batch.growth -= damage.growth_lost_days * touched / std::max(1, batch.left);
    out_.dry_hours += dry * touched;
  }
}

}  // namespace rackwright
