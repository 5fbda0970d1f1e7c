#pragma once
// Which pipes starve a tier, and what wider ones would do.

#include <cstddef>
#include <optional>
#include <vector>

#include "sim/scenario/watering.hpp"

namespace rackwright {

/// Least share of what its mats drink at their thirstiest that a tier must get to be told as watered [1].
inline constexpr double watered_enough = 0.995;

/// The tier that gets the smallest share, and that share [1]; tier 0 with 1 where all get enough.
struct Driest { std::size_t tier = 0; double share = 1.0; };
Driest driest_tier(const Watering& watering);

/// A pipe of the network, by its index, made so wide.
struct Wider { int pipe = -1; Metres to{}; };

/// Pipes to widen, in turn, the share that the driest tier then gets [1], and the pump time a day with which every tier would then get all [h].
struct Widening { std::vector<Wider> pipes{}; double share = 1.0; Hours pump_time{}; };

/// Where a tier gets too little: the pipe that costs most on the way of the driest, as wide as the narrowest wider one of the network with which every tier
/// gets enough, else as the one with which the driest gets most; and so on while that is a tenth more than before. In a usual network all pipes of
/// that kind are widened together. Nothing where nothing is gained. `watering` must be the scenario's.
Widening widening_of(const Scenario& scenario, const Watering& watering);

/// A pump that lifts so high, the share that the driest tier then gets [1], and the pump time a day with which every tier would then get all [h].
struct Lift {
  Metres shutoff{}; double share = 1.0; Hours pump_time{};
  Metres left{};  ///< at the driest tier as it is
  [[nodiscard]] bool helps() const { return shutoff > Metres(0.0); }
};

/// Where the pump hardly lifts to the driest tier (it could stand less than 50 cm above it, and less than 20 cm is left there while the pump runs: our
/// choice, no source): the least lift of a few with which every tier gets enough, else that with which the driest gets most.
/// Helps nothing where that is not so, or less than a tenth more is gained.
Lift higher_lift(const Scenario& scenario, const Watering& watering);

/// Longest time between two fillings of a tank that is filled by hand at the first round for which `every` has come, within an hour [h].
Hours fill_gap(const Scenario& scenario, Hours every);

/// How often such a tank may be said to be filled (water.top_up_every), more often than now, so that what lasts so long does not run empty between rounds
/// [h]; nothing where rounds are too far apart for that.
std::optional<Hours> filled_in_time(const Scenario& scenario, Hours lasts);

/// Does a tank filled by hand run empty before the round at which it is filled again, with the pump on its timer?
bool runs_empty(const Scenario& scenario, const Watering& watering);

/// Pump time of a watering with which the driest tier would get half as much again as its mats drink at their thirstiest [h]; infinite where some tier gets nothing.
Hours ample_on_time(const Scenario& scenario, const Watering& watering);

}  // namespace rackwright
