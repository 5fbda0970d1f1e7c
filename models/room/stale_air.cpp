#include "models/room/stale_air.hpp"

#include <algorithm>

#include "models/base/expects.hpp"

namespace rackwright::room {

double carbon_dioxide(Watts heat, double air_changes, CubicMetres volume) {
  EXPECTS(heat.value() >= 0.0 && air_changes >= 0.0 && volume.value() > 0.0);
  constexpr double oxygen = 0.2095;
  constexpr double kilograms_per_m3 = 0.04401 / 0.024055;  // molar volume of an ideal gas at 20 degC and sea level
  const double given = carbon_dioxide_given(heat) / kilograms_per_m3;  // [m3/h]
  const double fresh = air_changes * volume.value();
  if (given <= 0.0) return outdoor_carbon_dioxide;
  if (fresh <= 0.0) return oxygen;
  // As much oxygen is used as carbon dioxide is given (glucose), so the air that comes in goes out again in full.
  return std::min(oxygen, outdoor_carbon_dioxide + given / fresh);
}

}  // namespace rackwright::room
