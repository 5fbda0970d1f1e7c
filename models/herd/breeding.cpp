#include "models/herd/breeding.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::herd {

double young_share(const GrowthCurve& curve, Kilograms grown, Hours age, Hours weaning) {
  EXPECTS(grown.value() > 0.0);
  EXPECTS(age.value() >= 0.0 && weaning.value() >= 0.0);
  if (age < weaning) return 0.0;
  return std::pow(weight_at(curve, age) / grown, 0.75);
}

double young_share(const Class& animal, const GrowthCurve& curve, Kilograms grown, std::optional<Kilograms> milk, Hours age, Hours weaning) {
  if (animal.species != "pig" || age < weaning) return young_share(curve, grown, age, weaning);
  const auto growing = find_class("growing-pig");
  EXPECTS(growing.has_value());
  return intake(*growing, weight_at(curve, age)) / intake(animal, grown, milk);
}

double weaned_per_female(const Breeding& breeding, double litter) {
  EXPECTS(breeding.conception >= 0.0 && breeding.conception <= 1.0);
  EXPECTS(breeding.neonatal_death >= 0.0 && breeding.neonatal_death <= 1.0 && litter >= 0.0);
  return breeding.conception * litter * (1.0 - breeding.neonatal_death);
}

double first_mating_day(const Breeding& breeding, Hours gestation) {
  return breeding.first_birth_day - in_days(gestation);
}

double first_season_felt(const Breeding& breeding, double day) {
  EXPECTS(breeding.first_birth_day >= 0.0);
  const double every = std::max(1.0, in_days(breeding.every));
  // The last of a season's young are sold so many days after its first birth.
  const double lasts = breeding.spread_days + in_days(breeding.sale);
  const double seasons_on = std::floor((day - lasts - breeding.first_birth_day) / every) + 1.0;
  return breeding.first_birth_day + every * (breeding.before ? seasons_on : std::max(0.0, seasons_on));
}

double peak_young_rations(const Breeding& breeding, double litter, double at_sale) {
  if (breeding.first_birth_day < 0.0 || breeding.sale <= breeding.weaning) return 0.0;
  // Heaviest the day before sale; seasons closer than the age at sale would overlap, which the count of seasons covers.
  const double seasons_alive = std::ceil((breeding.sale - breeding.weaning) / breeding.every);
  return weaned_per_female(breeding, litter) * seasons_alive * at_sale;
}

}  // namespace rackwright::herd
