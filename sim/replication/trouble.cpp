// Outages of pump and power, clogged emitters, an empty tank, and what a dry spell does to the mats.

#include <algorithm>
#include <limits>

#include <fmt/core.h>

#include "models/spoilage/hazard.hpp"
#include "models/water/demand.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {
namespace {

constexpr std::int64_t spare_pump_minutes = 30;  // to change a pump (assumed)
constexpr std::int64_t never_filled = std::numeric_limits<std::int64_t>::min() / 2;

}  // namespace

// A spare pump goes in at the next round held; tank and battery shorten the time without water, not the outage.
Replicator::State::Stop Replicator::State::stop_of(const Event& event) const {
  const bool pump = event.system == 0;
  const WaterSystem& water = plan_->scenario.water;
  const Outage& outage = (pump ? fortune_.pump() : fortune_.power())[event.number];
  Stop stop{outage.start, outage.end, 0.0};
  if (pump && water.spare_pump) {
    const auto first = static_cast<int>(std::max<std::int64_t>(0, stop.start + minutes_per_day * lead_days) / minutes_per_day) - lead_days;
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
  stop.bridged_hours = bridged;
  return stop;
}

void Replicator::State::on_outage_starts(const Event& event) {
  const bool pump = event.system == 0;
  const Stop stop = stop_of(event);
  if (stop.end <= sim_.now()) return;  // begun before the line was, and mended since
  catch_up();
  ++down_[event.system];
  ++(pump ? out_.pump_failures : out_.power_cuts);
  Event end = event;
  end.kind = EventKind::outage_ends;
  sim_.schedule_at(stop.end, phase_trouble, end);
  water_stopped(std::max(0.0, stop.bridged_hours - static_cast<double>(sim_.now() - stop.start) / 60.0), -1);
  note({.kind = pump ? Happening::Kind::pump : Happening::Kind::power,
        .amount = static_cast<double>(stop.end - stop.start) / 60.0});
  tell([&] { return fmt::format("{} for {:.1f} h", pump ? "the pump stopped" : "the power failed",
                                static_cast<double>(stop.end - stop.start) / 60.0); });
}

void Replicator::State::on_outage_ends(const Event& event) {
  catch_up();
  --down_[event.system];
  water_came_back();
  tell([&] { return std::string(event.system == 0 ? "the pump ran again" : "the power came back"); });
}

void Replicator::State::on_clog_starts(const Event& event) {
  catch_up();
  ++out_.clogs;
  const int tier = fortune_.clogs()[event.number].tier;
  char& clogged = clogged_[static_cast<std::size_t>(tier)];
  clogs_here_ += clogged == 0 ? 1 : 0;
  clogged = 1;
  water_stopped(0.0, tier);
  note({.kind = Happening::Kind::clog});
  tell([&] { return fmt::format("the emitters of tier {} clogged", tier + 1); });
}

void Replicator::State::mend_clogs() {
  for (std::size_t tier = 0; clogs_here_ > 0 && tier < clogged_.size(); ++tier) {
    if (clogged_[tier] == 0) continue;
    clogged_[tier] = 0;
    --clogs_here_;
    tell([&] { return fmt::format("the emitters of tier {} were cleared", tier + 1); });
  }
  if (any_drought_) water_came_back();
}

void Replicator::State::on_tank_empty() {
  if (replaying()) {  // mats that stand today were kept wet: it is found empty, and filled, at the next round
    tank_filled_ = never_filled;
    return;
  }
  catch_up();
  ++out_.tank_empties;
  down_[2] = 1;
  water_stopped(0.0, -1);
  tell([] { return std::string("the tank ran empty"); });
}

// A tank filled by hand: at the first round kept when its time has come, and as soon as it is found empty.
void Replicator::State::fill_tank() {
  const WaterSystem& system = plan_->scenario.water;
  if (system.top_up != TopUp::by_hand) return;
  const auto every = static_cast<std::int64_t>(60.0 * system.top_up_every.value());
  if (down_[2] == 0 && sim_.now() - tank_filled_ < every - 60) return;
  tank_filled_ = sim_.now();
  if (down_[2] != 0) {
    down_[2] = 0;
    water_came_back();
    tell([] { return std::string("the empty tank was filled"); });
  } else {
    sim_.cancel(tank_empty_);
  }
  const bool known = system.schedule.recirculating && kept_yesterday_ > 0.0;
  const double hours = known ? water::tank_lasts(system.schedule, plan_->water.pump_flow, system.tank_litres, kept_yesterday_).value()
                             : plan_->tank_hours;
  constexpr double never = 1e5;
  if (hours >= never) return;
  const auto lasts = std::max<std::int64_t>(1, static_cast<std::int64_t>(60.0 * hours));
  tank_empty_ = sim_.schedule_after(lasts, phase_trouble, {.kind = EventKind::tank_empty});
}

// Something has failed: what is dry from now on, or from when what bridges it is used up, starts to count. Tier -1: all.
void Replicator::State::water_stopped(double bridged_hours, int tier) {
  suffer_drought();
  const auto since = sim_.now() + static_cast<std::int64_t>(frozen_ ? 0.0 : 60.0 * bridged_hours);
  // A battery pumps on; what a tank gives meanwhile is pumped up again later.
  if (no_water()) idle_from_ = std::min(idle_from_.value_or(since), since);
  for (std::size_t level = 0; level < droughts_.size(); ++level) {
    if (tier >= 0 && level != static_cast<std::size_t>(tier)) continue;
    Drought& drought = droughts_[level];
    if (drought.dry && drought.since <= since) continue;
    drought = {true, since, sim_.now(), 0.0};
    any_drought_ = true;
  }
}

void Replicator::State::book_idle() {
  if (!idle_from_ || *idle_from_ >= sim_.now()) return;
  idle_today_ += static_cast<double>(sim_.now() - *idle_from_);
  idle_from_ = sim_.now();
}

// Something runs again: where nothing else keeps it dry, a tier's spell is over.
void Replicator::State::water_came_back() {
  suffer_drought();
  if (!no_water() && idle_from_) {
    book_idle();
    idle_from_.reset();
  }
  any_drought_ = false;
  for (std::size_t tier = 0; tier < droughts_.size(); ++tier) {
    if (!no_water() && clogged_[tier] == 0) droughts_[tier].dry = false;
    any_drought_ = any_drought_ || droughts_[tier].dry;
  }
}

// Brings the harm of dry spells up to now: at every round, and whenever one begins or ends.
void Replicator::State::suffer_drought() {
  if (!any_drought_) return;
  const double weight = water::dry_weight(Celsius(room_.temperature()));
  for (std::size_t tier = 0; tier < droughts_.size(); ++tier) {
    Drought& drought = droughts_[tier];
    if (!drought.dry || drought.upto >= sim_.now()) continue;
    for (Batch& batch : rack_.batches()) suffer_drought(batch, static_cast<int>(tier), drought, weight);
    drought.counted += weight * static_cast<double>(std::max<std::int64_t>(0, sim_.now() - std::max(drought.upto, drought.since))) / 60.0;
    drought.upto = sim_.now();
  }
}

void Replicator::State::suffer_drought(Batch& batch, int tier, const Drought& drought, double weight) {
  const std::int64_t from = std::max(drought.since, batch.sown);  // grain sown after the water failed was dry for less
  const auto hours_to = [&](std::int64_t minute) { return static_cast<double>(std::max<std::int64_t>(0, minute - from)) / 60.0; };
  const double before = hours_to(drought.upto), now = hours_to(sim_.now());
  const double between = 24.0 / plan_->scenario.water.schedule.cycles_per_day;
  if (now <= between) return;  // no longer than the usual gap between waterings
  rack_.lay(batch);
  const std::span<Tray> trays = rack_.trays_of(batch);
  const auto touched = std::count_if(trays.begin(), trays.end(), [tier](const Tray& tray) { return tray.here && tray.tier == tier; });
  if (touched == 0) return;
  const Celsius mat(room_.temperature() + batch.offset + batch.excess);
  const double warmer = water::dry_weight(mat) / weight;
  const double spell = static_cast<double>(drought.upto - drought.since) / 60.0;
  const double counted = spell > 0.0 ? drought.counted * before / spell : 0.0;
  const auto damage = [&](double hours, double by_warmth) {
    return hours <= between ? water::DryDamage{} : water::dry_damage(Hours(hours), Hours(warmer * by_warmth));
  };
  const water::DryDamage then = damage(before, counted), after = damage(now, counted + weight * (now - before));
  const double share = then.sprouts_killed < 1.0 ? std::max(0.0, 1.0 - (1.0 - after.sprouts_killed) / (1.0 - then.sprouts_killed)) : 0.0;
  for (Tray& tray : trays) {
    if (tray.here && tray.tier == tier) kill(batch, tray, share);
  }
  // The growth clock is the batch's: a part of its trays set back sets it back in part.
  const auto& growth = plan_->species[static_cast<std::size_t>(batch.species)].growth;
  const double days_lost = std::max(0.0, after.growth_lost_days - then.growth_lost_days);
  batch.growth -= days_lost * growth::growth_rate(growth, mat) * static_cast<double>(touched) / batch.left;
  mats_[static_cast<std::size_t>(batch.slot)].when = BatchMats::never;  // growth has changed without a settling
  out_.dry_hours += (now - (before > between ? before : 0.0)) * static_cast<double>(touched);
  note({.kind = Happening::Kind::dried, .day = batch.day, .session = batch.session, .trays = static_cast<int>(touched),
        .amount = now, .other = share});
}

// Killed sprouts stay what they are, breathe no more, and feed mould like dead grain.
void Replicator::State::kill(Batch& batch, Tray& tray, double share) {
  if (share <= 0.0) return;
  const BatchMats& mats = this->mats(batch);
  const double dying = std::clamp(tray.germinable * mats.share * tray.kept, 0.0, 1.0) * share;
  tray.killed_loss += dying * mats.loss;
  tray.killed_fresh += dying * mats.fresh_gain;
  tray.killed_water += dying * mats.taken_gain;
  const auto& spoil = spoil_;
  const double room = plan_->grains[static_cast<std::size_t>(batch.grain)].mats.uncrowded() * tray.germinable;
  const double rise = spoilage::dead_grain_factor(spoil, 1.0 - room * tray.kept * (1.0 - share)) /
                      spoilage::dead_grain_factor(spoil, 1.0 - room * tray.kept);
  tray.kept *= 1.0 - share;
  if (tray.spoiled != Spoiled::no || tray.mould_rate <= 0.0) return;
  tray.mould_rate *= rise;
  tray.mould_at = batch.mould + (tray.mould_at - batch.mould) / rise;
  batch.mould_next = std::min(batch.mould_next, tray.mould_at);
}

}  // namespace rackwright
