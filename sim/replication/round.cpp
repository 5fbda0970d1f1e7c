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
  if (frozen_ || room_.frost().any()) follow_frost();
}

void Replicator::State::on_round(const Event& event) {
  Event next = event;
  ++next.day;
  sim_.schedule_at(session_minute(next.day, next.session), phase_round, next);

  catch_up();
  if (replaying()) return replay_round(event);
  settle_all(event.session);
  if (coldest_ < above_freezing) kill_by_frost();
  note_ripe();
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
    int frosted = 0;
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here || tray.spoiled == Spoiled::no || tray.notice >= chance) continue;
      count_spoiled(tray);
      if (tray.spoiled == Spoiled::frost) {
        ++frosted;
        throw_out(batch, tray);
        continue;
      }
      note({.kind = tray.spoiled == Spoiled::mould ? Happening::Kind::moulded : Happening::Kind::soured,
            .day = batch.day, .session = batch.session, .trays = 1});
      tell([&] { return fmt::format("a {} mat was thrown out after {:.1f} days", tray.spoiled == Spoiled::mould ? "mouldy" : "sour",
                                    static_cast<double>(sim_.now() - batch.sown) / minutes_per_day); });
      throw_out(batch, tray);
    }
    if (frosted == 0) continue;
    note({.kind = Happening::Kind::frosted, .day = batch.day, .session = batch.session, .trays = frosted});
    tell([&] { return fmt::format("{} mat{} killed by frost and thrown out after {:.1f} days", frosted, frosted == 1 ? " was" : "s were",
                                  static_cast<double>(sim_.now() - batch.sown) / minutes_per_day); });
  }
  rack_.drop_empty();
}

