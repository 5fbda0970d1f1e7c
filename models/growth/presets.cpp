#include "models/growth/mat.hpp"

namespace rackwright::growth {

// Fresh yields relative to barley at equal grain mass (7 days, USDA-ARS and University of Minnesota, Soder & Heins
// 2016): oat 0.98, rye 0.84, triticale 0.68, wheat 0.95. How each difference splits into water and dry matter is
// assumed.
std::optional<Parameters> preset(std::string_view species) {
  Parameters p{};
  if (species == "barley") return p;
  p.origin = Origin::borrowed;
  if (species == "wheat") {  // dry matter 17.6 against barley's 17.1 % (Al-Karaki & Al-Hashimi 2012)
    p.origin = Origin::measured;
    p.mat_dry_matter_end = 0.126;
    return p;
  }
  if (species == "oat") {  // "highest dry matter" of the five: loses least
    p.loss_plateau = 0.25;
    p.mat_dry_matter_end = 0.131;
    return p;
  }
  if (species == "rye") {  // light mats that gained little protein by concentration (same trial): loses less
    p.loss_plateau = 0.26;
    p.mat_dry_matter_end = 0.152;
    p.optimum = Celsius(26.0);
    return p;
  }
  if (species == "triticale") {
    p.mat_dry_matter_end = 0.185;
    return p;
  }
  if (species == "maize") {  // warm-season cardinal temperatures 8, 30, 38 (Sci. Rep. 10:18013); the rest assumed
    p.base = Celsius(8.0);
    p.optimum = Celsius(30.0);
    p.ceiling = Celsius(38.0);
    p.loss_plateau = 0.24;
    p.mat_dry_matter_end = 0.16;
    p.height_end = 24.0;
    p.origin = Origin::assumed;
    return p;
  }
  return std::nullopt;
}

}  // namespace rackwright::growth
