// The scenarios that ship: they read without a complaint, and say of themselves what their comments say. The figures
// may change when somebody edits a scenario on purpose, never otherwise.
#include <string>

#include "models/design/rack.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/paths.hpp"

using namespace rackwright;

namespace {

Scenario shipped(const std::string& name) {
  const Reading reading = read_scenario_file(std::string(RACKWRIGHT_SOURCE_DIR) + "/scenarios/" + name + ".toml");
  INFO(name << ": "
            << (reading.problems.empty() ? "" : reading.problems.front().key + " " + reading.problems.front().why));
  REQUIRE(reading.scenario.has_value());
  return *reading.scenario;
}

double designs(const Scenario& s) {
  double product = 1.0;
  for (const Choice& choice : s.choose.choices) product *= static_cast<double>(choice.values.size());
  return product;
}

double wanted(const Scenario& s) {
  double sum = 0.0;
  for (const Group& group : s.groups) sum += group.count * group.ration.value().value();
  return sum;
}

}  // namespace

TEST_CASE("every shipped scenario reads clean, resolves and warns") {
  for (const char* name : {"minimal", "hillside", "summer-heat"}) {
    const Scenario s = shipped(name);
    const Reading again = read_scenario(resolved_text(s));
    REQUIRE(again.scenario.has_value());
    CHECK(*again.scenario == s);
    CHECK(cautions(s).size() >= 8);
  }
}

TEST_CASE("the hillside farm") {
  const Scenario s = shipped("hillside");
  CHECK(s.groups.size() == 3);
  CHECK(wanted(s) == near(27.2, 0.05));  // kg fresh a day before kids
  CHECK(design::positions(s.rack) == 70);
  CHECK((s.line.sowing_density * design::tray_area(s.rack)).value() == near(0.90, 0.005));  // kg grain a tray
  CHECK(designs(s) == 432);
  CHECK(s.climate.mean.mean.value() == near(17.07, 0.05));      // fit of the printed normals
  CHECK(s.climate.mean.amplitude.value() == near(8.65, 0.25));  // twelve means flatten the daily wave a little
  CHECK(s.climate.mean.peak_day == near(204.8, 1.5));
  CHECK(s.line.grains == std::vector<std::string>{"barley", "wheat"});
  CHECK(s.water.emitter.reference_flow.value() == near(53.0, 0.01));
  CHECK(s.grains.front().price_per_kg == Approx(0.36));
}

TEST_CASE("the heat wave") {
  const Scenario s = shipped("summer-heat");
  REQUIRE(s.hard_times.size() == 1);
  CHECK(s.hard_times[0].first_day == 47.0);  // 18 July from 1 June
  CHECK(change_of(s.hard_times[0]).value() == 9.0);
  CHECK(s.run.length.value() == 120.0 * 24.0);
  CHECK(designs(s) == 288);
  CHECK(wanted(s) == near(27.2, 0.05));
}

TEST_CASE("the minimal scenario is short") {
  const Scenario s = shipped("minimal");
  CHECK(wanted(s) == near(12.6, 0.05));
  CHECK(s.line.grains == std::vector<std::string>{"barley"});
}
