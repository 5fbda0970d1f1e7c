#include "sim/scenario/ration.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "models/feed/value.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/watering.hpp"

namespace rackwright {

growth::Mat standard_mat(const Scenario& s) {
  const std::string first = sowing_order(s).front();
  const auto found = std::find_if(s.grains.begin(), s.grains.end(), [&](const GrainSupply& g) { return g.name == first; });
  const GrainSupply& grain = found == s.grains.end() ? s.grains.front() : *found;
  const growth::Parameters growth = growth_of(s, grain.species);
  return growth::mat(growth, growth.ripe, grain.grade.germination_mean, s.line.sowing_density, 1.0 - grain.moisture);
}

Diet diet_of(const Group& group, double mat_dry_matter) {
  const auto kind = herd::find_class(group.animal_class);
  EXPECTS(kind.has_value());
  Diet diet{&group, *kind, herd::intake(*kind, group.weight.value_or(kind->weight), group.milk), {}, 0.0, mat_dry_matter};
  diet.ration = group.ration ? *group.ration : Kilograms(group.share * diet.eaten.value() / mat_dry_matter);
  diet.share = feed::diet_share(diet.ration * mat_dry_matter, diet.eaten);
  return diet;
}

std::vector<Diet> diets(const Scenario& s) {
  std::vector<Diet> all;
  const double dry_matter = standard_mat(s).dry_matter;
  for (const Group& group : s.groups) {
    if (group.count > 0 && herd::find_class(group.animal_class)) all.push_back(diet_of(group, dry_matter));  // else nobody is fed
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
