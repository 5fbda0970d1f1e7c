#pragma once
// What mats drink of the water that falls on them, and what of it falls on to the tiers below.

#include <vector>

#include "models/water/network.hpp"

namespace rackwright::water {

/// Share of what falls on a mat that it can use; the rest runs off [1] (assumed, no source).
inline constexpr double usable = 0.5;

/// Of one tier, in some time [L].
struct Shared { double falls = 0.0; double catchable = 0.0; double drunk = 0.0; };

/// What falls on each tier (0 the lowest) while the pump runs for so long, what its mats could use of that, and what they drink: no more than `thirst` [L]
/// (by the same tiers). What a tier drinks does not fall on those below it; so all tiers together drink no more than is pumped. The solution must be
/// the network's.
std::vector<Shared> shared_out(const Network& network, const Solution& solution, const std::vector<double>& thirst, Hours pumped);

}  // namespace rackwright::water
