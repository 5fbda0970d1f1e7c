// A round at the rack: bring it up to date, look it over, make room. Its chores are in feeding.cpp, sowing.cpp and chores.cpp.

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "sim/replication/journal_words.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {

void Replicator::State::catch_up() {
  const std::int64_t now = sim_.now();
  const std::int64_t hour = now >= 0 ? now / 60 : -((-now + 59) / 60);
  if (hour <= room_.hour()) return;
  room_.advance_to(fortune_, hour, mat_heat_, down_[1] == 0, rack_.trays());
}

void Replicator::State::on_round(const Event& event) {
  Event next = event;
  ++next.day;
  sim_.schedule_at(session_minute(next.day, next.session), phase_round, next);

  catch_up();
  settle_all(event.session);
  if (event.session == 0) tell_herd(event.day);
  const double wanted = ask_animals(event.day, event.session);
  suffer_drought();
  if (event.session == 0) spread_spores();
  if (fortune_.missed(event.day, event.session)) {
    ++out_.missed_rounds;
    note({.kind = Happening::Kind::missed_round, .day = event.day, .session = event.session});
    tell([] { return std::string("the round was missed"); });
    miss_feeding(wanted);
    note({.kind = Happening::Kind::fed, .day = event.day, .session = event.session, .trays = wanted > 0.0, .amount = wanted});
    tell([&] { return "nothing was fed of " + mass_words(plan_->scenario.units, wanted) + " wanted: short"; });
    drop_carried(event.session);
    return;
  }
  look_round();
  mend_clogs();
  fill_tank();
  open_chores(event.session);
  feed_animals(event.day, event.session, wanted);
  sow_due(event.session);
  move_trays(event.session);
  close_chores();
  drop_carried(event.session);
}

void Replicator::State::look_round() {
  if (spoiled_here_ == 0) return;
  const double chance = plan_->scenario.keeper.notice_spoiled;
  for (Batch& batch : rack_.batches()) {
    if (batch.spoiled == 0) continue;
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here || tray.spoiled == Spoiled::no || tray.notice >= chance) continue;
      count_spoiled(tray);
      note({.kind = tray.spoiled == Spoiled::mould ? Happening::Kind::moulded : Happening::Kind::soured,
            .day = batch.day, .session = batch.session, .trays = 1});
      tell([&] { return fmt::format("a {} mat was thrown out after {:.1f} days", tray.spoiled == Spoiled::mould ? "mouldy" : "sour",
                                    static_cast<double>(sim_.now() - batch.sown) / minutes_per_day); });
      throw_out(batch, tray);
    }
  }
  rack_.drop_empty();
}

// An hour before its days on the rack are over a mat is as good as there. Batches stand in the order of their age: behind one
// too young are only younger ones.
bool Replicator::State::too_young(const Batch& batch) const {
  return sim_.now() - batch.sown < minutes_per_day * plan_->scenario.line.days_on_rack - 60;
}

bool Replicator::State::ripe(const Batch& batch) const {
  return batch.growth >= plan_->scenario.line.ready * plan_->species[static_cast<std::size_t>(batch.species)].growth.ripe;
}

bool Replicator::State::past_grace(const Batch& batch) const {
  const auto& line = plan_->scenario.line;
  return sim_.now() - batch.sown >= minutes_per_day * (line.days_on_rack + line.grace_days) - 60;
}

bool Replicator::State::due(const Batch& batch) const { return !too_young(batch) && (ripe(batch) || past_grace(batch)); }

const BatchMats& Replicator::State::mats(const Batch& batch) {
  BatchMats& m = mats_;
  if (m.slot == batch.slot && m.when == batch.settled) return m;
  const Ignorance& known = fortune_.ignorance();
  const MatPair pair = plan_->grains[static_cast<std::size_t>(batch.grain)].mats.at(batch.growth, known.loss, known.swell);
  const double kg = plan_->grain_per_tray;
  m.slot = batch.slot;
  m.when = batch.settled;
  m.share = batch.germinated;
  m.loss = pair.loss;
  m.height_cm = pair.height_cm;
  m.fresh_soaked = kg * pair.soaked_fresh;
  m.fresh_gain = kg * (pair.fresh - pair.soaked_fresh);
  m.taken_soaked = kg * pair.soaked_taken_up;
  m.taken_gain = kg * (pair.taken_up - pair.soaked_taken_up);
  m.from_soak = kg * batch.soak_litres;
  m.evaporated = plan_->tray_area * std::max(0.0, room_.evaporated_depth() - batch.evaporated);  // by the room's law
  return m;
}

