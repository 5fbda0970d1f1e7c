#include "models/grain/viability.hpp"

#include <algorithm>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"

namespace rackwright::grain {

// Hong, Linington & Ellis 1996 compile the constants; the papers they rest on are beside each row. Two published wheat
// sets (2007 here; 1990: 9.420, 5.859, 0.0329, 0.000478) differ by a factor of two in life: that is the uncertainty.
std::optional<ViabilityConstants> viability_constants(std::string_view species) {
  constexpr ViabilityConstants barley{9.144, 5.342, 0.0329, 0.000478,
                                      Origin::measured};  // Ellis & Roberts 1980; Dickie 1990
  constexpr ViabilityConstants wheat{9.043, 5.183, 0.0351, 0.000475, Origin::measured};   // Ellis et al. 2007
  constexpr ViabilityConstants maize{10.562, 6.366, 0.0332, 0.000577, Origin::measured};  // Ellis et al. 2007
  ViabilityConstants constants;
  if (species == "barley") return barley;
  if (species == "wheat") return wheat;
  if (species == "maize") return maize;
  if (species == "oat") {  // none published: barley's, a hulled temperate cereal like it
    constants = barley;
  } else if (species == "rye" || species == "triticale") {
    // Rye's only set (2014) has a moisture slope far outside the others; triticale has none. Both borrow wheat's.
    constants = wheat;
  } else {
    return std::nullopt;
  }
  constants.origin = Origin::borrowed;
  return constants;
}

double sigma_days(const ViabilityConstants& constants, double moisture_percent, Celsius temperature) {
  EXPECTS(moisture_percent > 0.0);
  const double t = temperature.value();
  return std::pow(10.0,
                  constants.ke - constants.cw * std::log10(moisture_percent) - constants.ch * t - constants.cq * t * t);
}

Ageing::Ageing(const ViabilityConstants& constants, double moisture_percent)
    : at_zero_(-std::log(sigma_days(constants, moisture_percent, Celsius(0.0)))),
      linear_(std::numbers::ln10 * constants.ch),
      square_(std::numbers::ln10 * constants.cq) {}

double Ageing::per_day(Celsius temperature) const {
  const double t = temperature.value();
  return std::exp(at_zero_ + (linear_ + square_ * t) * t);
}

double probit(double fraction) {
  EXPECTS(fraction > 0.0 && fraction < 1.0);
  return -std::numbers::sqrt2 * boost::math::erfc_inv(2.0 * fraction);
}

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double viability_after(double initial, double probits) {
  EXPECTS(initial >= 0.0 && initial <= 1.0);
  if (initial <= 0.0) return 0.0;
  constexpr double nearly_all = 1.0 - 1e-9;  // "every kernel" has no finite probit
  return normal_cdf(probit(std::min(initial, nearly_all)) - probits);
}

Hours half_life(double initial, double sigma) { return days(std::max(0.0, probit(initial) * sigma)); }

}  // namespace rackwright::grain
