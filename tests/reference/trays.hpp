#pragma once
// Trays that several comparisons with the outside ask about.

#include "models/growth/mat.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"

namespace rackwright::validation {

inline constexpr KilogramsPerSquareMetre usual(5.0);
inline constexpr double sprouted = 0.93;

/// A tray at a constant room temperature.
inline growth::Mat mat_after(const char* species, double celsius, double days_on_rack, double grain_dry_matter = 0.89) {
  const auto p = *growth::preset(species);
  return growth::mat(p, growth::growth_rate(p, Celsius(celsius)) * days_on_rack, sprouted, usual, grain_dry_matter);
}

/// Chance of souring in a day of eight hot hours at the temperature given, the other hours cool enough not to count.
inline double soured_in_a_hot_day(double celsius, double soak_hours) {
  const spoilage::Parameters p;
  spoilage::Tray tray;
  tray.soak_stress = soak::effect(*soak::preset("barley"), Celsius(26.0), 0.12, Hours(soak_hours)).stress;
  return spoilage::spoiled_probability(spoilage::sour_multiplier(p, tray) *
                                       spoilage::growth_factor(p.sour, Celsius(celsius)) * 8.0 / 24.0);
}

}  // namespace rackwright::validation
