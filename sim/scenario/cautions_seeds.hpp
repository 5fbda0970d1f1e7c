#pragma once
// What is known of plants whose seed or sprouts can harm those fed: told by the names a scenario gives its grains and species.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// The scenario has passed check_scenario. Adds to `out`. What the names of a plant are, and what it does to an animal, is
/// veterinary toxicology, from memory: a name that is not known here is no proof that a plant is harmless, and is told as such.
void seed_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
