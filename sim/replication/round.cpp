// A round at the rack: bring it up to date, look it over, cut what is due, feed, wash.

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "models/feed/value.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {

void Replicator::State::catch_up() {
  const std::int64_t now = sim_.now();
  const std::int64_t hour = now >= 0 ? now / 60 : -((-now + 59) / 60);
  if (hour <= room_.hour()) return;
  room_.advance_to(fortune_, hour, mat_heat_, down_[1] == 0);
}

void Replicator::State::on_round(const Event& event) {
  Event next = event;
  ++next.day;
  sim_.schedule_at(session_minute(next.day, next.session), phase_round, next);

  catch_up();
  settle_all(event.session);
  if (fortune_.missed(event.day, event.session)) {
    ++out_.missed_rounds;
    tell([] { return std::string("the round was missed"); });
    feed_animals(event.day, event.session);  // nothing is cut: every meal of this round is short
    drop_carried(event.session);
    return;
  }
  look_round();
  mend_clogs();
  feed_animals(event.day, event.session);
  sow_due(event.session);
  if (event.session == 0) rack_.arrange();
  finish_round(event.session);
}

void Replicator::State::look_round() {
  if (spoiled_here_ == 0) return;
  const double chance = plan_->scenario.keeper.notice_spoiled;
  for (Batch& batch : rack_.batches()) {
    if (batch.spoiled == 0) continue;
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here || tray.spoiled == Spoiled::no || tray.notice >= chance) continue;
      count_spoiled(tray);
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

bool Replicator::State::due(const Batch& batch) const {
  if (too_young(batch)) return false;
  const auto& line = plan_->scenario.line;
  const double ripe = plan_->species[static_cast<std::size_t>(batch.species)].growth.ripe;
  return batch.growth >= line.ready * ripe || sim_.now() - batch.sown >= minutes_per_day * (line.days_on_rack + line.grace_days) - 60;
}

const BatchMats& Replicator::State::mats(const Batch& batch) {
  BatchMats& m = mats_;
  if (m.slot == batch.slot && m.when == batch.settled) return m;
  const SpeciesPlan& species = plan_->species[static_cast<std::size_t>(batch.species)];
  const MatTable& table = plan_->grains[static_cast<std::size_t>(batch.grain)].mats;
  const double kg = plan_->grain_per_tray;
  m.slot = batch.slot;
  m.when = batch.settled;
  m.share = batch.germinated;
  m.row = table.at(batch.growth);
  m.fresh_soaked = kg * table.soaked_fresh();
  m.fresh_gain = kg * (m.row.fresh - table.soaked_fresh());
  m.supply_soaked = kg * m.row.soaked_water;
  m.supply_gain = kg * (m.row.water - m.row.soaked_water);
  m.evaporated = species.growth.evaporated_litres * std::clamp(batch.growth, 0.0, MatTable::last) * kg;
  return m;
}

// Adds a tray to a sum and returns its fresh mass [kg].
double Replicator::State::add_tray(const BatchMats& mats, const Tray& tray, TraySum& sum) {
  const double sprouted = std::min(1.0, std::max(0.0, tray.germinable * mats.share * tray.kept));
  const double fresh = mats.fresh_soaked + sprouted * mats.fresh_gain;
  ++sum.trays;
  sum.sprouted += sprouted;
  sum.fresh += fresh;
  // What the mats evaporate is the room's evaporation already.
  sum.taken_up += std::max(0.0, mats.supply_soaked + sprouted * mats.supply_gain - mats.evaporated);
  return fresh;
}

// Books what became of the grain and water of trays that end; the mats of their batch were asked for last.
DryMatter Replicator::State::book_mats(const Batch& batch, const TraySum& sum) {
  const auto& growth = plan_->species[static_cast<std::size_t>(batch.species)].growth;
  const double grain = plan_->grain_per_tray * sum.trays;
  const double lost = plan_->grain_per_tray * batch.grain_dry_matter * sum.sprouted * mats_.row.loss;
  const double respired = lost * growth.respired_share;
  balance_.dry_matter_respired += respired;
  balance_.dry_matter_leached += lost - respired;
  balance_.water_with_grain += (1.0 - batch.grain_dry_matter) * grain;
  balance_.water_supplied += mats_.supply_soaked * sum.trays + mats_.supply_gain * sum.sprouted;
  balance_.water_made += growth::respiration_water * respired;
  balance_.water_evaporated += mats_.evaporated * sum.trays;
  taken_up_today_ += sum.taken_up;
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

// Cuts trays of a due batch until what is cut covers what is wanted.
void Replicator::State::cut(Batch& batch, double wanted) {
  const BatchMats& mats = this->mats(batch);
  TraySum sum;
  for (Tray& tray : rack_.trays_of(batch)) {
    if (!tray.here) continue;
    if (carried_ >= wanted) break;
    carried_ += add_tray(mats, tray, sum);
    if (tray.spoiled != Spoiled::no) ++out_.spoiled_fed;
    leave_rack(batch, tray);
  }
  const DryMatter dry = book_mats(batch, sum);
  balance_.dry_matter_fed += dry.left;
  balance_.water_fed += sum.fresh - dry.left;
  balance_.trays_fed += sum.trays;
  out_.trays_fed += sum.trays;
  work_.trays_harvested += sum.trays;
  carried_dry_ += dry.left;
  const auto& growth = plan_->species[static_cast<std::size_t>(batch.species)].growth;
  const double kept = growth::value_kept(growth, std::max(0.0, batch.growth));
  if (kept < 1.0) out_.overdue_trays += sum.trays;
  feed::GrainValue value = plan_->scenario.feed.grain;
  value.crude_protein = plan_->grains[static_cast<std::size_t>(batch.grain)].protein;
  // Nutrients are linear in the loss: the trays' mean stands for them all.
  const double loss = sum.sprouted * mats.row.loss / sum.trays;
  const feed::Nutrients given = feed::mat(Kilograms(plan_->grain_per_tray * sum.trays), batch.grain_dry_matter, loss,
                                          1.0 - growth.respired_share, value, kept * feed::usual_value_kept);
  out_.protein += given.crude_protein;
  out_.energy_feed += given.energy_mj;
  sum_growth_ += batch.growth * sum.trays;
  sum_sprouted_ += sum.sprouted;
  const double height = mats.row.height_cm * sum.trays;
  sum_height_ += height;
  height_sum_ += height;
  height_count_ += sum.trays;
}

void Replicator::State::feed_animals(int day, int session) {
  const bool missed = fortune_.missed(day, session);
  double wanted = 0.0;
  for (std::size_t g = 0; g < wants_.size(); ++g) {
    wants_[g] = feeding_share_[g][static_cast<std::size_t>(session)] * fortune_.wanted(g, day);
    wanted += wants_[g];
  }
  if (!missed) {
    for (Batch& batch : rack_.batches()) {
      if (carried_ >= wanted || too_young(batch)) break;
      if (due(batch) && batch.left > 0) cut(batch, wanted);
    }
    rack_.drop_empty();
  }
  const double served = missed ? 0.0 : std::min(wanted, carried_);
  const double share = wanted > 0.0 ? served / wanted : 1.0;
  const double tolerance = plan_->scenario.feed.tolerance;
  for (const double want : wants_) {
    if (want <= 0.0) continue;
    ++out_.feedings;
    if (share >= 1.0 - tolerance) continue;
    ++out_.short_feedings;
    short_today_ = true;
  }
  work_.groups_fed = static_cast<int>(std::count_if(wants_.begin(), wants_.end(), [](double want) { return want > 0.0; }));
  out_.wanted += wanted;
  out_.served += served;
  const double dry_share = carried_ > 0.0 ? std::min(1.0, served / carried_) : 0.0;
  out_.fodder_fresh += served;
  out_.fodder_dry_matter += carried_dry_ * dry_share;
  carried_ -= served;
  carried_dry_ *= 1.0 - dry_share;
  // What is missing is made up, dry matter for dry matter, from the reserve.
  const double reserve = (wanted - served) * plan_->standard_dry_matter / plan_->scenario.feed.hay.dry_matter;
  out_.reserve_feed += reserve;
  spend(out_.cost.reserve, reserve * plan_->scenario.prices.reserve_per_kg);
  if (share < 1.0 - tolerance) {
    tell([&] { return fmt::format("fed {:.1f} of {:.1f} kg wanted: short", served, wanted); });
  } else {
    tell([&] { return fmt::format("fed {:.1f} kg", served); });
  }
}

void Replicator::State::make_room(int trays) {
  const auto& line = plan_->scenario.line;
  const std::int64_t oldest = minutes_per_day * (line.days_on_rack + line.grace_days) - 60;
  int needed = trays - rack_.free_places();
  for (Batch& batch : rack_.batches()) {
    if (too_young(batch)) break;
    const bool past = sim_.now() - batch.sown >= oldest;
    // Past its grace a mat goes; a mat that is merely due goes only when its place is wanted.
    if (!past && (needed <= 0 || !due(batch))) continue;
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here || (!past && needed <= 0)) continue;
      if (tray.spoiled == Spoiled::no) ++out_.composted_trays;
      else count_spoiled(tray);
      throw_out(batch, tray);
      --needed;
    }
  }
  rack_.drop_empty();
}

void Replicator::State::finish_round(int session) {
  const Keeper& keeper = plan_->scenario.keeper;
  if (session == 0 && keeper.handling == route::Handling::ladder) work_.trays_moved = rack_.trays();
  route::SessionWork without_wash = work_;
  without_wash.trays_washed = 0;
  const double minutes = route::session_minutes(keeper.times, work_) + walk_minutes_;
  const double hurried = route::session_minutes(keeper.times, without_wash) + walk_minutes_;
  // Short of time, washing is what a keeper leaves undone.
  washed_ = minutes_today_ + minutes <= keeper.minutes_per_day;
  minutes_today_ += washed_ ? minutes : hurried;
  wash_water_today_ += washed_ ? 2.0 * work_.trays_washed : 0.0;  // litres a tray; common practice, no source
  work_ = {};
  drop_carried(session);
}

void Replicator::State::drop_carried(int session) {
  // What was cut in the morning and not wanted keeps to the evening, no longer.
  if (session != sessions_ - 1) return;
  out_.leftover += carried_;
  carried_ = carried_dry_ = 0.0;
}

}  // namespace rackwright
