#pragma once
// What a wet room with bleach, mains electricity, a heater and frost does to people, pipes and mats.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Of bleach, where something is dipped.
void bleach_cautions(const Scenario& scenario, std::vector<std::string>& out);
/// Of mains electricity; of a heater, where there is one, one is to choose, or another caution advises one; of frost, where the room freezes without heat.
void place_cautions(const Scenario& scenario, std::vector<std::string>& out);
/// Of carbon dioxide, where a full rack brings the shut room's air above what people work in for a day.
void stale_air_cautions(const Scenario& scenario, std::vector<std::string>& out);

/// Of any heater: fire, shock and fumes.
std::string heater_caution();
/// Of what freezes: pipes, pump, emitters, tank and mats.
std::string frost_caution();

/// Adds a caution that is not there yet.
void say_once(std::vector<std::string>& out, std::string caution);

/// Outdoors on average in the coldest weeks, below which mats hardly grow in a room without heat [degC] (common practice, no source).
inline constexpr double stands_still = 8.0;

}  // namespace rackwright
