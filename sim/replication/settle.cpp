// Bringing batches up to date and finding the trays that have spoiled since.

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/replication/state.hpp"

namespace rackwright {
namespace {

constexpr double foul_factor = 3.0;          // inoculum on trays that drain from a spoiled one (assumed, no source)
constexpr std::int64_t foul_minutes = 3 * minutes_per_day;  // until washed away (assumed, no source)

}  // namespace

void Replicator::State::settle_all(int session) {
  const auto now = static_cast<double>(sim_.now());
  std::span<Batch> batches = rack_.batches();
  if (!batches.empty() && batches.front().settled >= now) batches = {};  // both rounds at the same minute
  if (session != 0) {
    // In the evening only what may be cut is touched, and batches are in the order of their age.
    const std::int64_t sown_by = sim_.now() - minutes_per_day * (plan_->scenario.line.days_on_rack - 1);
    std::size_t count = 0;
    while (count < batches.size() && batches[count].sown <= sown_by) ++count;
    batches = batches.first(count);
    for (const Batch& batch : batches) warm_room(batch, -batch.left);
  } else if (!batches.empty()) {
    std::fill(mat_heat_.begin(), mat_heat_.end(), 0.0);
  }
  settler_.settle(batches, room_, now, humidity_factor_, mould_gains_);
  const double* gain = mould_gains_.data();
  for (Batch& batch : batches) {
    batch.mark = session;
    warm_room(batch, batch.left);
    watch(batch, *gain++);
  }
  room_.set_mark(session);
}

void Replicator::State::settle(Batch& batch) {
  const auto now = static_cast<double>(sim_.now());
  if (now <= batch.settled) return;
  warm_room(batch, -batch.left);
  const double gain = settler_.settle_one(batch, room_, now, humidity_factor_);
  warm_room(batch, batch.left);
  watch(batch, gain);
}

// Looks at the trays if one of them may have spoiled; `gain` is what the batch's mould integral has just gained.
void Replicator::State::watch(Batch& batch, double gain) {
  const bool any_foul = foul_until_any_ > sim_.now();
  if (any_foul || batch.mould >= batch.mould_next || batch.sour >= batch.sour_next) look_at_trays(batch, gain, any_foul);
}

// Some tray may have spoiled, or stand where a spoiled one drains to; `mould` is what the batch's integral has just gained.
void Replicator::State::look_at_trays(Batch& batch, double mould, bool any_foul) {
  if (any_foul) rack_.lay(batch);
  batch.mould_next = batch.sour_next = std::numeric_limits<double>::infinity();
  for (Tray& tray : rack_.trays_of(batch)) {
    if (!tray.here || tray.spoiled != Spoiled::no) continue;
    // Extra inoculum brings the threshold nearer.
    const bool foul = any_foul && foul_until_[static_cast<std::size_t>(tray.tier)] > sim_.now();
    if (foul) tray.mould_at -= (foul_factor - 1.0) * mould;
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
    tray.sour_at = -std::log1p(-tray.sour_luck);
  }
  const bool by_mould = batch.mould >= tray.mould_at, by_sour = batch.sour >= tray.sour_at;
  if (!by_mould && !by_sour) return;
  // Of two thresholds passed since the last settling, the one passed by the larger ratio was passed first.
  const double hazard = tray.mould_threshold() + tray.mould_rate * (batch.mould - tray.mould_at);
  const bool mould = by_mould && (!by_sour || hazard * tray.sour_luck >= batch.sour * tray.mould_luck);
  tray.spoiled = mould ? Spoiled::mould : Spoiled::sour;
  ++batch.spoiled;
  tray.notice = fortune_.notice(batch.day, batch.session, static_cast<int>(&tray - &rack_.trays_of(batch).front()));
  ++spoiled_here_;
  spoiled_today_ += 1.0;
  sour_today_ += mould ? 0.0 : 1.0;
  sim_.trace(static_cast<std::uint64_t>(batch.slot) * 8 + static_cast<std::uint64_t>(tray.spoiled));
  const std::int64_t until = sim_.now() + foul_minutes;
  rack_.lay(batch);
  const auto tier = static_cast<std::size_t>(tray.tier);
  if (tier < plan_->water.downstream.size()) {
    for (const int below : plan_->water.downstream[tier]) {
      if (static_cast<std::size_t>(below) < foul_until_.size()) foul_until_any_ = foul_until_[static_cast<std::size_t>(below)] = until;
    }
  }
}

}  // namespace rackwright
