#pragma once
// What frost does to a line: water stands still, mats die. Equations, sources and what is left out: docs/models/frost.md.

#include "models/base/quantity.hpp"

namespace rackwright::frost {

/// Below it water freezes in pipes, emitters, tank and tub.
inline constexpr Celsius freezing{0.0};

struct Parameters {
  Celsius kill{-3.0};      ///< air at which sprouts that were never hardened die (from memory; -2 to -5 defensible)
  double sprouted = 0.1;   ///< share of its grain whose time to sprout has come, from which on a tray is a mat and not grain (assumed) [1]
};

/// Does the water stand still in a room whose air is that cold? What is frozen runs again when it has thawed (assumed: the line is
/// drained, and does not burst).
constexpr bool water_stands(Celsius room) { return room < freezing; }

/// Is a tray a mat, of whose grain that share [1] has had its time to sprout? Until then it is soaked grain: frost leaves it as it is,
/// and it is no fodder.
constexpr bool is_mat(const Parameters& parameters, double share) { return share >= parameters.sprouted; }

/// Does such a tray die where the air about it has been that cold?
constexpr bool kills(const Parameters& parameters, Celsius air, double share) { return is_mat(parameters, share) && air < parameters.kill; }

}  // namespace rackwright::frost
