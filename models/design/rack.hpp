#pragma once
// The rack itself: places, areas, heights, weights. Layout and what is left out: docs/models/design.md.

#include <vector>

#include "models/base/quantity.hpp"

namespace rackwright::design {

/// Trays stand side by side along a tier, their length across its depth.
struct Rack {
  int tiers = 4;
  int trays_per_tier = 8;
  Metres tray_length{0.6};
  Metres tray_width{0.3};
  Metres tier_spacing{0.35};
  Metres lowest_tier{0.3};
  Kilograms tray_mass{0.8};
  KilogramsPerSquareMetre water_film{4.0};   ///< held on a full tray
};

int positions(const Rack& rack);
SquareMetres tray_area(const Rack& rack);
std::vector<Metres> tier_heights(const Rack& rack);   ///< of the trays' floors above the ground, lowest first
/// To the top of the frame: the highest tier and one spacing for its mat.
Metres total_height(const Rack& rack);
SquareMetres footprint(const Rack& rack);             ///< trays side by side along the tier's length

/// Weight on one full tier and on the whole rack with ripe mats on every place, trays and water film included, frame
/// not.
struct Load { Kilograms per_tier{}, total{}, per_tray{}; };
/// `sowing_density` of dry grain; `fresh_ratio` kg of mat per kg of grain [1].
Load loaded(const Rack& rack, KilogramsPerSquareMetre sowing_density, double fresh_ratio);
/// Weight of ripe mats over tray area, without film and trays.
KilogramsPerSquareMetre mat_load(KilogramsPerSquareMetre sowing_density, double fresh_ratio);

/// Height over depth; above about 3 to 4 the rack must be anchored (common practice, no source).
double slenderness(const Rack& rack);
inline constexpr double slenderness_to_anchor = 3.0;

}  // namespace rackwright::design