// Adds a tray to a sum and returns its fresh mass [kg].
double Replicator::State::add_tray(const BatchMats& mats, const Tray& tray, TraySum& sum) {
  const double sprouted = std::min(1.0, std::max(0.0, tray.germinable * mats.share * tray.kept));
  const double fresh = mats.fresh_soaked + sprouted * mats.fresh_gain + tray.killed_fresh;
  const double taken_up = mats.taken_soaked + sprouted * mats.taken_gain + tray.killed_water;
  ++sum.trays;
  sum.sprouted += sprouted;
  sum.lost += sprouted * mats.loss + tray.killed_loss;
  sum.fresh += fresh;
  sum.taken_up += taken_up;
  sum.watered += std::max(0.0, taken_up - mats.from_soak);
  return fresh;
}

// Books what became of the grain and water of trays that end; the mats of their batch were asked for last.
DryMatter Replicator::State::book_mats(const Batch& batch, const TraySum& sum) {
  const auto& growth = plan_->species[static_cast<std::size_t>(batch.species)].growth;
  const double grain = plan_->grain_per_tray * sum.trays;
  const double lost = plan_->grain_per_tray * batch.grain_dry_matter * sum.lost;
  const double respired = lost * growth.respired_share;
  balance_.dry_matter_respired += respired;
  balance_.dry_matter_leached += lost - respired;
  balance_.water_with_grain += (1.0 - batch.grain_dry_matter) * grain;
  balance_.water_supplied += sum.taken_up + mats_.evaporated * sum.trays;
  balance_.water_made += growth::respiration_water * respired;
  balance_.water_evaporated += mats_.evaporated * sum.trays;
  taken_up_today_ += sum.watered;
  return {grain * batch.grain_dry_matter - lost, lost};
}

// Sums tray-days up to now; before the number of trays on the rack changes.
void Replicator::State::count_trays() {
  if (tray_clock_ == sim_.now()) return;
  out_.tray_days += static_cast<double>(rack_.trays()) * static_cast<double>(sim_.now() - tray_clock_) / minutes_per_day;
  tray_clock_ = sim_.now();
}

void Replicator::State::leave_rack(Batch& batch, Tray& tray) {
  count_trays();
  tray_stay_ += static_cast<double>(sim_.now() - batch.sown) / minutes_per_day;
  if (tray.spoiled != Spoiled::no) --spoiled_here_;
  mouldy_washed_ += tray.spoiled == Spoiled::mould ? 1 : 0;
  warm_room(batch, -1);
  rack_.take(batch, tray);
  ++work_.trays_washed;
}

void Replicator::State::throw_out(Batch& batch, Tray& tray) {
  if (batch.settled != static_cast<double>(sim_.now())) {  // in the morning all are settled, so this is an evening, and mark 1 is of now
    settle(batch);
    batch.mark = 1;
  }
  TraySum sum;
  add_tray(mats(batch), tray, sum);
  const DryMatter dry = book_mats(batch, sum);
  balance_.dry_matter_thrown += dry.left;
  balance_.water_thrown += sum.fresh - dry.left;
  ++balance_.trays_thrown;
  spend(out_.cost.disposal, sum.fresh * plan_->scenario.prices.disposal_per_kg);
  leave_rack(batch, tray);
}

// Takes off the rack what has had its time, and what is due where its place is wanted for sowing.
void Replicator::State::make_room(int trays) {
  const auto& line = plan_->scenario.line;
  // An unripe mat stays past its grace while there is room, but not longer than twice its days.
  const std::int64_t longest = minutes_per_day * (2 * line.days_on_rack + line.grace_days) - 60;
  int needed = trays - rack_.free_places();
  for (Batch& batch : rack_.batches()) {
    if (too_young(batch)) break;
    const bool goes = past_grace(batch) && (ripe(batch) || sim_.now() - batch.sown >= longest);
    if (!goes && (needed <= 0 || !due(batch))) continue;
    int composted = 0;
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here || (!goes && needed <= 0)) continue;
      if (tray.spoiled == Spoiled::no) ++composted;
      else count_spoiled(tray);
      throw_out(batch, tray);
      --needed;
    }
    if (composted > 0) count_composted(batch, composted);
  }
  rack_.drop_empty();
}

void Replicator::State::count_composted(const Batch& batch, int trays) {
  const auto& growth = plan_->species[static_cast<std::size_t>(batch.species)].growth;
  const bool old = batch.growth > growth.overdue;
  if (old) out_.overdue_trays += trays;
  const bool grown = ripe(batch);
  note({.kind = Happening::Kind::composted, .day = batch.day, .session = batch.session, .trays = trays});
  (old ? out_.composted_overdue : grown ? out_.composted_surplus : out_.composted_unripe) += trays;
  tell([&] {
    return fmt::format("{} mat{} composted after {:.1f} days: {}", trays, trays == 1 ? " was" : "s were",
                       static_cast<double>(sim_.now() - batch.sown) / minutes_per_day,
                       old ? "past their best" : grown ? "ripe, but not needed" : "still unripe, and their places were wanted");
  });
}

}  // namespace rackwright
