#pragma once
// The mat as a function of growth time (days at 20 degC): dry matter lost, dry-matter fraction, fresh mass, height,
// water taken up and heat given off. Ungerminated grain only soaks.

#include <optional>
#include <string_view>

#include "models/base/origin.hpp"
#include "models/base/quantity.hpp"

namespace rackwright::growth {

/// Dry matter of dry grain as bought where nothing else is known (11 % moisture).
inline constexpr double usual_grain_dry_matter = 0.89;
/// Heat per kilogram of dry matter respired, as glucose (2802 kJ/mol) [MJ/kg].
inline constexpr double respiration_heat_mj = 15.6;
/// Water made per kilogram of dry matter respired, as glucose [kg/kg].
inline constexpr double respiration_water = 0.6;

/// Parameters of one species. Of the part that grows, L(g) = loss_plateau (1 - exp(-(g/loss_time)^loss_shape)) of its dry
/// matter is lost, and its dry-matter fraction falls from start to end as exp(-(g/water_time)^water_shape).
/// Shapes are assumed; levels are set to published seven- and eight-day mats (docs/models/mat.md).
struct Parameters {
  Celsius base{0.0};                 ///< growth stops below (cool-season cereals 0 to 5)
  Celsius optimum{27.0};             ///< 25 to 31
  Celsius ceiling{38.0};             ///< 31 to 40
  double curvature = 0.7;            ///< exponent of the beta function (assumed: half speed at about 11 degC) [1]
  double pace = 1.0;                 ///< growth days a day at 20 degC; 1 by definition of the others, else of a line that differs [1]
  double loss_plateau = 0.31;        ///< of dry matter [1]
  double loss_time = 6.25;           ///< [d at 20 degC]
  double loss_shape = 2.46;
  double respired_share = 0.9;       ///< of the loss; the rest leaves in the leachate [1] (assumed; 0.6 to 0.95 defensible)
  double mat_dry_matter_start = 0.54;///< dry-matter fraction sown and drained, and of grain that only soaks [1]
  double mat_dry_matter_end = 0.119; ///< where the growing part levels out [1]
  double water_time = 3.1;           ///< days at 20 degC over which water is taken up [d]
  double water_shape = 1.5;
  double swelling = 1.0;             ///< factor on the water held beyond soaked grain, by dry matter [1]
  double evaporated_litres = 0.42;   ///< lost to the air per growth day and kg of grain [L/kg/d] (assumed)
  double height_end = 21.5;          ///< [cm]
  double height_middle = 6.0;        ///< day of half height [d at 20 degC]
  double height_scale = 1.15;        ///< [d]
  double ripe = 7.0;                 ///< growth days at which the mat is best [d at 20 degC]
  double overdue = 9.5;              ///< past this it loses colour and feed value [d at 20 degC]
  KilogramsPerSquareMetre plateau_density{7.6};  ///< yield per kg grain falls beyond this sowing density
  Origin origin = Origin::measured;
};

/// Preset for a species. Barley and wheat: levels from published mats; oat, rye, triticale: barley scaled to a published
/// five-species trial; maize: assumed.
std::optional<Parameters> preset(std::string_view species);

/// Growth days per day at a temperature, `pace` at 20 degC, 0 outside (base, ceiling). Beta-function form (Yin et al. 1995).
double growth_rate(const Parameters& parameters, Celsius temperature);

/// Share of the growing part's dry matter lost by `growth_days` [1].
double loss(const Parameters& parameters, double growth_days);

/// Share of the grain that grows when `sprouted` of it germinated: beyond the plateau density the surplus finds no room. Crowded
/// sprouts breathe like the others and stay as wet as soaked grain [1].
double growing_share(const Parameters& parameters, double sprouted, KilogramsPerSquareMetre density);

/// How near a stand of sprouts, `growing` of all grain in [0, 1], comes to the height of a full one: gaps make a mat lie lower
/// (assumed; 0.999 at nine in ten, 0.88 at half) [1].
inline double stand(double growing) {
  const double gaps = 1.0 - growing;
  return 1.0 - gaps * gaps * gaps;
}

/// A mat per kilogram of dry (as-is) grain sown.
struct Mat {
  double fresh_ratio{};      ///< fresh mass / grain mass [1]
  double dry_matter{};       ///< dry-matter fraction of the mat [1]
  double dry_matter_loss{};  ///< of the grain's dry matter [1]
  double height_cm{};
  double taken_up_litres{};  ///< held - brought by the grain - made by respiration, per kg grain [L/kg]
  double water_litres{};     ///< net of drainage: taken up + evaporated from the mat, per kg grain [L/kg]
  double heat_watts{};       ///< now at one growth day a day, per kg grain [W/kg]
};

/// State after `growth_days`; `sprouted` the share of grain that germinated in [0, 1], `grain_dry_matter` the grain's DM fraction.
/// Holds fresh_ratio = grain_dry_matter (1 - dry_matter_loss) / dry_matter exactly.
Mat mat(const Parameters& parameters, double growth_days, double sprouted, KilogramsPerSquareMetre density,
        double grain_dry_matter);

/// Heat now per kg of grain when the growth clock runs at `rate` days per day [W/kg]; 15.6 MJ per kg of dry matter respired.
/// All that sprouted breathes, crowded or not.
double heat_watts(const Parameters& parameters, double growth_days, double sprouted, double rate,
                  double grain_dry_matter = usual_grain_dry_matter);

/// How much warmer than the air a mat runs, from its heat per square metre: convection and the rise of evaporation with
/// surface temperature carry it off (assumed coefficients, 10.5 W/m2/K together).
/// Inline: asked of every batch at every settling.
inline Kelvins mat_excess(double heat_watts_per_m2) {
  constexpr double convection = 3.5;  // [W/m2/K] still air over a level surface (assumed)
  constexpr double evaporation_ratio =
      2.0;  // latent over sensible; (hfg/cp) dWs/dT is 2.2 at 20 degC, surface nine tenths wet
  return Kelvins(heat_watts_per_m2 / (convection * (1.0 + evaporation_ratio)));
}

/// Share of feed value kept by an overdue mat in [0, 1]; 1 until `overdue` (assumed: 8 % a growth day).
double value_kept(const Parameters& parameters, double growth_days);

}  // namespace rackwright::growth
