#pragma once
// Does the rack go into its room, and a ripe mat between two tiers?

#include <string>
#include <vector>

#include "models/growth/mat.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// A ripe mat of one of the scenario's grains, fully sprouted.
growth::Mat ripe_mat(const Scenario& scenario, const GrainSupply& grain);

/// Why nobody could build it so, a sentence each without its full stop; empty where it fits. Lengths in the scenario's units. A mat takes the height
/// that a sown grain has grown to at 20 degC when its days on the rack are over.
std::vector<std::string> what_does_not_fit(const Scenario& scenario);

}  // namespace rackwright
