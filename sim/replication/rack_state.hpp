#pragma once
// The rack as it stands: batches by age, each with its trays.
//
//   sow ──> batch (growth clock, germination progress, mat warmth, integrals of both hazards)
//             └── trays (own germinable fraction, own thresholds, own tier)
//   a batch is settled, i.e. brought up to date from the room's running integrals, when somebody touches it.
//
// Trays of a batch share its hazard but for a constant factor, so a tray's threshold is kept in the batch's terms, and the
// batch keeps the least of them: settling looks at no tray until one of them spoils.

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <span>
#include <vector>

#include "models/base/expects.hpp"
#include "sim/replication/plan.hpp"

namespace rackwright {

enum class Spoiled : std::uint8_t { no, mould, sour, frost };

struct Tray {
  double germinable = 0.0;               ///< at the best temperature [1]
  double kept = 1.0;                     ///< share of sprouts that drought has left [1]
  double killed_loss = 0.0, killed_fresh = 0.0, killed_water = 0.0;  ///< of those it killed: dry matter they had lost, of the tray's [1];
                                         ///< fresh mass [kg] and water taken up [L] beyond soaked grain's
  double mould_luck = 0.5, sour_luck = 0.5;  ///< uniform; its Exp(1) thresholds are -log(1 - luck)
  double mould_rate = 0.0;               ///< multiplier on the mould response [1/d]
  double mould_at = 0.0, sour_at = 0.0;  ///< the batch's integrals at which it spoils, or, until `exact`, something less
  double notice = 0.5;                   ///< uniform, drawn when it spoils; below the keeper's chance it is seen
  int tier = 0;                          ///< ask RackState::lay first
  Spoiled spoiled = Spoiled::no;
  bool exact = false;
  bool here = false;

  /// Thresholds in use: -log(1 - luck) is never less than luck, so the logarithm is seldom needed.
  [[nodiscard]] double mould_threshold() const { return exact ? -std::log1p(-mould_luck) : mould_luck; }
  [[nodiscard]] double sour_threshold() const { return exact ? -std::log1p(-sour_luck) : sour_luck; }
  /// What it has met of each hazard since it was sown or taken over, when its batch's integral is that: it spoils at the threshold.
  [[nodiscard]] double mould_hazard(double integral) const { return mould_rate > 0.0 ? mould_threshold() + mould_rate * (integral - mould_at) : 0.0; }
  [[nodiscard]] double sour_hazard(double integral) const { return sour_threshold() + integral - sour_at; }
  /// Of both thresholds passed since it was last looked at, the one passed by the larger ratio was passed first: was it mould's?
  [[nodiscard]] bool mouldy_first(double mould_integral, double sour_integral) const {
    return mould_hazard(mould_integral) * sour_threshold() >= sour_hazard(sour_integral) * mould_threshold();
  }
};

// Fields that settling moves four at a time (batch_settle.cpp) stand side by side in the groups marked.
struct Batch {
  // 1: the air about it
  double offset = 0.0;                   ///< its tiers' air minus room air, mean [K]
  double water = 1.0;                    ///< share of its need watered, mean of its tiers [1]
  double excess = 0.0;                   ///< mat minus air [K]
  double heat_unit = 0.0;                ///< to the room, W per kg grain at one growth day a day of a mat as warm as its air
  // 2: its clocks
  double growth = 0.0;                   ///< days at 20 degC
  double progress = 0.0;                 ///< of germination, in medians
  double had_chance = 0.0;               ///< share of the germinable grain whose time to germinate has come [1]
  double germinated = 0.0;               ///< of it, what the warmth of that time let germinate [1]
  // 3: its hazards
  double mould = 0.0;                    ///< mould response integrated, dead grain and humidity included; times mould_rate a tray's hazard
  double sour = 0.0;                     ///< souring hazard integrated, every tray's
  double settled = 0.0;                  ///< minute up to which it is settled
  double sour_rate = 0.0;                ///< multiplier on the souring response [1/d]
  // 4: what it is
  double vigour = 1.0;
  double germinable = 0.9;               ///< mean of its trays [1]
  double dead_inverse = 1.0;             ///< 1 / the dead-grain factor of its mould hazard at sowing
  double load = 1.0;                     ///< what inoculum on its levels multiplies mould by [1]

