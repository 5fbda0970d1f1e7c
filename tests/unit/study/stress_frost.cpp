// Hard times in which frost takes part: what is tried against it.
#include <algorithm>
#include <optional>
#include <set>
#include <string_view>

#include "sim/study/stress.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

/// The farm's one hard time.
StressResult through_it(const Scenario& farm) { return stress(farm, {.pairs = {.random_seed = 3, .replications = 16, .threads = 2}, .names = {farm.hard_times.at(0).name}}); }

}  // namespace

TEST_CASE("a power cut that freezes a heated room is met with insulation in steps and less air, not with a tank that freezes as well") {
  Scenario farm = test::goat_farm();
  farm.run.start = std::chrono::year(2026) / std::chrono::November / 1;
  farm.run.length = days(120);
  farm.climate.mean.mean = Celsius(4.5);
  farm.climate.mean.amplitude = Kelvins(11.0);
  farm.room.floor_area = SquareMetres(8.0);
  farm.room.height = Metres(2.2);
  farm.room.shell_area = SquareMetres(34.0);
  farm.room.shell = Transmittance(0.5);
  farm.room.air_changes = 0.7;
  farm.room.heat_capacity = HeatCapacity(1500.0);  // a light shed
  farm.room.heater = Watts(1000.0);
  farm.spoilage.mould_rate = farm.spoilage.sour_rate = 1e-6;  // what a warmer room spoils is not in question here
  HardTime cut;
  cut.name = "cut";
  cut.kind = HardTimeKind::power_cut;
  cut.first_day = 75.0;  // 15 January
  cut.length = days(1.5);
  farm.hard_times = {cut};
  const StressResult result = through_it(farm);
  REQUIRE(result.hard_times.size() == 1);
  const Struck& struck = result.hard_times[0];
  REQUIRE(struck.freezes);
  REQUIRE(struck.effects.fill_rate.high < 0.0);
  std::set<std::string_view> tried;
  double most = 0.0;
  for (const Trial& t : result.trials) {
    if (!t.what.name.ends_with(" more insulation")) continue;
    INFO(t.what.name);
    tried.insert(t.what.name);
    CHECK(t.what.priced);
    CHECK(t.effects.fill_rate.low > 0.0);
    most = std::max(most, t.effects.fill_rate.mean);
  }
  CHECK(tried == std::set<std::string_view>{"5 cm more insulation", "10 cm more insulation", "20 cm more insulation"});
  CHECK(most > -0.9 * struck.effects.fill_rate.mean);  // nearly all of the loss
  for (const Trial& t : result.trials) {
    CHECK_FALSE(t.what.name.starts_with("a tank"));
    tried.insert(t.what.name);
  }
  CHECK(tried.contains("half the air"));
  CHECK(result.trials.front().what.name.ends_with("insulation"));

  farm.room.heater = Watts(0.0);  // and one that freezes nothing as before
  farm.climate.mean.mean = Celsius(18.0);
  const StressResult warm = through_it(farm);
  CHECK_FALSE(warm.hard_times.at(0).freezes);
  CHECK(std::any_of(warm.trials.begin(), warm.trials.end(), [](const Trial& t) { return t.what.name.starts_with("a tank"); }));
}

TEST_CASE("what is tried against frost is a change the scenario takes, in either unit, and none is tried twice") {
  for (const Units units : {Units::us, Units::metric}) {
    Scenario farm = test::goat_farm();
    farm.units = units;
    for (std::size_t k = 0; k < hard_time_names.size(); ++k) {
      std::set<std::string_view> names;
      for (const Countermeasure& what : countermeasures(farm, static_cast<HardTimeKind>(k), std::nullopt, true)) {
        INFO(hard_time_names[k] << ": " << what.name);
        CHECK(names.insert(what.name).second);
        const auto after = changed(farm, what.settings);
        REQUIRE(std::holds_alternative<Scenario>(after));
        CHECK_FALSE(std::get<Scenario>(after) == farm);
      }
      CHECK(names.contains(units == Units::us ? "8 in more insulation" : "20 cm more insulation"));
    }
  }
}
