#include "models/soak/uptake.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"

namespace rackwright::soak {
namespace {

constexpr double gas_constant = 1.987;     // [cal/mol/K]
constexpr double skin_hours = 1.0 / 12.0;  // the coat fills "at once": five minutes, so that no soak is no water

// Moisture where the line in sqrt(t), which reaches the surface's at a gain of `at_surface`, would have gained `gain`: it nears the
// ceiling exponentially in time, beginning with the line's slope.
double beyond_the_line(const Parameters& parameters, double at_surface, double gain) {
  const double left = parameters.ceiling_moisture - parameters.surface_moisture;
  if (left <= 0.0 || at_surface <= 0.0) return parameters.surface_moisture;
  const double time = (gain / at_surface) * (gain / at_surface) - 1.0;  // since then, over the time until then
  return parameters.ceiling_moisture - left * std::exp(-time * at_surface / (2.0 * left));
}

}  // namespace

std::optional<Parameters> preset(std::string_view species) {
  // Wheat: Becker 1960; surface to volume 17 1/cm is the middle of 15 to 19 for small kernels. His surface moisture, 0.75, is what
  // drives uptake, not where it ends: others went on to 0.909 ("Wheat grains hydration", newsciencepubl).
  if (species == "wheat") return Parameters{};
  // Barley: activation energy 11.6 kcal/mol (Mok et al. 1983, unpolished kernels); wheat's diffusivity at 20 degC;
  // surface moisture 0.80 (Carvalho et al. 2021 reach 0.803); skin and surface to volume set so that malting practice
  // comes out (40 to 45 % wet basis after a day at 20 or two at 12 degC).
  Parameters barley{9.02, 11600.0, 0.80, 0.02, 16.4, 0.42, 0.803, Origin::borrowed};
  if (species == "barley") return barley;
  if (species == "oat") {  // hulled like barley, a little more slender (assumed)
    barley.surface_to_volume = 16.8;
    return barley;
  }
  Parameters naked{};
  naked.origin = Origin::borrowed;
  if (species == "rye") {  // naked and slender (assumed 18.5)
    naked.surface_to_volume = 18.5;
    return naked;
  }
  if (species == "triticale") return naked;
  if (species == "maize") {
    // Large kernel, S/V 10; a softer endosperm and tip cap take water faster than wheat's diffusivity says (factor
    // 2 assumed), and it saturates lower: about 35 % wet basis after a day at 20 degC.
    return Parameters{60.0, 12300.0, 0.62, 0.045, 10.0, 0.35, 0.62, Origin::borrowed};
  }
  return std::nullopt;
}

double diffusivity(const Parameters& parameters, Celsius water) {
  const double kelvin = water.value() + 273.15;
  EXPECTS(kelvin > 0.0);
  return parameters.diffusivity_prefactor * std::exp(-parameters.activation_energy / (gas_constant * kelvin));
}

double moisture_after(const Parameters& parameters, Celsius water, double start_moisture, Hours time) {
  EXPECTS(start_moisture >= 0.0 && start_moisture < 1.0);
  EXPECTS(time.value() >= 0.0);
  const double start = start_moisture / (1.0 - start_moisture);
  if (start >= parameters.surface_moisture) return start_moisture;
  const double skin = parameters.skin * std::min(1.0, time.value() / skin_hours);
  const double depth = std::sqrt(diffusivity(parameters, water) * time.value() * 3600.0);  // [cm]
  const double gain =
      2.0 * std::numbers::inv_sqrtpi * (parameters.surface_moisture - start) * parameters.surface_to_volume * depth;
  double dry_basis = start + skin + gain;
  if (dry_basis > parameters.surface_moisture) dry_basis = beyond_the_line(parameters, parameters.surface_moisture - start - skin, gain);
  return dry_basis / (1.0 + dry_basis);
}

}  // namespace rackwright::soak
