#pragma once
// Which pipes starve a tier, and what wider ones would do.

#include <cstddef>
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

/// Pipes to widen, in turn, and the share that the driest tier then gets [1].
struct Widening { std::vector<Wider> pipes{}; double share = 1.0; };

/// Where a tier gets too little: the pipe that costs most on the way of the driest, as wide as the narrowest wider one of the network with which every tier
/// gets enough, else as the one with which the driest gets most; and so on while that is a tenth more than before. In a usual network all pipes of
/// that kind are widened together. Nothing where nothing is gained. `watering` must be the scenario's.
Widening widening_of(const Scenario& scenario, const Watering& watering);

/// Does a tank filled by hand run empty before it is filled again, with the pump on its timer?
bool runs_empty(const Scenario& scenario, const Watering& watering);

/// Pump time of a watering with which the driest tier would get half as much again as its mats drink at their thirstiest [h]; infinite where some tier gets nothing.
Hours ample_on_time(const Scenario& scenario, const Watering& watering);

}  // namespace rackwright
