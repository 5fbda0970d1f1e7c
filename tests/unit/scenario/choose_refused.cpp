// What sizing may not vary, and what a steady answer cannot be asked of.
#include <algorithm>
#include <string>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;

namespace {

std::string why_not(const Scenario& scenario, const std::string& key) {
  for (const Problem& problem : check_scenario(scenario)) {
    if (problem.key == key) return problem.why;
  }
  return {};
}

}  // namespace

TEST_CASE("a title, units, a currency or the number of animals are no choice of a rack") {
  for (const char* key : {"title", "units", "currency", "group.goats.count", "run.length", "target.fill_rate"}) {
    Scenario farm = test::goat_farm();
    farm.choose.choices = {{key, {"1", "2"}}};
    INFO(key);
    CHECK_FALSE(why_not(farm, std::string("choose.") + key).empty());
  }
  Scenario farm = test::goat_farm();
  farm.choose.choices = {{"rack.tiers", {"4", "5"}}};
  CHECK(check_scenario(farm).empty());
}

TEST_CASE("one value written in two ways is listed twice") {
  Scenario farm = test::goat_farm();
  farm.choose.choices = {{"line.soak", {"8 h", "10 h", "600 min"}}};
  CHECK(why_not(farm, "choose.line.soak") == "is listed twice, also as 10 h");
  farm.choose.choices = {{"line.soak", {"8 h", "10 h"}}};
  CHECK(why_not(farm, "choose.line.soak").empty());
}

TEST_CASE("a steady answer is refused for a herd that grows or gives birth, and given for one that stays") {
  Scenario farm = test::goat_farm();
  farm.run.warm_up = WarmUp::automatic;
  CHECK(check_scenario(farm).empty());
  farm.groups.front().growth = 0.1;
  CHECK(why_not(farm, "run.warm_up").find("steady") != std::string::npos);
  farm.groups.front().growth = 0.0;
  farm.groups.front().breeding.first_birth_day = 30.0;
  CHECK_FALSE(why_not(farm, "run.warm_up").empty());
}

TEST_CASE("one key under two names is listed twice") {
  Scenario farm = test::goat_farm();
  farm.choose.choices = {{"grain.1.germination", {"0.85", "0.95"}}, {"grain.barley.germination", {"0.86", "0.93"}}};
  CHECK(why_not(farm, "choose.grain.barley.germination") == "is listed twice, also as grain.1.germination");
  farm.choose.choices = {{"grain.1.germination", {"0.85", "0.95"}}, {"grain.1.price", {"0.3", "0.4"}}};
  CHECK(why_not(farm, "choose.grain.1.price").empty());
}
