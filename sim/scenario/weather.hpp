#pragma once
// Measured weather on its way into a scenario.

#include <optional>
#include <string>

#include "models/climate/record.hpp"
#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Says that a record is too short to be fitted, and how many days it has.
std::string too_little_words(const climate::Record& record);

/// Shortest block of days, as the key climate.block may be stated [d].
inline constexpr int shortest_block = 3;

/// Puts the days of a record in place of drawn weather and fits the climate to them; why not, if they are too few or
/// tell of what cannot be.
std::optional<std::string> take_weather(Scenario& scenario, climate::Record record);

/// Reads climate.file, where one is named and not yet read, from `folder`. Every complaint is of the key climate.file.
Problems load_weather(Scenario& scenario, const std::string& folder);

/// What is wrong with the weather file of a scenario that is otherwise read: not read, or no year with a whole block somewhere.
Problems check_weather(const Scenario& scenario);

}  // namespace rackwright
