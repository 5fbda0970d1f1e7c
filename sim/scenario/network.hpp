#pragma once

#include "models/water/network.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// The watering network of a scenario: the keeper's own where there is one, else the usual one for its rack.
water::Network network_of(const Scenario& scenario);

}  // namespace rackwright
