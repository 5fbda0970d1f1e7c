#include "models/germination/germination.hpp"

namespace rackwright::germination {

namespace {

struct Shifted {
  double base, toe, decline, ceiling, theta, scale;
};

Parameters borrowed(const Shifted& shifted) {
  Parameters p{};
  p.base = Celsius(shifted.base);
  p.toe = Kelvins(shifted.toe);
  p.decline = Celsius(shifted.decline);
  p.ceiling = Celsius(shifted.ceiling);
  p.fraction_ceiling = Celsius(shifted.ceiling);
  p.theta = shifted.theta;
  p.fraction_scale = Kelvins(shifted.scale);
  p.origin = Origin::borrowed;
  return p;
}

}  // namespace

std::optional<Parameters> preset(std::string_view species) {
  if (species == "barley") return Parameters{};
  // The rest borrow barley's form and steepness; only the cardinal temperatures shift. The classical tables
  // (Mayer & Poljakoff-Mayber) give ranges, so these are round middles, good to two or three kelvins. Thermal times are
  // assumed: at 20 degC the median comes after 2.1 (wheat), 2.8 (oat), 1.9 (rye), 2.1 (triticale) and 2.9 days (maize).
  if (species == "wheat") return borrowed({2.5, 5.0, 32.0, 38.0, 37.5, 3.5});
  if (species == "oat") return borrowed({3.0, 5.0, 31.0, 36.5, 48.0, 3.5});
  if (species == "rye") return borrowed({1.5, 5.0, 31.0, 36.5, 35.0, 3.5});
  if (species == "triticale") return borrowed({2.0, 5.0, 31.0, 37.0, 38.0, 3.5});
  if (species == "maize") return borrowed({8.5, 1.5, 35.0, 43.0, 33.0, 3.0});
  return std::nullopt;
}

}  // namespace rackwright::germination
