// Defaults that follow from units, and the nearest kind of animal.

#include <string>

#include "sim/scenario/describe.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Reading read(const std::string& head, const std::string& animal = "goat-milking") {
  return read_scenario(head + "\n[[grain]]\nname = \"barley\"\nspecies = \"barley\"\n[[group]]\nname = \"animals\"\nclass = \"" + animal +
                       "\"\ncount = 4\nration = \"1 kg\"\n");
}

std::string suggested(const std::string& animal) {
  const Reading reading = read("", animal);
  REQUIRE(reading.problems.size() == 1);
  CHECK(reading.problems.front().key == "group.animals.class");
  return reading.problems.front().suggestion;
}

}  // namespace

TEST_CASE("a scenario in US units counts in dollars and bags of 50 lb unless it says otherwise") {
  const Reading us = read("units = \"us\"");
  REQUIRE(us.scenario.has_value());
  CHECK(us.scenario->currency == "USD");
  CHECK(us.scenario->grains[0].store.bag.value() == Approx(22.6796185));
  const Reading own = read("units = \"us\"\ncurrency = \"CAD\"");
  REQUIRE(own.scenario.has_value());
  CHECK(own.scenario->currency == "CAD");
  const Reading metric = read("");
  REQUIRE(metric.scenario.has_value());
  CHECK(metric.scenario->currency == "EUR");
  CHECK(metric.scenario->grains[0].store.bag.value() == Approx(25.0));
  // What follows is written out, so that reading it again gives the same scenario.
  const Reading again = read_scenario(resolved_text(*us.scenario));
  REQUIRE(again.scenario.has_value());
  CHECK(*again.scenario == *us.scenario);
}

TEST_CASE("a kind of animal in other words is answered with the class it is nearest to") {
  CHECK(suggested("goat") == "goat-milking");
  CHECK(suggested("Goats") == "goat-milking");
  CHECK(suggested("sheep") == "ewe");
  CHECK(suggested("chickens") == "laying-hen");
  CHECK(suggested("cow") == "dairy-cow");
  CHECK(suggested("laying hens") == "laying-hen");
  CHECK(suggested("rabit") == "rabbit");
  CHECK(suggested("ducks") == "duck");
  CHECK(suggested("dairy goat") == "goat-milking");
  CHECK(suggested("dairy ewe") == "ewe-milking");
  CHECK(suggested("sheep-milking") == "ewe-milking");
  CHECK(suggested("milking sheep") == "ewe-milking");
  CHECK(suggested("milk cow") == "dairy-cow");
  CHECK(suggested("goat-dyr") == "goat-dry");
  CHECK(suggested("meat rabbits") == "rabbit");
  CHECK(suggested("hippopotamus").empty());
}

TEST_CASE("milk that is not stated is the class's usual") {
  const Reading usual = read("");
  REQUIRE(usual.scenario.has_value());
  CHECK_FALSE(usual.scenario->groups[0].milk.has_value());
}
