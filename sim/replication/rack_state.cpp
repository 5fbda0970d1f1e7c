#include "sim/replication/rack_state.hpp"

#include <algorithm>

#include "models/base/expects.hpp"
#include "models/spoilage/hazard.hpp"

namespace rackwright {

RackState::RackState(const Plan& plan)
    : plan_(&plan), positions_(plan.positions), per_batch_(std::min(plan.scenario.line.trays_per_batch, plan.positions)),
      ladder_(plan.scenario.keeper.handling == route::Handling::ladder) {
  // Every batch on the rack holds at least one place, so there are never more batches than places.
  const auto slots = static_cast<std::size_t>(positions_) + 1;
  pool_.resize(slots * static_cast<std::size_t>(per_batch_));
  batches_.resize(2 * slots);
  free_slots_.reserve(slots);
  const int tiers = plan.scenario.rack.tiers, per_tier = plan.scenario.rack.trays_per_tier;
  tier_use_.resize(static_cast<std::size_t>(tiers));
  offset_before_.push_back(0.0);
  water_before_.push_back(0.0);
  load_before_.resize(static_cast<std::size_t>(positions_) + 1);
  for (int rank = 0; rank < positions_; ++rank) {
    const int tier = std::max(0, tiers - 1 - rank / per_tier);
    tier_of_rank_.push_back(tier);
    offset_before_.push_back(offset_before_.back() + plan.tier_offset[static_cast<std::size_t>(tier)]);
    water_before_.push_back(water_before_.back() + plan.tier_water[static_cast<std::size_t>(tier)]);
  }
  clear();
}

void RackState::clear() {
  head_ = tail_ = 0;
  free_slots_.clear();
  for (int slot = positions_; slot >= 0; --slot) free_slots_.push_back(slot);
  std::fill(tier_use_.begin(), tier_use_.end(), 0);
  trays_on_rack_ = 0;
  emptied_ = 0;
}

std::size_t RackState::room_for_one() {
  if (tail_ == batches_.size()) {
    std::copy(batches_.data() + head_, batches_.data() + tail_, batches_.data());
    tail_ -= head_;
    head_ = 0;
  }
  return tail_++;
}

Batch& RackState::add(int n) {
  EXPECTS(n > 0 && n <= free_places() && n <= per_batch_ && !free_slots_.empty());
  Batch& batch = batches_[room_for_one()];
  batch = Batch{};
  batch.slot = free_slots_.back();
  free_slots_.pop_back();
  batch.first = batch.slot * per_batch_;
  batch.size = batch.left = n;
  trays_on_rack_ += n;
  // New trays go to the emptiest tier, the top one first; the ladder rearranges them every morning.
  const int per_tier = plan_->scenario.rack.trays_per_tier;
  auto tier = static_cast<int>(tier_use_.size()) - 1;
  batch.water = 0.0;
  for (Tray& tray : trays_of(batch)) {
    while (tier > 0 && tier_use_[static_cast<std::size_t>(tier)] >= per_tier) --tier;
    const auto here = static_cast<std::size_t>(tier);
    ++tier_use_[here];
    tray = Tray{};
    tray.here = true;
    tray.tier = tier;
    batch.offset += plan_->tier_offset[here];
    batch.water += plan_->tier_water[here];
  }
  batch.offset /= n;
  batch.water /= n;
  return batch;
}

void RackState::take(Batch& batch, Tray& tray) {
  EXPECTS(tray.here && batch.left > 0);
  lay(batch);
  tray.here = false;
  --batch.left;
  emptied_ += batch.left == 0 ? 1 : 0;
  --trays_on_rack_;
  --tier_use_[static_cast<std::size_t>(tray.tier)];
  if (tray.spoiled != Spoiled::no) --batch.spoiled;
}

void RackState::drop_empty() {
  // Nearly always it is the oldest that are gone.
  for (; emptied_ > 0 && batches_[head_].left == 0; --emptied_) free_slots_.push_back(batches_[head_++].slot);
  if (emptied_ == 0) return;
  emptied_ = 0;
  std::size_t kept = head_;
  while (kept < tail_ && batches_[kept].left > 0) ++kept;
  for (std::size_t b = kept; b < tail_; ++b) {
    if (batches_[b].left == 0) free_slots_.push_back(batches_[b].slot);
    else batches_[kept++] = batches_[b];
  }
  tail_ = kept;
}

// What stands about a batch adds to what it brought.
void RackState::set_load(Batch& batch, double mean_inoculum) const {
  constexpr double least = 1e-3;  // even grain without a spore catches its neighbours'
  batch.load = 1.0 + mean_inoculum / (spoilage::usual_inoculum * std::max(least, batch.inoculum));
}

void RackState::meet(Batch& batch, std::span<const double> level_load) {
  batch.load = 1.0;
  if (level_load.empty() || batch.left == 0) return;
  lay(batch);
  double sum = 0.0;
  for (const Tray& tray : trays_of(batch)) sum += tray.here ? level_load[static_cast<std::size_t>(tray.tier)] : 0.0;
  set_load(batch, sum / batch.left);
}

void RackState::arrange(std::span<const double> level_load) {
  if (!ladder_) return;
  for (std::size_t rank = 0; rank < tier_of_rank_.size() && !level_load.empty(); ++rank) {
    load_before_[rank + 1] = load_before_[rank] + level_load[static_cast<std::size_t>(tier_of_rank_[rank])];
  }
  // Youngest on top, oldest at the bottom, where they are easy to reach and what drips from them meets no younger tray.
  int rank = 0;
  for (std::size_t b = tail_; b-- > head_;) {
    Batch& batch = batches_[b];
    const auto from = static_cast<std::size_t>(rank), to = from + static_cast<std::size_t>(batch.left);
    batch.rank = rank;
    batch.laid = false;
    const double share = 1.0 / batch.left;
    batch.offset = (offset_before_[to] - offset_before_[from]) * share;
    batch.water = (water_before_[to] - water_before_[from]) * share;
    if (level_load.empty()) batch.load = 1.0;
    else set_load(batch, (load_before_[to] - load_before_[from]) * share);
    rank += batch.left;
  }
  const int per_tier = plan_->scenario.rack.trays_per_tier;
  for (auto use = tier_use_.rbegin(); use != tier_use_.rend(); ++use) {
    *use = std::min(rank, per_tier);
    rank -= *use;
  }
}

void RackState::lay(Batch& batch) {
  if (batch.laid) return;
  batch.laid = true;
  auto rank = static_cast<std::size_t>(batch.rank);
  for (Tray& tray : trays_of(batch)) {
    if (tray.here) tray.tier = tier_of_rank_[rank++];
  }
}

}  // namespace rackwright
