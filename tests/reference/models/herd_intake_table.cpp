// Intake and usual fodder limits against handbooks and trials, beyond the rows of tests/reference/table.

#include <string_view>

#include "models/herd/animals.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {
double intake_of(std::string_view name) {
  const auto animal = herd::find_class(name).value();
  return herd::intake(animal, animal.weight).value();
}
}  // namespace

TEST_CASE("a beef cow by the NRC equation eats the handbook share", "[reference][herd]") {
  // NRC 1996 equation from memory, medium hay 1.2 Mcal/kg; handbooks 1.8 to 2.5 % of weight.
  const double share = herd::beef_cow_intake(Kilograms(550), 1.2).value() / 550;
  CHECK(share > 0.018);
  CHECK(share < 0.025);
  CHECK(intake_of("beef-cow") / 550 == Approx(share).epsilon(0.03));
}

TEST_CASE("usual fodder limits stay within what trials and practice allow", "[reference][herd]") {
  for (const herd::Class& animal : herd::all_classes()) {
    INFO(animal.name);
    const bool ruminant = animal.species == "goat" || animal.species == "sheep" || animal.species == "cattle";
    if (ruminant) CHECK(animal.fodder_limit <= 1.0 / 3.0);  // common practice, no source
    else CHECK((animal.fodder_limit >= 0.10 && animal.fodder_limit <= 0.25));  // common practice, no source
    if (animal.species == "sheep") CHECK(animal.fodder_limit == 0.21);  // trial: up to 21 % of the diet did well
    if (animal.species ==
        "rabbit") {  // Abdel-Wareth et al. 2023, Sci. Rep. 13:943: 25 % best, 20-40 good, 60 not recommended
      CHECK(animal.fodder_limit >= 0.20);
      CHECK(animal.fodder_limit <= 0.40);
    }
    if (animal.species == "chicken") CHECK(animal.fodder_limit == 0.23);  // Alinaitwe et al. 2019: growth optimum
  }
  CHECK(in_days(herd::shortest_introduction) == 7.0);  // common practice, no source: 7 to 14 days
  CHECK(in_days(herd::longest_introduction) == 14.0);
}
