#pragma once
// Two competing risks of a wet mat, mould and souring, each an integrated hazard against one Exp(1) threshold a tray.
// No published dose-response exists for sprouting trays: the multipliers are assumed, open and to be fitted.

#include <cmath>

#include "models/base/expects.hpp"
#include "models/base/quantity.hpp"

namespace rackwright::spoilage {

/// Cardinal temperature model with inflection (Rosso et al. 1993, J. Theor. Biol. 162:447-463).
struct Cardinal {
  Celsius least{}, best{}, most{};
  double power = 1.0;  ///< exponent on the factor; 1 is the published form, more makes a risk that bites only near its best
};
/// Growth factor in [0, 1]; 0 outside (least, most). Asks for best above the middle of least and most, as the model does.
double growth_factor(const Cardinal& cardinal, Celsius temperature);

/// All assumed; the rates are set so that a clean, well-sprouted tray of usual density loses about 1.5 % to mould and
/// next to nothing to souring in seven days at 20 degC, and tens of percent to souring in one day past 38 degC.
/// Mould comes with a lag: spores germinate and feed on what the sprouts exude before a mat is seen to be mouldy.
struct Parameters {
  Cardinal mould{Celsius(7.0), Celsius(34.0), Celsius(44.0), 1.0};   ///< a blend of storage and field fungi (assumed blend)
  Cardinal sour{Celsius(12.0), Celsius(42.0), Celsius(50.0), 12.0};   ///< lactic and clostridial bacteria (power assumed)
  double mould_rate = 0.0044;  ///< hazard at the best temperature for a clean, well-sprouted, usual tray, mean of its week [1/d]
  double sour_rate = 1.5;      ///< likewise for souring [1/d]
  double mould_lag = 2.5;      ///< growth time at which the hazard of mould is half of its height; 0 none [d at 20 degC]
  double dead_grain_power = 2.0;     ///< how dead grain raises mould
  double dead_grain_floor = 0.05;    ///< what mould finds in a tray with no dead grain, as a dead fraction [1]
  double density_power = 1.0;        ///< how sowing density raises both
  KilogramsPerSquareMetre usual_density{5.0};
  double usual_dead_fraction = 0.08;
  double stress_gain = 12.0;         ///< how soak stress, squared, raises souring: drowned grain ferments
  double undrained_gain = 10.0;      ///< how standing water raises souring
  double wetness_gain = 0.5;         ///< how still, humid air raises mould: by this from 70 to 100 % humidity
  double shed = 0.15;                ///< inoculum that a spoiled mat adds in a day to its own level and to each its water reaches,
                                     ///< relative to usual grain's own
  double shed_to_tray = 5.0;         ///< what a spoiled mat leaves on its tray, relative to what a sound one does
  double rinsed_per_day = 0.5;       ///< share of a level's inoculum that watering and work carry off in a day [1]
};

/// What a tray is, as far as spoilage asks.
struct Tray {
  double inoculum = 1.0;         ///< relative to a clean usual tray [1]
  double dead_fraction = 0.08;   ///< ungerminated share [1]
  KilogramsPerSquareMetre density{5.0};
  double relative_humidity = 0.7;
  double soak_stress = 0.0;      ///< 0..1
  double undrained = 0.0;        ///< 0 drains freely .. 1 stands in water
};

namespace detail {
// std::pow, but quick at the two powers that are the defaults.
inline double raised(double x, double power) {
  if (power == 1.0) return x;
  return power == 2.0 ? x * x : std::pow(x, power);
}
}  // namespace detail

/// How a tray's dead grain raises mould, 1 at the usual dead fraction. A factor of mould_multiplier. Inline: asked of every tray.
inline double dead_grain_factor(const Parameters& parameters, double dead_fraction) {
  EXPECTS(dead_fraction >= 0.0);
  return detail::raised((parameters.dead_grain_floor + dead_fraction) / (parameters.dead_grain_floor + parameters.usual_dead_fraction),
                        parameters.dead_grain_power);
}

/// The lag: hazard over its mean in seven days at 20 degC, g^4/(g^4 + lag^4) scaled so that this mean is 1.
struct Onset { double lag4{}, scale{}; };
Onset onset(const Parameters& parameters);
/// At a growth age [d at 20 degC], never below 0. Inline: asked of every batch at every settling.
inline double onset_factor(const Onset& onset, double growth_days) {
  const double g = growth_days > 0.0 ? growth_days : 0.0;
  const double square = g * g, fourth = square * square;
  return fourth / (fourth + onset.lag4) * onset.scale;
}

/// Inoculum of usual grain on a tray washed as usual, in units of the grain's own; what Tray::inoculum is relative to.
inline constexpr double usual_inoculum = 1.1;

/// Multipliers on the temperature response: hazard per day = multiplier * growth_factor(T_mat).
double mould_multiplier(const Parameters& parameters, const Tray& tray);
double sour_multiplier(const Parameters& parameters, const Tray& tray);

/// Chance of spoiling by an integrated hazard.
double spoiled_probability(double integrated_hazard);

}  // namespace rackwright::spoilage
