#include "models/grain/species.hpp"

namespace rackwright::grain {

// Bulk density: as printed in a combine harvester's manual, within 0.3 % of the legal bushel weights (60, 48, 32, 56, 50,
// 56 lb per Winchester bushel of 35.239 L); triticale's 50 lb is the crop insurer's figure, graders use 48. Thousand-kernel mass: middle of the range printed in agronomy
// handbooks. Store moisture 11 %: grain the trade calls dry (safe limit 13 to 14 %). Crude protein: rye 9.8 % of 114 samples (standard
// deviation 0.9; feedtables.com), wheat 12.6 %, the others round feed-table figures; a lot's own analysis should replace them.
const std::vector<Species>& all_species() {
  static const std::vector<Species> species{
      {"barley", KilogramsPerCubicMetre(619.0), 42.0, 0.11, 0.12, Origin::measured},
      {"wheat", KilogramsPerCubicMetre(774.0), 39.0, 0.11, 0.126, Origin::measured},
      {"oat", KilogramsPerCubicMetre(413.0), 34.0, 0.11, 0.115, Origin::measured},
      {"rye", KilogramsPerCubicMetre(722.0), 29.0, 0.11, 0.098, Origin::measured},
      {"triticale", KilogramsPerCubicMetre(645.0), 42.0, 0.11, 0.12, Origin::measured},
      {"maize", KilogramsPerCubicMetre(721.0), 300.0, 0.12, 0.09, Origin::measured},
  };
  return species;
}

std::optional<Species> find_species(std::string_view name) {
  for (const Species& species : all_species()) {
    if (species.name == name) return species;
  }
  return std::nullopt;
}

Kilograms mass_of_volume(const Species& species, CubicMetres volume) { return species.bulk_density * volume; }

}  // namespace rackwright::grain
