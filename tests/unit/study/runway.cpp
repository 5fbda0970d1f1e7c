#include "sim/study/runway.hpp"

#include "sim/scenario/read.hpp"
#include "sim/study/levers.hpp"
#include "sim/study/remedy.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {
std::vector<DailyRow> served_days(int days, double (*served)(int)) {
  std::vector<DailyRow> rows(static_cast<std::size_t>(days));
  for (int day = 0; day < days; ++day) {
    rows[static_cast<std::size_t>(day)].wanted = 10.0F;
    rows[static_cast<std::size_t>(day)].served = static_cast<float>(served(day));
  }
  return rows;
}
}  // namespace

TEST_CASE("too small from the first day on which four weeks' service falls below for good") {
  CHECK(too_small_from(served_days(400, [](int) { return 10.0; }), 0.95) == -1);
  // From day 200 on nothing but half: two short days of 28 make 0.964, three make 0.946.
  CHECK(too_small_from(served_days(400, [](int day) { return day < 200 ? 10.0 : 5.0; }), 0.95) == 202);
  // A bad spell that passes does not count, nor one too near the end.
  CHECK(too_small_from(served_days(400, [](int day) { return day > 100 && day < 150 ? 5.0 : 10.0; }), 0.95) == -1);
  CHECK(too_small_from(served_days(400, [](int day) { return day < 350 ? 10.0 : 5.0; }), 0.95) == -1);
  CHECK(too_small_from(served_days(20, [](int) { return 0.0; }), 0.95) == -1);  // no four weeks yet
}

TEST_CASE("a growing herd outgrows its rack on a date, and more trays put it off") {
  Scenario farm = test::goat_farm();
  farm.target.fill_rate = 0.8;
  farm.target.years = 0.8;
  farm.choose.look_ahead = days(3 * 365.0);
  farm.keeper.minutes_per_day = 600.0;  // hands and buckets are not in question here
  farm.keeper.soak_buckets = 12;
  farm.water.emitters_per_tier = 4;
  farm.spoilage.mould_rate = farm.spoilage.sour_rate = 1e-6;  // nor is what a fuller room spoils
  CHECK_FALSE(grows(farm));
  farm.groups.front().growth = 0.8;
  REQUIRE(grows(farm));
  Scenario larger = farm;
  larger.line.trays_per_batch = 14;
  larger.rack.trays_per_tier = 26;
  RunwayRequest request;
  request.replications = 12;
  const Runway found = runway(farm, {{"larger", larger}}, request);
  CHECK(found.look_ahead == 1095);
  REQUIRE(found.days[1] > 0);
  CHECK(found.days[0] <= found.days[1]);
  CHECK_FALSE(found.extension.empty());  // a lever may be enough and cheaper than the grid's: see below
  CHECK(found.extension_success >= 0.8);
  CHECK(found.extension_cost.mean > 0.0);
  const std::string words = runway_words(found, farm);
  CHECK(words.find("the herd outgrows the rack about") == 0);
  CHECK(words.find(found.extension) != std::string::npos);
  const Runway again = runway(farm, {{"larger", larger}}, request);
  CHECK(again.days == found.days);

  const Runway alone = runway(farm, {}, request);
  CHECK(alone.days == found.days);
  CHECK((alone.extension.empty() || alone.extension_cost.mean >= found.extension_cost.mean));

  const Runway later = runway(larger, {}, request);
  CHECK((later.days[1] < 0 || later.days[1] > found.days[1]));
}

TEST_CASE("how long a rack lasts, in words: long enough, or outgrown with nothing that would do") {
  Scenario farm = test::goat_farm();
  farm.target.fill_rate = 0.95;
  Runway enough;
  enough.look_ahead = 730;
  enough.replications = 40;
  enough.days = {-1, -1, -1};
  enough.share.mean = 0.1;
  CHECK(runway_words(enough, farm) ==
        "the rack stays large enough for the growing herd in 90 % of runs over the 2 years looked ahead (too small: from some day on, what "
        "the last four weeks served stays below 95 %)");
  Runway outgrown = enough;
  outgrown.days = {100, 200, -1};
  const std::string words = runway_words(outgrown, farm);
  CHECK(words.find("the herd outgrows the rack about ") == 0);
  CHECK(words.find("nine in ten by after the years looked ahead") != std::string::npos);
  CHECK(words.find("Nothing that was tried would be enough then") != std::string::npos);
}

