#pragma once
// How a lot ages in store: the improved viability equation (Ellis & Roberts 1980, Ann. Bot. 45:13-30).

#include <optional>
#include <string_view>

#include "models/base/origin.hpp"
#include "models/base/quantity.hpp"

namespace rackwright::grain {

/// Constants of log10(sigma) = ke - cw log10(m) - ch t - cq t^2; m % wet basis, t degC, sigma days.
struct ViabilityConstants {
  double ke = 9.144, cw = 5.342, ch = 0.0329, cq = 0.000478;
  Origin origin = Origin::measured;
};

/// Published constants: barley (Ellis & Roberts 1980), wheat and maize (Ellis et al. 2007). For oat barley's and for rye and
/// triticale wheat's are borrowed (origin says so). Published wheat sets differ by a factor of two in life.
std::optional<ViabilityConstants> viability_constants(std::string_view species);

/// Days for viability to fall by one probit. Moisture in % wet basis, fitted from 5 to 25; temperature -20 to 90 degC.
double sigma_days(const ViabilityConstants& constants, double moisture_percent, Celsius temperature);

/// 1 / sigma_days of one moisture, with what does not depend on the temperature worked out once: a store is asked every day.
class Ageing {
 public:
  Ageing() = default;
  /// Moisture as in sigma_days.
  Ageing(const ViabilityConstants& constants, double moisture_percent);
  /// Probits a day.
  [[nodiscard]] double per_day(Celsius temperature) const;

 private:
  double at_zero_ = 0.0, linear_ = 0.0, square_ = 0.0;  // of the natural logarithm
};

/// Fraction viable after `probits` of ageing (integral of dt/sigma) from the `initial` fraction in [0, 1].
double viability_after(double initial, double probits);

/// Time until half are viable; zero if fewer are so already. `initial` in (0, 1).
Hours half_life(double initial, double sigma_days);

/// Standard normal quantile, for a fraction in (0, 1), and distribution.
double probit(double fraction);
double normal_cdf(double z);

}  // namespace rackwright::grain
