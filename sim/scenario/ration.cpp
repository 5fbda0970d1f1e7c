#include "sim/scenario/ration.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/feed/value.hpp"
#include "models/growth/mat.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering.hpp"

namespace rackwright {

double standard_dry_matter(const Scenario& s) {
  const std::string first = sowing_order(s).front();
  const auto found = std::find_if(s.grains.begin(), s.grains.end(), [&](const GrainSupply& g) { return g.name == first; });
  const GrainSupply& grain = found == s.grains.end() ? s.grains.front() : *found;
  const growth::Parameters growth = growth_of(s, grain.species);
  return growth::mat(growth, growth.ripe, grain.grade.germination_mean, s.line.sowing_density, 1.0 - grain.moisture).dry_matter;
}

std::vector<Diet> diets(const Scenario& s) {
  std::vector<Diet> all;
  const double dry_matter = standard_dry_matter(s);
  for (const Group& group : s.groups) {
    const auto kind = herd::find_class(group.animal_class);
    if (group.count <= 0 || !kind) continue;  // nobody is fed
    Diet diet{&group, *kind, herd::intake(*kind, group.weight.value_or(kind->weight), group.milk), 0.0, dry_matter};
    const double fresh = group.ration ? group.ration->value() : group.share * diet.eaten.value() / dry_matter;
    diet.share = feed::diet_share(Kilograms(fresh * dry_matter), diet.eaten);
    all.push_back(diet);
  }
  return all;
}

std::string at_most_words(const Scenario& scenario, Kilograms mass) {
  const bool us = scenario.units == Units::us, small = mass.value() < 0.1;
  const std::string_view unit = small ? us ? "oz" : "g" : us ? "lb" : "kg";
  const double value = convert(mass.value(), "kg", unit);
  if (!(value > 0.0)) return fmt::format("0 {}", unit);
  const double step = std::pow(10.0, std::floor(std::log10(value)) - 1.0);
  // A hair more, so that what is written with two digits is not cut to the next lower for its last bit.
  const double least = step * std::floor(value / step + 1e-9);
  return value < 100.0 ? fmt::format("{:.2g} {}", least, unit) : fmt::format("{:.0f} {}", least, unit);
}

}  // namespace rackwright
