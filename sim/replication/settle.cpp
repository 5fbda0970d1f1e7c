// Bringing batches up to date and finding the trays that have spoiled since.

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/replication/state.hpp"

namespace rackwright {
namespace {

// Inoculum on a level below this, relative to usual grain's own, is not followed further.
constexpr double hardly_any = 0.02;
constexpr double most_load = 1e3;

}  // namespace

void Replicator::State::settle_all(int session) {
  const auto now = static_cast<double>(sim_.now());
  std::span<Batch> batches = rack_.batches();
  if (!batches.empty() && batches.front().settled >= now) batches = {};  // both rounds at the same minute
  if (session != 0) {
    // In the evening only what may be cut is touched, and batches are in the order of their age.
    const std::int64_t sown_by = sim_.now() - (due_age_ + 60 - minutes_per_day);
    std::size_t count = 0;
    while (count < batches.size() && batches[count].sown <= sown_by) ++count;
    batches = batches.first(count);
    for (const Batch& batch : batches) warm_room(batch, -batch.left);  // what they gave; below, what they give
  } else if (!batches.empty()) {
    std::fill(mat_heat_.begin(), mat_heat_.end(), 0.0);
  }
  settler_.settle(batches, room_, now, humidity_factor_);
  double* heat = mat_heat_.data();
  const double grain = plan_->grain_per_tray;
  for (Batch& batch : batches) {
    batch.mark = session;
    heat[batch.species] += batch.heat_unit * (batch.left * grain);
    watch(batch);
  }
  room_.set_mark(session);
}

void Replicator::State::settle(Batch& batch) {
  const auto now = static_cast<double>(sim_.now());
  if (now <= batch.settled) return;
  warm_room(batch, -batch.left);
  settler_.settle_one(batch, room_, now, humidity_factor_);
  warm_room(batch, batch.left);
  watch(batch);
}

// Looks at the trays if one of them may have spoiled.
void Replicator::State::watch(Batch& batch) {
  if (batch.mould >= batch.mould_next || batch.sour >= batch.sour_next) look_at_trays(batch);
}

void Replicator::State::look_at_trays(Batch& batch) {
  batch.mould_next = batch.sour_next = std::numeric_limits<double>::infinity();
  for (Tray& tray : rack_.trays_of(batch)) {
    if (!tray.here || tray.spoiled != Spoiled::no) continue;
    if (batch.mould >= tray.mould_at || batch.sour >= tray.sour_at) judge(batch, tray);
    if (tray.spoiled != Spoiled::no) continue;
    batch.mould_next = std::min(batch.mould_next, tray.mould_at);
    batch.sour_next = std::min(batch.sour_next, tray.sour_at);
  }
}

void Replicator::State::judge(Batch& batch, Tray& tray) {
  if (!tray.exact) {  // so far its lucks stood for its thresholds, which are a little more
    const double before = tray.mould_threshold();
    tray.exact = true;
    if (tray.mould_rate > 0.0) tray.mould_at += (tray.mould_threshold() - before) / tray.mould_rate;
    tray.sour_at += -std::log1p(-tray.sour_luck) - tray.sour_luck;
  }
  const bool by_mould = batch.mould >= tray.mould_at, by_sour = batch.sour >= tray.sour_at;
  if (!by_mould && !by_sour) return;
  const bool mould = by_mould && (!by_sour || tray.mouldy_first(batch.mould, batch.sour));
  tray.spoiled = mould ? Spoiled::mould : Spoiled::sour;
  ++batch.spoiled;
  tray.notice = fortune_.notice(batch.day, batch.session, static_cast<int>(&tray - &rack_.trays_of(batch).front()));
  ++spoiled_here_;
  spoiled_today_ += 1.0;
  sour_today_ += mould ? 0.0 : 1.0;
  sim_.trace(static_cast<std::uint64_t>(batch.slot) * 8 + static_cast<std::uint64_t>(tray.spoiled));
  rack_.lay(batch);
  if (mould) shed(tray.tier);
}

// A mouldy mat sheds on its own level and on those its water reaches.
void Replicator::State::shed(int tier) {
  const auto here = static_cast<std::size_t>(tier);
  const double much = plan_->scenario.spoilage.shed * fortune_.ignorance().carry;
  const auto add = [&](std::size_t level) { level_load_[level] = std::min(most_load, level_load_[level] + much); };
  add(here);
  if (here < plan_->water.downstream.size()) {
    for (const int below : plan_->water.downstream[here]) {
      if (static_cast<std::size_t>(below) < level_load_.size()) add(static_cast<std::size_t>(below));
    }
  }
  any_load_ = any_load_ || much > 0.0;
}

// A day of the levels' inoculum: water and work carry part of it off, washing the trays that leave takes more, and mouldy mats that
// nobody has seen go on shedding.
void Replicator::State::spread_spores() {
  if (!any_load_ && spoiled_here_ == 0) return;
  const Line& line = plan_->scenario.line;
  double left = 1.0 - plan_->scenario.spoilage.rinsed_per_day;
  left *= 1.0 - washed_ * line.wash / line.days_on_rack;
  any_load_ = false;
  for (double& load : level_load_) {
    load *= left;
    if (load < hardly_any) load = 0.0;
    any_load_ = any_load_ || load > 0.0;
  }
  if (spoiled_here_ == 0) return;
  for (Batch& batch : rack_.batches()) {
    if (batch.spoiled == 0) continue;
    rack_.lay(batch);
    for (const Tray& tray : rack_.trays_of(batch)) {
      if (tray.here && tray.spoiled == Spoiled::mould) shed(tray.tier);
    }
  }
}

}  // namespace rackwright
