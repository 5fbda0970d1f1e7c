#pragma once

#include <array>
#include <string_view>

#include "models/water/network.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// The watering network of a scenario: the keeper's own where there is one, else the usual one for its rack.
water::Network network_of(const Scenario& scenario);

/// Keys that draw the usual network; beside one of the keeper's own they change nothing.
inline constexpr std::array<std::string_view, 4> usual_network_keys{"water.feed", "water.riser_diameter", "water.branch_diameter", "water.run_length"};
/// Why such a key has no say in this scenario; empty where it has, and of every other key.
std::string_view why_no_say(const Scenario& scenario, std::string_view key);

}  // namespace rackwright