  double grain_dry_matter = 0.88;
  double inoculum = 1.0;                 ///< its trays' own, relative to usual [1]
  double soak_litres = 0.0;              ///< water its grain brought from the soak [L/kg]
  double evaporated = 0.0;               ///< what a square metre of wet surface had evaporated when it was sown [kg/m2]
  double mould_next = 0.0, sour_next = 0.0;  ///< no tray spoils before either integral reaches this
  int grain = 0, species = 0;
  int mark = 0;                          ///< room mark its integrals count from
  int day = 0, session = 0;              ///< for which it was soaked: its identity
  int first = 0, size = 0, left = 0;     ///< its trays in the pool, how many sown, how many still here
  int slot = 0;
  int spoiled = 0;                       ///< of those still here
  int rank = 0;                          ///< of its first tray on the ladder, 0 at the top
  bool laid = true;                      ///< do its trays' tiers stand in the trays?
  std::int64_t sown = 0;                 ///< minute of sowing

  /// Share of the grain that the temperatures so far let germinate [1].
  [[nodiscard]] double fraction() const {
    return had_chance > 1e-6 ? std::min(1.0, germinated / had_chance) : 1.0;
  }
};

/// Places, batches and trays. Never allocates after construction.
class RackState {
 public:
  explicit RackState(const Plan& plan);
  void clear();

  [[nodiscard]] int trays() const { return trays_on_rack_; }
  [[nodiscard]] int free_places() const { return positions_ - trays_on_rack_; }
  /// Batches still on the rack, oldest first. add() and drop_empty() invalidate.
  [[nodiscard]] std::span<Batch> batches() { return {batches_.data() + head_, tail_ - head_}; }
  [[nodiscard]] std::span<Tray> trays_of(const Batch& batch) {
    return {pool_.data() + batch.first, static_cast<std::size_t>(batch.size)};
  }
  /// Adds a batch of n trays at the young end; expects n free places. Trays are blank but for `here` and their tier.
  Batch& add(int n);
  /// Takes trays off a batch whose tiers are laid: each is vacated, then they are counted out together; the batch stays until drop_empty().
  void vacate(Batch& batch, Tray& tray) {
    EXPECTS(tray.here && batch.laid);
    tray.here = false;
    --tier_use_[static_cast<std::size_t>(tray.tier)];
    if (tray.spoiled != Spoiled::no) --batch.spoiled;
  }
  void count_out(Batch& batch, int trays) {
    EXPECTS(batch.left >= trays);
    batch.left -= trays;
    emptied_ += batch.left == 0 ? 1 : 0;
    trays_on_rack_ -= trays;
  }
  void drop_empty();
  /// On a ladder, gives every tray its place by age and every batch the means of its tiers, and the load of what stands on them:
  /// `level_load` is inoculum by tier, empty where there is none.
  void arrange(std::span<const double> level_load);
  /// The load for one batch, where its trays stand.
  void meet(Batch& batch, std::span<const double> level_load);
  /// Writes the tiers that arrange() gave a batch into its trays.
  void lay(Batch& batch) {
    if (!batch.laid) lay_trays(batch);
  }

 private:
  std::size_t room_for_one();
  void lay_trays(Batch& batch);
  void set_load(Batch& batch, double mean_inoculum) const;

  const Plan* plan_;
  int positions_ = 0;
  int per_batch_ = 0;
  bool ladder_ = true;
  int trays_on_rack_ = 0;
  int emptied_ = 0;            ///< batches without a tray left
  std::vector<Batch> batches_; ///< from head_ to tail_; room for twice as many as there can be, so that the old end can just move up
  std::size_t head_ = 0, tail_ = 0;
  std::vector<Tray> pool_;
  std::vector<int> free_slots_;
  std::vector<int> tier_use_;
  std::vector<int> tier_of_rank_;                    ///< rank 0 is the first place of the top tier
  struct Means { double offset = 0.0, water = 0.0; };
  std::vector<Means> before_;                        ///< summed over the ranks before
  std::vector<double> inverse_;                      ///< of a number of trays
};

}  // namespace rackwright
