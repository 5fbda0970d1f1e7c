#pragma once
// What animals weigh and eat. Sources, ranges and what is left out: docs/models/herd.md.

#include <optional>
#include <string_view>
#include <vector>

#include "models/base/origin.hpp"
#include "models/base/quantity.hpp"

namespace rackwright::herd {

/// Gompertz growth: W = mature * exp(-ln(mature/start) e^(-rate t)); t days. Needs 0 < start <= mature and rate > 0.
/// The standing values are a milking goat's kid.
struct GrowthCurve { Kilograms mature{60.0}; double rate_per_day = 0.0064; Kilograms start{3.5}; };
Kilograms weight_at(const GrowthCurve& curve, Hours age);
/// Gain per day at an age, and the largest gain mature*rate/e, which falls where the weight is mature/e.
Kilograms gain_at(const GrowthCurve& curve, Hours age);
Kilograms greatest_gain(const GrowthCurve& curve);
/// Age of the largest gain; negative when the curve starts above mature/e.
Hours age_of_greatest_gain(const GrowthCurve& curve);
/// The same kind of animal with another mature weight: rate ~ mature^-0.27 (the scaled rate keeps), start in
/// proportion.
GrowthCurve scaled_to(const GrowthCurve& curve, Kilograms mature);

/// A species and class of animals, with usual values and limits.
struct Class {
  std::string_view name;          ///< e.g. "goat-milking"
  std::string_view species;       ///< goat, sheep, cattle, pig, horse, rabbit, chicken, duck, goose, turkey
  Kilograms weight{60.0};         ///< usual live weight
  double intake_share = 0.035;    ///< dry matter eaten a day / live weight, at the usual weight and milk [1/d]
  double fodder_limit = 0.30;     ///< usual upper share of the diet's dry matter as sprouted fodder [1]
  Hours gestation{};              ///< of the species; 0 for poultry (incubation is not modelled)
  double litter = 1.7;            ///< usual litter; 0 for classes that do not breed
  GrowthCurve growth;             ///< of the young
  Kilograms usual_milk{};         ///< a head a day; 0: the class does not milk
  Origin origin = Origin::borrowed;  ///< of the intake: an equation's own species, a handbook range, or nobody's
};
const std::vector<Class>& all_classes();
std::optional<Class> find_class(std::string_view name);

/// Dry-matter intake of a cow in milk a day (NRC 2001). milk kg/d, fat %, week of lactation (>= 0).
Kilograms dairy_intake(Kilograms weight, Kilograms milk, double fat_percent, double week);
/// Goat in milk (AFRC form) a day: 0.062 W^0.75 + 0.305 Y, Y milk of 3.5 % fat [kg/d].
Kilograms goat_milk_intake(Kilograms weight, Kilograms milk);
/// Beef cow a day (NRC 1996); net energy for maintenance of the diet [Mcal/kg dry matter].
Kilograms beef_cow_intake(Kilograms weight, double net_energy_mcal_per_kg);
/// Growing pig, 5 to 135 kg: feed as fed a day (NRC 2012 table 16-1, between the middles of its weight steps in
/// straight lines).
Kilograms growing_pig_feed(Kilograms weight);
/// Dry matter eaten a day by class, weight, and milk where the class milks; not stated: the class's usual yield. Other
/// classes ignore milk.
Kilograms intake(const Class& animal, Kilograms weight, std::optional<Kilograms> milk = std::nullopt);

/// Usual shortest and longest time over which a new feed is brought in (common practice, no source).
inline constexpr Hours shortest_introduction = days(7);
inline constexpr Hours longest_introduction = days(14);
/// Share of the full ration while a new feed is brought in: ramps in a straight line over `length`; 1 when length is 0.
double introduction_share(Hours since_start, Hours length);

}  // namespace rackwright::herd
