#include "sim/replication/rack_state.hpp"

#include <algorithm>

#include "models/base/expects.hpp"
#include "models/spoilage/hazard.hpp"

namespace rackwright {

RackState::RackState(const Plan& plan)
    : plan_(&plan), positions_(plan.positions), per_batch_(std::min(plan.most_trays, plan.positions)),
      ladder_(plan.scenario.keeper.handling == route::Handling::ladder) {
  // Every batch on the rack holds at least one place, so there are never more batches than places.
  const auto slots = static_cast<std::size_t>(positions_) + 1;
  pool_.resize(slots * static_cast<std::size_t>(per_batch_));
  batches_.resize(2 * slots);
  free_slots_.reserve(slots);
  const int tiers = plan.scenario.rack.tiers, per_tier = plan.scenario.rack.trays_per_tier;
  tier_use_.resize(static_cast<std::size_t>(tiers));
  before_.push_back({});
  for (int trays = 0; trays <= per_batch_; ++trays) inverse_.push_back(1.0 / trays);
  for (int rank = 0; rank < positions_; ++rank) {
    const int tier = std::max(0, tiers - 1 - rank / per_tier);
    tier_of_rank_.push_back(tier);
    const Means& last = before_.back();
    before_.push_back({last.offset + plan.tier_offset[static_cast<std::size_t>(tier)], last.water + plan.tier_water[static_cast<std::size_t>(tier)]});
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
  // New trays go to the highest tier that has a place left; the ladder rearranges them every morning.
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

namespace {

// Load summed over the ranks before one, from the top tier's first place on; asked for rising ranks.
class LoadBefore {
 public:
  LoadBefore(std::span<const double> level_load, int per_tier) : load_(level_load), per_tier_(per_tier), tier_(level_load.size() - 1), end_(per_tier) {}
  double operator()(int rank) {
    while (rank > end_ && tier_ > 0) {  // what finds no tier stands on the lowest
      full_ += per_tier_ * load_[tier_--];
      end_ += per_tier_;
    }
    return full_ + (rank - (end_ - per_tier_)) * load_[tier_];
  }

 private:
  std::span<const double> load_;
  int per_tier_;
  std::size_t tier_;
  int end_;
  double full_ = 0.0;
};

}  // namespace

void RackState::arrange(std::span<const double> level_load) {
  if (!ladder_) return;
  // Youngest on top, oldest at the bottom, where they are easy to reach and what drips from them meets no younger tray.
  int rank = 0;
  const Means* before = before_.data();
  for (std::size_t b = tail_; b-- > head_;) {
    Batch& batch = batches_[b];
    batch.rank = rank;
    batch.laid = false;
    batch.load = 1.0;
    const Means* upto = before + batch.left;
    const double share = inverse_[static_cast<std::size_t>(batch.left)];
    batch.offset = (upto->offset - before->offset) * share;
    batch.water = (upto->water - before->water) * share;
    before = upto;
    rank += batch.left;
  }
  const int per_tier = plan_->scenario.rack.trays_per_tier;
  for (auto use = tier_use_.rbegin(); use != tier_use_.rend(); ++use) {
    *use = std::min(rank, per_tier);
    rank -= *use;
  }
  if (level_load.empty()) return;
  LoadBefore load(level_load, per_tier);
  double so_far = 0.0;
  for (std::size_t b = tail_; b-- > head_;) {
    Batch& batch = batches_[b];
    const double upto = load(batch.rank + batch.left);
    if (upto > so_far) set_load(batch, (upto - so_far) * inverse_[static_cast<std::size_t>(batch.left)]);
    so_far = upto;
  }
}

void RackState::lay_trays(Batch& batch) {
  batch.laid = true;
  auto rank = static_cast<std::size_t>(batch.rank);
  for (Tray& tray : trays_of(batch)) {
    if (tray.here) tray.tier = tier_of_rank_[rank++];
  }
}

}  // namespace rackwright
