#pragma once
// What a keeper must be warned of about measured weather.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// How long the record is, what it lacks between its first and last day, and what that means; nothing where weather is drawn.
void weather_cautions(const Scenario& scenario, std::vector<std::string>& out);

}  // namespace rackwright
