#pragma once
// Bringing batches up to date from the room's running integrals: one at a time, or four in the lanes of vector registers.

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "models/spoilage/hazard.hpp"
#include "sim/replication/plan.hpp"
#include "sim/replication/rack_state.hpp"
#include "sim/replication/room_march.hpp"
#include "sim/replication/sprout_curve.hpp"

namespace rackwright {

/// What all batches of one settling share.
class BatchSettler {
 public:
  explicit BatchSettler(const Plan& plan);

  /// What this replication takes to be true: factors on the growth clock, on the heat of a growth day, on how much warmer heat makes a
  /// mat; and the shapes of the sprout curves, between the species' own (0), flatter (1) and steeper (-1).
  void assume(double clock, double heat, double warmth, double flatness, const spoilage::Parameters& spoil);

  /// Brings batches up to `now` [min], their marks' integrals being `room`'s; expects all settled before now. `humidity_factor`
  /// is today's on the mould hazard.
  void settle(std::span<Batch> batches, const RoomMarch& room, double now, double humidity_factor);
  /// The same for one batch: the same bits.
  void settle_one(Batch& batch, const RoomMarch& room, double now, double humidity_factor) const;
  /// Gives a batch just sown the heat of its first day, of which nothing is known yet but that it is new.
  void sown(Batch& batch) const;

  /// germination::share_germinated from its table.
  [[nodiscard]] double share_germinated(int species, double progress) const {
    return SproutCurve::at(sprout_.data() + static_cast<std::size_t>(species) * SproutCurve::doubles, progress);
  }

 private:
  using Four = std::array<Batch*, 4>;
  void settle_four(const Four& four, const RoomMarch& room, double now, double humidity_factor) const;
  /// At one growth day a day, from so much of the grain, at that age [W/kg].
  [[nodiscard]] double heat_unit(const Batch& batch, double growth_days, double sprouted, double pace) const;
  [[nodiscard]] double dead_factor(double dead_fraction) const;

  static constexpr double well_sprouted = 0.995;  ///< from this fraction on the heat has kept nothing from germinating
  static constexpr double all_had_chance = 0.9995;  ///< from this share on nothing more germinates
  spoilage::Parameters spoil_;
  double dead_scale_ = 1.0;         ///< 1 / (floor + usual dead fraction)
  double usual_excess_ = 0.0;       ///< of the mat over the air, by heat of a kilogram of grain [K kg/W]
  double clock_ = 1.0, heat_scale_ = 1.0, excess_per_heat_ = 0.0;  ///< as assumed
  spoilage::Onset usual_onset_;     ///< of the plan's lag
  double usual_lag_;
  spoilage::Onset onset_;           ///< as assumed
  std::size_t heat_rows_ = 0;
  std::vector<double> heat_;        ///< MatTable's heat rows, [grain][row]
  std::vector<double> uncrowded_;   ///< by grain
  std::vector<double> sprout_;      ///< a SproutCurve a species, as assumed
  std::array<std::vector<double>, 3> sprouts_;  ///< their own, flatter and steeper
  Batch nobody_;                    ///< in lanes left over
  bool lanes_ = false;
};

}  // namespace rackwright
