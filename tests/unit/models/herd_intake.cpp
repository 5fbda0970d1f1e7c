#include <set>
#include <stdexcept>
#include <string>

#include "models/herd/animals.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("classes are found by name and unknown names are not", "[herd]") {
  for (const char* name : {"goat-milking", "goat-dry", "goat-kid", "ewe", "ewe-milking", "lamb", "dairy-cow",
                           "beef-cow", "sow", "growing-pig", "horse", "rabbit", "laying-hen", "growing-chicken"}) {
    INFO(name);
    REQUIRE(herd::find_class(name).has_value());
    CHECK(herd::find_class(name)->name == name);
  }
  CHECK_FALSE(herd::find_class("goat").has_value());
  CHECK_FALSE(herd::find_class("").has_value());
}

TEST_CASE("class names are unique and every class is sane", "[herd]") {
  std::set<std::string_view> names;
  for (const herd::Class& animal : herd::all_classes()) {
    INFO(animal.name);
    CHECK(names.insert(animal.name).second);
    CHECK(animal.weight.value() > 0.0);
    CHECK(animal.fodder_limit > 0.0);
    CHECK(animal.fodder_limit < 1.0);
    CHECK((animal.growth.start < animal.growth.mature && animal.growth.rate_per_day > 0.0));
    const bool hatches = animal.species == "chicken" || animal.species == "duck" || animal.species == "goose" || animal.species == "turkey";
    CHECK((animal.gestation.value() > 0.0) != hatches);
  }
}

TEST_CASE("the intake of every class at its usual weight and yield is its printed share", "[herd]") {
  for (const herd::Class& animal : herd::all_classes()) {
    INFO(animal.name);
    CHECK(herd::intake(animal, animal.weight, animal.usual_milk) / animal.weight ==
          Approx(animal.intake_share).epsilon(0.02));
  }
}

// Middles of the ranges that handbooks print [% of live weight a day]: goats, rabbits, sheep, cattle, horses after the NRC's series; sows and hens
// in kilograms a day as fed, taken at 90 % dry matter. All from memory.
TEST_CASE("intake shares are the middles of their handbook ranges", "[herd]") {
  struct Row { const char* name; double low, high; };
  for (const Row& row : {Row{"goat-dry", 1.8, 2.5}, Row{"ewe", 1.8, 2.0}, Row{"dairy-cow", 3.0, 4.0}, Row{"horse", 1.5, 2.5}, Row{"rabbit", 3.0, 4.0},
                         Row{"rabbit-growing", 5.0, 7.0}, Row{"sow", 90.0 * 2.0 / 200.0, 90.0 * 2.6 / 200.0}, Row{"sow-milking", 90.0 * 5.0 / 200.0, 90.0 * 6.5 / 200.0},
                         Row{"laying-hen", 90.0 * 0.10 / 1.8, 90.0 * 0.12 / 1.8}, Row{"lamb", 3.5, 5.0}}) {
    INFO(row.name);
    CHECK(100.0 * herd::find_class(row.name)->intake_share == Approx(0.5 * (row.low + row.high)).epsilon(0.015));
  }
}

TEST_CASE("milk not stated means the usual yield, and only milking classes mind it", "[herd]") {
  const auto goat = *herd::find_class("goat-milking");
  CHECK(herd::intake(goat, goat.weight) == herd::intake(goat, goat.weight, goat.usual_milk));
  CHECK(herd::intake(goat, goat.weight, Kilograms(0)) < herd::intake(goat, goat.weight, Kilograms(1)));
  CHECK(herd::intake(goat, goat.weight, Kilograms(5)) > herd::intake(goat, goat.weight, Kilograms(3)));
  const auto hen = *herd::find_class("laying-hen");
  CHECK(herd::intake(hen, hen.weight, Kilograms(5)) == herd::intake(hen, hen.weight, Kilograms(0)));
}

TEST_CASE("a kilogram of ewe's milk takes more feed than a kilogram of goat's", "[herd]") {
  const auto ewe = *herd::find_class("ewe-milking");
  const auto goat = *herd::find_class("goat-milking");
  const auto of_one_kg = [](const herd::Class& c) {
    return (herd::intake(c, Kilograms(60), Kilograms(3)) - herd::intake(c, Kilograms(60), Kilograms(2))).value();
  };
  CHECK(of_one_kg(goat) == Approx(0.305));
  CHECK(of_one_kg(ewe) == Approx(1.5 * 0.305));
}

TEST_CASE("appetite comes back over the first weeks of lactation", "[herd]") {
  const auto at = [](double week) { return herd::dairy_intake(Kilograms(650), Kilograms(30), 4.0, week).value(); };
  CHECK(at(0) < 0.55 * at(30));
  CHECK(at(12) > 0.94 * at(30));
}

TEST_CASE("pig feed runs through the table's middles and on beyond them", "[herd]") {
  CHECK(herd::growing_pig_feed(Kilograms(0)).value() == 0.0);
  CHECK(herd::growing_pig_feed(Kilograms(3)).value() == Approx(0.140));
  CHECK(herd::growing_pig_feed(Kilograms(50)).value() == Approx(0.5 * (1.582 + 2.229)));
  CHECK(herd::growing_pig_feed(Kilograms(147.5)).value() == Approx(2.933 + 0.297));
}

TEST_CASE("a new ration is brought in in a straight line", "[herd]") {
  CHECK(herd::introduction_share(days(0), days(10)) == 0.0);
  CHECK(herd::introduction_share(days(5), days(10)) == Approx(0.5));
  CHECK(herd::introduction_share(days(10), days(10)) == 1.0);
  CHECK(herd::introduction_share(days(99), days(10)) == 1.0);
  CHECK(herd::introduction_share(days(-3), days(10)) == 0.0);
  CHECK(herd::introduction_share(days(0), Hours(0)) == 1.0);
  CHECK_THROWS_AS(herd::introduction_share(days(1), days(-1)), std::logic_error);
}

TEST_CASE("intake refuses nonsense", "[herd]") {
  CHECK_THROWS_AS(herd::dairy_intake(Kilograms(-1), Kilograms(20), 4.0, 10), std::logic_error);
  CHECK_THROWS_AS(herd::dairy_intake(Kilograms(600), Kilograms(20), 4.0, -1), std::logic_error);
  CHECK_THROWS_AS(herd::goat_milk_intake(Kilograms(60), Kilograms(-0.1)), std::logic_error);
  CHECK_THROWS_AS(herd::beef_cow_intake(Kilograms(500), 0.0), std::logic_error);
}
