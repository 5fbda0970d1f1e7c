#include <cmath>
#include <stdexcept>

#include "models/herd/breeding.hpp"
#include "models/herd/young.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("young want nothing before weaning and by metabolic weight after", "[herd]") {
  const herd::GrowthCurve curve{Kilograms(60.0), 0.0064, Kilograms(3.5)};
  CHECK(herd::young_share(curve, Kilograms(60), days(59.9), days(60)) == 0.0);
  const double share = herd::young_share(curve, Kilograms(60), days(60), days(60));
  CHECK(share == Approx(std::pow(herd::weight_at(curve, days(60)).value() / 60.0, 0.75)));
  CHECK(share > 0.2);
  CHECK(share < 0.4);
  CHECK(herd::young_share(curve, Kilograms(60), days(4000), days(60)) == Approx(1.0));
  CHECK_THROWS_AS(herd::young_share(curve, Kilograms(0), days(60), days(60)), std::logic_error);
  CHECK_THROWS_AS(herd::young_share(curve, Kilograms(60), days(-1), days(60)), std::logic_error);
}

TEST_CASE("weaned young for each female", "[herd]") {
  herd::Breeding breeding;
  breeding.conception = 0.9;
  constexpr double litter = 2.0;
  breeding.neonatal_death = 0.1;
  CHECK(herd::weaned_per_female(breeding, litter) == Approx(1.62));
  breeding.neonatal_death = 1.0;
  CHECK(herd::weaned_per_female(breeding, litter) == 0.0);
  breeding.conception = 1.1;
  CHECK_THROWS_AS(herd::weaned_per_female(breeding, litter), std::logic_error);
}

TEST_CASE("mating is a gestation before the first births", "[herd]") {
  herd::Breeding breeding;
  breeding.first_birth_day = 160.0;
  CHECK(herd::first_mating_day(breeding, days(150)) == Approx(10.0));
}

TEST_CASE("seasons are felt until the last of their young is sold, and before the first only where there were any", "[herd]") {
  herd::Breeding breeding;
  breeding.first_birth_day = 193.0;  // yearly
  breeding.spread_days = 10.0;
  breeding.sale = days(190);
  CHECK(herd::first_season_felt(breeding, 0.0) == 193.0);
  CHECK(herd::first_season_felt(breeding, 392.0) == 193.0);  // the last of them leave on day 393
  CHECK(herd::first_season_felt(breeding, 393.0) == 558.0);
  CHECK(herd::first_season_felt(breeding, 1000.0) == 923.0);
  breeding.before = true;
  CHECK(herd::first_season_felt(breeding, 0.0) == 193.0 - 365.0);
  CHECK(herd::first_season_felt(breeding, 28.0) == 193.0);
  breeding.sale = days(600);  // two seasons stand there together
  CHECK(herd::first_season_felt(breeding, 0.0) == 193.0 - 2.0 * 365.0);
  breeding.first_birth_day = -1.0;
  CHECK_THROWS_AS(herd::first_season_felt(breeding, 0.0), std::logic_error);
}

TEST_CASE("the young's greatest call on the rack is on the day before sale", "[herd]") {
  herd::Breeding breeding;
  const herd::GrowthCurve curve{Kilograms(60.0), 0.0064, Kilograms(3.5)};
  CHECK(herd::peak_young_rations(breeding, 1.7, 0.5) == 0.0);  // no births
  breeding.first_birth_day = 30.0;
  const double at_sale = herd::young_share(curve, Kilograms(60), breeding.sale, breeding.weaning);
  CHECK(herd::peak_young_rations(breeding, 1.7, at_sale) ==
        Approx(herd::weaned_per_female(breeding, 1.7) * at_sale));
  breeding.sale = breeding.weaning;
  CHECK(herd::peak_young_rations(breeding, 1.7, at_sale) == 0.0);
}

TEST_CASE("weaned pigs eat as growing pigs do, whatever their dams eat", "[herd]") {
  const herd::Class dry = *herd::find_class("sow"), milking = *herd::find_class("sow-milking"), growing = *herd::find_class("growing-pig");
  const herd::GrowthCurve curve = dry.growth;
  for (const double age : {60.0, 120.0, 160.0}) {
    const double eaten = herd::intake(growing, herd::weight_at(curve, days(age))).value();
    for (const herd::Class& dam : {dry, milking}) {
      const double share = herd::young_share(dam, curve, dam.weight, std::nullopt, days(age), days(42));
      CHECK(share * herd::intake(dam, dam.weight).value() == Approx(eaten));
    }
  }
  CHECK(herd::young_share(dry, curve, dry.weight, std::nullopt, days(41), days(42)) == 0.0);
  // NRC 2012, table 16-1 (from memory): 2.933 kg of feed a day, 90 % dry matter, at 100 to 135 kg.
  Hours age = days(100);
  while (herd::weight_at(curve, age).value() < 117.5) age = age + days(1);
  CHECK(herd::young_share(dry, curve, dry.weight, std::nullopt, age, days(42)) * herd::intake(dry, dry.weight).value() == Approx(0.9 * 2.933).epsilon(0.01));
  // Of all others metabolic weight decides.
  const herd::Class goat = *herd::find_class("goat-milking");
  CHECK(herd::young_share(goat, goat.growth, goat.weight, std::nullopt, days(100), days(60)) == herd::young_share(goat.growth, goat.weight, days(100), days(60)));
}

TEST_CASE("young get the larger part of what they eat where their dams are in milk, the smaller where those are dry", "[herd]") {
  const auto part = [](const char* dam, double grown, double age) {
    const auto kind = herd::find_class(dam);
    const auto young = herd::class_of_young(*kind);
    REQUIRE(young.has_value());
    return herd::young_diet_share(*kind, *young, Kilograms(grown), std::nullopt, 0.2, days(age));
  };
  // By hand: 20 % of 0.062 60^0.75 + 0.305 3 = 2.252 kg, to the weight's power 0.75, over 0.038 18^0.25 W^0.75.
  CHECK(part("goat-milking", 60.0, 60.0) == Approx(0.2 * 2.2516 / std::pow(60.0, 0.75) / (0.038 * std::pow(18.0, 0.25))).epsilon(1e-4));
  CHECK(part("goat-milking", 60.0, 60.0) == Approx(0.267).epsilon(0.003));
  CHECK(part("goat-milking", 60.0, 140.0) == Approx(part("goat-milking", 60.0, 60.0)));  // both eat by weight to that power
  CHECK(part("ewe", 65.0, 90.0) == Approx(0.2 * 0.019 * std::pow(65.0, 0.25) / (0.042 * std::pow(30.0, 0.25))));
  for (const double age : {30.0, 100.0}) CHECK(part("sow", 200.0, age) == Approx(0.2));  // what they want goes by what they eat
  CHECK_FALSE(herd::class_of_young(*herd::find_class("horse")).has_value());
  CHECK(herd::class_of_young(*herd::find_class("dairy-cow"))->name == "beef-growing");
}
