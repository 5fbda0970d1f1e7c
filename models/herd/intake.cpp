#include <algorithm>
#include <array>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/herd/animals.hpp"

namespace rackwright::herd {
namespace {

constexpr double feed_dry_matter = 0.90;   // of pig feed as fed, the basis of the table
constexpr double ewe_milk_richness = 1.5;  // energy of ewe's milk against goat's (assumed: fat 6.5 against 3.5 %)
constexpr double medium_hay_mcal = 1.2;    // net energy for maintenance in a kilogram of its dry matter (from memory)
constexpr double usual_fat_percent = 4.0;  // so that milk is its own 4 % fat-corrected milk
constexpr double middle_of_lactation = 20.0;  // [weeks]

double metabolic(Kilograms weight) { return std::pow(weight.value(), 0.75); }

bool sane(Kilograms mass) { return std::isfinite(mass.value()) && mass.value() >= 0.0; }

}  // namespace

Kilograms dairy_intake(Kilograms weight, Kilograms milk, double fat_percent, double week) {
  EXPECTS(sane(weight) && sane(milk));
  EXPECTS(fat_percent >= 0.0 && fat_percent <= 100.0 && week >= 0.0);
  const double fat_corrected = milk.value() * (0.4 + 0.15 * fat_percent);
  const double after_calving = -std::expm1(-0.192 * (week + 3.67));  // appetite comes back over the first weeks
  return Kilograms((0.372 * fat_corrected + 0.0968 * metabolic(weight)) * after_calving);
}

Kilograms goat_milk_intake(Kilograms weight, Kilograms milk) {
  EXPECTS(sane(weight) && sane(milk));
  return Kilograms(0.062 * metabolic(weight) + 0.305 * milk.value());
}

Kilograms beef_cow_intake(Kilograms weight, double net_energy_mcal_per_kg) {
  EXPECTS(sane(weight));
  EXPECTS(net_energy_mcal_per_kg > 0.0 && std::isfinite(net_energy_mcal_per_kg));
  const double energy = net_energy_mcal_per_kg;
  return Kilograms(metabolic(weight) * (0.04997 * energy * energy + 0.04631) / energy);
}

Kilograms growing_pig_feed(Kilograms weight) {
  EXPECTS(sane(weight));
  struct Step { double weight, feed; };
  constexpr std::array<Step, 7> steps{
      {{6.0, 0.280}, {9.0, 0.493}, {18.0, 0.953}, {37.5, 1.582}, {62.5, 2.229}, {87.5, 2.636}, {117.5, 2.933}}};
  const double w = weight.value();
  // Outside the table: below it in proportion to weight, above it the last slope goes on.
  if (w <= steps.front().weight) return Kilograms(steps.front().feed * w / steps.front().weight);
  const auto* upper =
      std::find_if(steps.begin() + 1, steps.end() - 1, [w](const Step& step) { return w <= step.weight; });
  const auto* lower = upper - 1;
  return Kilograms(lower->feed + (upper->feed - lower->feed) * (w - lower->weight) / (upper->weight - lower->weight));
}

Kilograms intake(const Class& animal, Kilograms weight, std::optional<Kilograms> milk) {
  const Kilograms yield = milk.value_or(animal.usual_milk);
  EXPECTS(sane(weight) && sane(yield));
  if (animal.usual_milk.value() > 0.0) {
    if (animal.species == "cattle") return dairy_intake(weight, yield, usual_fat_percent, middle_of_lactation);
    return goat_milk_intake(weight, yield * (animal.species == "sheep" ? ewe_milk_richness : 1.0));
  }
  if (animal.name == "beef-cow") return beef_cow_intake(weight, medium_hay_mcal);
  if (animal.name == "growing-pig") return feed_dry_matter * growing_pig_feed(weight);
  // Within a class appetite goes with metabolic weight, not with weight.
  return Kilograms(animal.intake_share * animal.weight.value() * std::pow(weight / animal.weight, 0.75));
}

double introduction_share(Hours since_start, Hours length) {
  EXPECTS(length.value() >= 0.0);
  if (length.value() == 0.0) return 1.0;
  return std::clamp(since_start / length, 0.0, 1.0);
}

}  // namespace rackwright::herd
