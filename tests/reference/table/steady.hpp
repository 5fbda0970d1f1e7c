#pragma once
// Trays as the simulator grows them in a room of steady air, for comparisons with published experiments, which state the room.

#include "models/growth/mat.hpp"
#include "sim/app/evaluate_tray.hpp"
#include "tests/reference/trays.hpp"

namespace rackwright::validation {

/// A usual tray in such a room: soaked for 10 h in water as warm as the room, 94 % germinable, 5 kg/m2; as `rackwright evaluate mat` has it.
inline app::SteadyTray tray_in(const char* species, double celsius, double days_on_rack, double grain_dry_matter = 0.89) {
  app::SteadyTray tray;
  tray.germination = *germination::preset(species);
  tray.growth = *growth::preset(species);
  tray.air = Celsius(celsius);
  tray.density = usual;
  tray.days = days_on_rack;
  tray.grain_dry_matter = grain_dry_matter;
  tray.soak = soak::effect(*soak::preset(species), tray.air, 1.0 - grain_dry_matter, Hours(10.0));
  return tray;
}

inline growth::Mat mat_in(const char* species, double celsius, double days_on_rack, double grain_dry_matter = 0.89) {
  return app::grow(tray_in(species, celsius, days_on_rack, grain_dry_matter)).mat;
}

}  // namespace rackwright::validation