const BatchMats& Replicator::State::mats(const Batch& batch) {
  BatchMats& m = mats_[static_cast<std::size_t>(batch.slot)];
  if (m.when == batch.settled) return m;
  const Ignorance& known = fortune_.ignorance();
  const MatPair pair = plan_->grains[static_cast<std::size_t>(batch.grain)].mats.at(batch.growth, known.loss, known.swell);
  const double kg = plan_->grains[static_cast<std::size_t>(batch.grain)].per_tray;
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

namespace {

double sprouted_share(const BatchMats& mats, const Tray& tray) {
  return std::min(1.0, std::max(0.0, tray.germinable * mats.share * tray.kept));
}

}  // namespace

double Replicator::State::fresh_mass(const BatchMats& mats, const Tray& tray) {
  return mats.fresh_soaked + sprouted_share(mats, tray) * mats.fresh_gain + tray.killed_fresh;
}

// Adds a tray to a sum and returns its fresh mass [kg].
double Replicator::State::add_tray(const BatchMats& mats, const Tray& tray, TraySum& sum) {
  const double sprouted = sprouted_share(mats, tray);
  const double fresh = mats.fresh_soaked + sprouted * mats.fresh_gain + tray.killed_fresh;
  ++sum.trays;
  sum.sprouted += sprouted;
  sum.lost += tray.killed_loss;
  sum.fresh += fresh;
  sum.killed_water += tray.killed_water;
  sum.watered += std::max(0.0, mats.taken_soaked + sprouted * mats.taken_gain + tray.killed_water - mats.from_soak);
  return fresh;
}

// Books what became of the grain and water of trays that end.
DryMatter Replicator::State::book_mats(const Batch& batch, const BatchMats& mats, const TraySum& sum) {
  const auto& growth = plan_->species[static_cast<std::size_t>(batch.species)].growth;
  const double per_tray = plan_->grains[static_cast<std::size_t>(batch.grain)].per_tray;
  const double grain = per_tray * sum.trays;
  const double lost = per_tray * batch.grain_dry_matter * (sum.sprouted * mats.loss + sum.lost);
  const double respired = lost * growth.respired_share;
  balance_.dry_matter_respired += respired;
  out_.respired += respired;
  balance_.dry_matter_leached += lost - respired;
  balance_.water_with_grain += (1.0 - batch.grain_dry_matter) * grain;
  balance_.water_supplied += sum.trays * (mats.taken_soaked + mats.evaporated) + sum.sprouted * mats.taken_gain + sum.killed_water;
  balance_.water_made += growth::respiration_water * respired;
  balance_.water_evaporated += mats.evaporated * sum.trays;
  taken_up_today_ += sum.watered;
  return {grain * batch.grain_dry_matter - lost, lost};
}

// Sums tray-days up to now; before the number of trays on the rack changes.
void Replicator::State::count_trays() {
  if (tray_clock_ == sim_.now()) return;
  out_.tray_days += static_cast<double>(rack_.trays()) * static_cast<double>(sim_.now() - tray_clock_) / minutes_per_day;
  tray_clock_ = sim_.now();
}

void Replicator::State::vacate(Batch& batch, Tray& tray) {
  constexpr double remembered = 0.98;  // some fifty trays (assumed)
  if (!plan_->opening || !plan_->opening->usual_luck)  // where nothing spoils by luck, what is known of it stays
    sound_ = remembered * sound_ + (1.0 - remembered) * (tray.spoiled == Spoiled::no ? 1.0 : 0.0);
  if (tray.spoiled != Spoiled::no) {
    --spoiled_here_;
    mouldy_washed_ += tray.spoiled == Spoiled::mould ? 1 : 0;
  }
  rack_.vacate(batch, tray);
}

void Replicator::State::leave_rack(Batch& batch, int trays) {
  count_trays();
  tray_stay_ += trays * static_cast<double>(sim_.now() - batch.sown) / minutes_per_day;
  warm_room(batch, -trays);
  rack_.count_out(batch, trays);
  work_.trays_washed += trays;
}

void Replicator::State::throw_out(Batch& batch, Tray& tray) {
  if (batch.settled != static_cast<double>(sim_.now())) {  // in the morning all are settled, so this is an evening, and mark 1 is of now
    settle(batch);
    batch.mark = 1;
  }
  const BatchMats& mats = this->mats(batch);
  note_risk(batch, tray);
  TraySum sum;
  add_tray(mats, tray, sum);
  const DryMatter dry = book_mats(batch, mats, sum);
  balance_.dry_matter_thrown += dry.left;
  balance_.water_thrown += sum.fresh - dry.left;
  ++balance_.trays_thrown;
  if (tray.spoiled != Spoiled::no) spend(out_.cost.disposal, sum.fresh * plan_->scenario.prices.disposal_per_kg);
  rack_.lay(batch);
  vacate(batch, tray);
  leave_rack(batch, 1);
}

// What the evening's animals are to get beyond what is cut already; nothing at the last round of a day.
double Replicator::State::evening_meal(int session) const {
  if (session != 0 || sessions_ < 2) return 0.0;
  const double wanted = with_evening(0.0, today());
  const Course* course = course_of(today());
  return course ? course->ration * wanted : wanted;
}

// Takes off the rack what has had its time, and what is due where its place is wanted for sowing: ripe mats for the evening's meal first,
// as far as it wants them, the rest to the compost.
void Replicator::State::make_room(int trays, int session) {
  const double evening = evening_meal(session), minutes = plan_->scenario.keeper.times.harvest_per_tray;
  // An unripe mat stays past its grace while there is room, and one that has just ripened, but not longer than twice its days.
  int needed = trays - rack_.free_places();
  for (Batch& batch : rack_.batches()) {
    if (too_young(batch)) break;
    const bool goes = past_grace(batch) && (outstayed(batch) || sim_.now() - batch.sown >= longest_age_);
    if (!goes && (needed <= 0 || !due(batch))) continue;
    if (carried_.fresh < evening && ripe(batch)) {
      const int before = batch.left, most = goes ? before : std::min(before, needed);
      // In the minutes that the morning had left the evening for them, where the day's minutes are one.
      const double left = minutes_left_;
      const bool lent = !plan_->scenario.keeper.evening_minutes;
      if (lent) minutes_left_ = std::max(0.0, minutes_left_) + minutes * most;
      cut(batch, evening, most);
      if (lent) minutes_left_ = left;
      needed -= before - batch.left;
    }
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
