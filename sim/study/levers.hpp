#pragma once
// What a keeper can turn to get more fodder from a design, step by step.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright::study {

/// Turns a design by `step` (1 is the smallest); the keys it changed, none when there is no such step.
using Lever = std::vector<std::string> (*)(Scenario&, int step);

/// Sowing as wanted, more trays, places, tiers, density, days, buckets and minutes, fewer days, a shorter soak, a heater, insulation, somebody who stands in for
/// the keeper and more grain in store, each by itself, and trays with places; up to about threefold.
const std::vector<Lever>& single_levers();
inline constexpr int lever_steps = 6;

/// More minutes a day for the keeper, in the evening as in the morning where they are told apart; up to the whole day.
std::vector<std::string> more_time(Scenario& s, int step);
/// Trays of a batch, and places in step with them, at least what such batches stand on for their days.
std::vector<std::string> trays_and_places(Scenario& s, int step);
/// A day less on the rack, with as many more trays as one place less of a tray's days makes room for.
std::vector<std::string> shorter_cycle(Scenario& s, int step);
/// A second rack beside the first, tier by tier, with a pump, lines, tank and buckets of its own, and `step` steps more trays. None where
/// the keeper's own water network is written.
std::vector<std::string> second_rack(Scenario& s, int step);

/// Could all these keys be written as they are now? A lever may turn one beyond its range.
bool writable(const Scenario& turned, const std::vector<std::string>& keys);

/// "line.trays_per_batch = 6 (now 5) with rack.trays_per_tier = 16 (now 14)", in the scenario's units.
std::string change_words(const Scenario& before, const Scenario& after, const std::vector<std::string>& changed);

}  // namespace rackwright::study
