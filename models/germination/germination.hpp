#pragma once
// Germination against temperature: the rate and the germinable fraction are separate functions, and progress is
// accumulated rate, so the same law serves a constant and a fluctuating room.

#include <optional>
#include <string_view>

#include "models/base/origin.hpp"
#include "models/base/quantity.hpp"

namespace rackwright::germination {

/// Rate: 1/t50 = toe ln(1 + exp((T - base)/toe)) / theta, the straight line (T - base)/theta with a rounded foot, up to
/// `decline`, then falling in a straight line to zero at `ceiling` (Rowse & Finch-Savage 2003 for the line and its fall).
/// Fraction: 1 - exp(-(fraction_ceiling - T)/fraction_scale). Defaults: interval-censored fit to open barley counts at
/// 1 to 40 degC (Onofri et al. 2018, Eur. J. Agron. 101:129-139); docs/models/germination.md shows it.
struct Parameters {
  Celsius base{3.07};               ///< where the straight part of the rate would reach zero
  Kelvins toe{5.46};                ///< rounding of the foot; 0 keeps the line straight down to base
  Celsius decline{33.0};            ///< Td, where the rate starts to fall
  Celsius ceiling{35.85};           ///< Tc of the rate
  double theta = 40.3;              ///< thermal time to the median [degC d]
  Celsius fraction_ceiling{35.85};
  Kelvins fraction_scale{3.69};     ///< sigma_Tc
  double shape = 6.99;              ///< log-logistic steepness in time
  Origin origin = Origin::measured;
};

/// Preset for a species. Barley is fitted to open counts; others are borrowed with shifted cardinal temperatures.
std::optional<Parameters> preset(std::string_view species);

/// Median germination rate at a temperature [1/d], >= 0; 0 in frozen grain.
double rate(const Parameters& parameters, Celsius temperature);

/// Germinable fraction at a temperature relative to the best, in [0, 1].
double fraction(const Parameters& parameters, Celsius temperature);

/// Share of the germinable grain that has germinated after `progress` medians (integral of rate dt), in [0, 1].
double share_germinated(const Parameters& parameters, double progress);

/// What constant temperature for a time gives. `germinable` is the lot's fraction at the best temperature.
/// The median time is infinite where the rate is zero.
struct Constant { Hours median_time{}; double final_fraction{}, germinated{}; };
Constant at_constant(const Parameters& parameters, Celsius temperature, Hours time, double germinable);

}  // namespace rackwright::germination
