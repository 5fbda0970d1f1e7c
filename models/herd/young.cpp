#include "models/herd/young.hpp"

#include <algorithm>
#include <array>

#include "models/base/expects.hpp"
#include "models/herd/breeding.hpp"

namespace rackwright::herd {

std::optional<Class> class_of_young(const Class& animal) {
  struct Young { std::string_view species, name; };
  constexpr std::array<Young, 5> all{{{"goat", "goat-kid"}, {"sheep", "lamb"}, {"cattle", "beef-growing"}, {"pig", "growing-pig"}, {"rabbit", "rabbit-growing"}}};
  const auto* found = std::find_if(all.begin(), all.end(), [&](const Young& young) { return young.species == animal.species; });
  return found == all.end() ? std::nullopt : find_class(found->name);
}

GrowthCurve curve_of_young(const Class& animal, Kilograms grown) { return scaled_to(animal.growth, grown * (animal.growth.mature / animal.weight)); }

double young_diet_share(const Class& animal, const Class& young, Kilograms grown, std::optional<Kilograms> milk, double share, Hours age) {
  EXPECTS(share >= 0.0);
  const GrowthCurve curve = curve_of_young(animal, grown);
  const double fodder = share * intake(animal, grown, milk).value() * young_share(animal, curve, grown, milk, age, Hours(0.0));
  return fodder / intake(young, weight_at(curve, age)).value();
}

}  // namespace rackwright::herd
