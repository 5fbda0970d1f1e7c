#include "sim/scenario/build.hpp"

namespace rackwright {

cost::Build build_of(const Scenario& s) {
  cost::Build build;
  build.tiers = s.rack.tiers;
  // Trays in the wash and on the way: one batch more than there are places.
  build.trays = s.rack.tiers * s.rack.trays_per_tier + s.line.trays_per_batch;
  build.buckets = s.keeper.soak_buckets;
  build.heater = s.room.heater.value() > 0.0;
  build.cooler = s.room.cooler.value() > 0.0;
  build.insulation_m3 = s.room.insulation.value() * s.room.shell_area.value();
  build.shaded_m2 = s.room.shade * s.room.solar_aperture.value();
  return build;
}

Money capital_of(const Scenario& s) { return cost::capital(build_of(s), s.prices); }

}  // namespace rackwright
