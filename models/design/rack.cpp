#include "models/design/rack.hpp"

#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::design {
namespace {

void check(const Rack& rack) {
  EXPECTS(rack.tiers > 0 && rack.trays_per_tier > 0);
  EXPECTS(rack.tray_length.value() > 0.0 && rack.tray_width.value() > 0.0);
  EXPECTS(rack.tier_spacing.value() > 0.0 && rack.lowest_tier.value() >= 0.0);
}

}  // namespace

int positions(const Rack& rack) {
  check(rack);
  return rack.tiers * rack.trays_per_tier;
}

SquareMetres tray_area(const Rack& rack) {
  check(rack);
  return rack.tray_length * rack.tray_width;
}

std::vector<Metres> tier_heights(const Rack& rack) {
  check(rack);
  std::vector<Metres> heights;
  heights.reserve(static_cast<std::size_t>(rack.tiers));
  for (int tier = 0; tier < rack.tiers; ++tier) heights.push_back(rack.lowest_tier + rack.tier_spacing * tier);
  return heights;
}

Metres total_height(const Rack& rack) {
  check(rack);
  return rack.lowest_tier + rack.tier_spacing * rack.tiers;
}

SquareMetres footprint(const Rack& rack) {
  check(rack);
  return rack.trays_per_tier * rack.tray_width * rack.tray_length;
}

KilogramsPerSquareMetre mat_load(KilogramsPerSquareMetre sowing_density, double fresh_ratio) {
  EXPECTS(sowing_density.value() >= 0.0 && fresh_ratio >= 0.0);
  return sowing_density * fresh_ratio;
}

Load loaded(const Rack& rack, KilogramsPerSquareMetre sowing_density, double fresh_ratio) {
  EXPECTS(rack.tray_mass.value() >= 0.0 && rack.water_film.value() >= 0.0);
  Load load;
  load.per_tray = (mat_load(sowing_density, fresh_ratio) + rack.water_film) * tray_area(rack) + rack.tray_mass;
  load.per_tier = load.per_tray * rack.trays_per_tier;
  load.total = load.per_tier * rack.tiers;
  ENSURES(std::isfinite(load.total.value()));
  return load;
}

double slenderness(const Rack& rack) { return total_height(rack) / rack.tray_length; }

}  // namespace rackwright::design
