#include "models/herd/breeding.hpp"

#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::herd {

double young_share(const GrowthCurve& curve, Kilograms grown, Hours age, Hours weaning) {
  EXPECTS(grown.value() > 0.0);
  EXPECTS(age.value() >= 0.0 && weaning.value() >= 0.0);
  if (age < weaning) return 0.0;
  return std::pow(weight_at(curve, age) / grown, 0.75);
}

double weaned_per_female(const Breeding& breeding) {
  EXPECTS(breeding.conception >= 0.0 && breeding.conception <= 1.0);
  EXPECTS(breeding.neonatal_death >= 0.0 && breeding.neonatal_death <= 1.0 && breeding.litter_mean >= 0.0);
  return breeding.conception * breeding.litter_mean * (1.0 - breeding.neonatal_death);
}

double first_mating_day(const Breeding& breeding, Hours gestation) {
  return breeding.first_birth_day - in_days(gestation);
}

double peak_young_rations(const Breeding& breeding, const GrowthCurve& curve, Kilograms grown) {
  if (breeding.first_birth_day < 0.0 || breeding.sale <= breeding.weaning) return 0.0;
  // Heaviest the day before sale; seasons closer than the age at sale would overlap, which the count of seasons covers.
  const double seasons_alive = std::ceil((breeding.sale - breeding.weaning) / breeding.every);
  return weaned_per_female(breeding) * seasons_alive * young_share(curve, grown, breeding.sale, breeding.weaning);
}

}  // namespace rackwright::herd
