#pragma once
// The room as it stands, doors and windows open or not, and what of a night reaches into it.

#include <cmath>
#include <numbers>

#include "models/room/heat_balance.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

inline room::Parameters room_of(const Scenario& scenario, bool open) {
  room::Parameters room = scenario.room;
  if (open) room.air_changes = scenario.open_air_changes;
  return room;
}

/// Heat that leaves the room for each degree that it is warmer than outdoors [W/K].
inline double conductance_of(const Scenario& scenario, bool open) { return room::prepare(room_of(scenario, open)).conductance; }

/// Share of a day's range of temperature by which the room falls below the day's mean at night, its stored heat reckoned in [1].
inline double night_share(const Scenario& scenario, bool open) {
  const double hours = scenario.room.heat_capacity.value() / 3.6 / conductance_of(scenario, open), turns = 2.0 * std::numbers::pi * hours / 24.0;
  return 0.5 / std::sqrt(1.0 + turns * turns);
}

}  // namespace rackwright
