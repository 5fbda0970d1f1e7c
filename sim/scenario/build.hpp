#pragma once
// What a scenario has its keeper build.

#include "models/cost/ledger.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// The rack, its trays with those in the wash, and what is done to the room.
cost::Build build_of(const Scenario& scenario);
/// Money to build it, by the scenario's prices.
Money capital_of(const Scenario& scenario);

}  // namespace rackwright
