#pragma once
// Births on a calendar, weaning, sale, deaths.

#include "models/base/quantity.hpp"
#include "models/herd/animals.hpp"

namespace rackwright::herd {

/// How a group breeds. `first_birth_day` counts from the start of the run; mating is a gestation earlier.
struct Breeding {
  double first_birth_day = -1.0;   ///< day of the run on which the first births fall; < 0: none
  Hours every{24.0 * 365.0};       ///< between birth seasons
  bool before = false;             ///< had such a herd seasons before the first, so that young of them may stand there?
  double spread_days = 10.0;       ///< births spread evenly over this many days
  double conception = 0.9;         ///< share of females that give birth
  double litter_sd = 0.6;
  double neonatal_death = 0.08;    ///< share of young lost by weaning
  Hours weaning{24.0 * 60.0};      ///< age at which young start to want fodder
  Hours sale{24.0 * 150.0};        ///< age at which they leave
};

/// Fodder an animal of the young wants at an age relative to a grown one, by metabolic weight; 0 before weaning.
double young_share(const GrowthCurve& curve, Kilograms grown, Hours age, Hours weaning);
/// The same for the young of that class: pigs by what growing pigs and their dams eat (docs/models/herd.md), all others as above. `milk` as in
/// intake().
double young_share(const Class& animal, const GrowthCurve& curve, Kilograms grown, std::optional<Kilograms> milk, Hours age, Hours weaning);

/// Young alive at weaning for each female of the group in one birth season, on average; `litter`: born to each that gives birth.
double weaned_per_female(const Breeding& breeding, double litter);
/// Day of the run on which the first females are mated; negative: before the run opens.
double first_mating_day(const Breeding& breeding, Hours gestation);
/// First season of which young may still be there on `day` of the run, or the first after it: days of the run. Seasons before
/// first_birth_day count only where there were any. Expects a herd that breeds.
double first_season_felt(const Breeding& breeding, double day);
/// Most fodder the young of one female want on any day, in rations of a grown animal, on average; `at_sale` what one of them wants then.
double peak_young_rations(const Breeding& breeding, double litter, double at_sale);

}  // namespace rackwright::herd