TEST_CASE("what would help a rack too small is found and named") {
  Scenario farm = test::goat_farm();
  farm.target.fill_rate = 0.9;
  farm.target.years = 0.8;
  farm.line.trays_per_batch = 3;
  const auto found = remedies(farm, 1, 24);
  REQUIRE_FALSE(found.empty());
  CHECK(found.front().reaches);
  CHECK(found.front().success >= 0.8);
  for (std::size_t i = 1; i < found.size(); ++i) CHECK(found[i - 1].cost_year <= found[i].cost_year);
  bool trays = false;
  for (const Remedy& remedy : found) trays = trays || remedy.setting.find("line.trays_per_batch = ") == 0;
  CHECK(trays);
  CHECK(remedy_words(found.front(), "EUR").find("the target holds in") != std::string::npos);

  farm.target.fill_rate = 1.0;  // nobody serves every gram through missed rounds
  farm.keeper.miss_chance = 0.2;
  const auto none = remedies(farm, 1, 12);
  REQUIRE(none.size() == 1);
  CHECK_FALSE(none.front().reaches);
}

TEST_CASE("where grain runs out and rounds are missed, a larger store with somebody who stands in is a remedy that neither is alone") {
  Scenario farm = test::goat_farm();
  farm.line.trays_per_batch = 5;
  farm.groups[0].animal_class = "goat-milking";
  farm.groups[0].ration = Kilograms(1.0);
  farm.target.fill_rate = 0.88;
  farm.target.years = 0.85;
  farm.keeper.miss_chance = 0.25;
  GrainSupply& barley = farm.grains[0];
  barley.store.reorder_point = Kilograms(20.0);
  barley.store.order_up_to = Kilograms(60.0);
  barley.store.bag = Kilograms(20.0);
  barley.store.least_order = Kilograms(20.0);
  barley.on_hand = Kilograms(40.0);
  barley.store.bin = Kilograms(80.0);
  barley.store.delivery = days(8);
  const auto found = remedies(farm, 1, 24);
  REQUIRE_FALSE(found.empty());
  CHECK(found.front().reaches);
  bool both = false;
  for (const Remedy& remedy : found) {
    UNSCOPED_INFO(remedy.setting << " " << remedy.success);
    both = both || (remedy.setting.find("keeper.second_keeper = true") != std::string::npos && remedy.setting.find("grain.barley.reorder = ") != std::string::npos);
  }
  CHECK(both);
}

TEST_CASE("where the keeper lacks time, more trays with more time are a remedy that neither is alone") {
  Scenario farm = test::goat_farm();
  farm.target.fill_rate = 0.9;
  farm.target.years = 0.8;
  farm.line.trays_per_batch = 3;
  farm.keeper.minutes_per_day = 18.0;
  const auto found = remedies(farm, 1, 24);
  REQUIRE_FALSE(found.empty());
  CHECK(found.front().reaches);
  for (const Remedy& remedy : found) {
    INFO(remedy.setting);
    CHECK(remedy.setting.find(" with ") != std::string::npos);
    CHECK(remedy.setting.find("keeper.minutes_per_day = ") != std::string::npos);
  }
}

TEST_CASE("levers change what they say, and a second rack doubles what carries it") {
  const Scenario farm = test::goat_farm();
  for (const Lever lever : single_levers()) {
    Scenario turned = farm;
    const auto keys = lever(turned, 1);
    REQUIRE_FALSE(keys.empty());
    for (const std::string& key : keys) {
      INFO(key);
      CHECK(get_key(turned, key) != get_key(farm, key));
    }
  }
  Scenario two = farm;
  const auto keys = second_rack(two, 1);
  CHECK(change_words(farm, two, keys).find("line.trays_per_batch = ") == 0);
  CHECK(two.rack.trays_per_tier == 2 * farm.rack.trays_per_tier);
  CHECK(two.keeper.soak_buckets == 2 * farm.keeper.soak_buckets);
  CHECK(two.water.pump.full_flow.value() == Approx(2.0 * farm.water.pump.full_flow.value()));
  CHECK(two.line.trays_per_batch > farm.line.trays_per_batch);
  Scenario beyond = farm;
  CHECK(second_rack(beyond, lever_steps).empty());

  Scenario cycle = farm;
  const int places = cycle.rack.tiers * cycle.rack.trays_per_tier;
  if (!shorter_cycle(cycle, 1).empty()) {
    CHECK(cycle.line.days_on_rack == farm.line.days_on_rack - 1);
    CHECK(cycle.line.trays_per_batch * cycle.line.batches_per_day * (cycle.line.days_on_rack + 1) <= places);
  }
  Scenario us = farm;
  us.units = Units::us;
  Scenario thicker = us;
  thicker.line.sowing_density = KilogramsPerSquareMetre(us.line.sowing_density.value() * 1.15);
  CHECK(change_words(us, thicker, {"line.sowing_density"}).find("lb/ft2") != std::string::npos);
}
