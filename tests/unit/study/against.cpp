#include "sim/study/against.hpp"

#include <cmath>
#include <memory>
#include <variant>

#include "sim/scenario/read.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/run.hpp"
#include "sim/study/sweep.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

Settings read(const std::string& text) {
  auto result = read_change(test::goat_farm(), text);
  REQUIRE(std::holds_alternative<Settings>(result));
  return std::get<Settings>(result);
}

std::string why(const std::string& text) {
  auto result = read_change(test::goat_farm(), text);
  REQUIRE(std::holds_alternative<Problem>(result));
  return std::get<Problem>(result).why;
}

}  // namespace

TEST_CASE("changes are read as set, added, taken away, by a share and multiplied, with commas in lists left alone") {
  CHECK(read("line.soak=8 h") == Settings{{"line.soak", "8 h"}});
  CHECK(read("group.goats.count+=5") == Settings{{"group.goats.count", "11"}});
  CHECK(read("line.soak-=4 h,rack.tiers+=1") == Settings{{"line.soak", "6 h"}, {"rack.tiers", "6"}});
  CHECK(read("line.soak*=0.5") == Settings{{"line.soak", "5 h"}});
  CHECK(read("line.soak+=20 %") == Settings{{"line.soak", "12 h"}});
  CHECK(read("line.grains=barley, oat, line.soak=8 h") == Settings{{"line.grains", "barley, oat"}, {"line.soak", "8 h"}});
}

TEST_CASE("a change that means nothing is refused with its reason") {
  CHECK(why("line.soak") == "is no change: write KEY=VALUE, such as line.soak=8 h");
  CHECK(why("line.soak+=10 kg") == "must be in the unit of \"10 h\", or a share such as 20 %");
  CHECK(why("line.soak+=much") == "is not a number to change \"10 h\" by");
  CHECK(why("line.sock+=2 h") == "is not a known key");
  CHECK(why("climate.monthly_mean+=1 degC,2 degC,3 degC,4 degC,5 degC,6 degC,7 degC,8 degC,9 degC,8 degC,7 degC,6 degC") == "has no value to change");  // it states other keys and is not kept
  for (const char* text : {"run.random_seed=2", "run.replications=4", "title=x", "units=us", "currency=USD", "choose.rack.tiers=4, 5", "run.length=100 d", "run.start=2026-06-01"}) {
    INFO(text);
    const std::string key(text, std::string(text).find('='));
    CHECK(why(text) == why_fixed(key));
    CHECK_FALSE(why_fixed(key).empty());
  }
  CHECK(why("run.length*=0.5") == why_fixed("run.length"));
  CHECK(why("target.fill_rate=90 %").find("what is asked") != std::string::npos);
  CHECK(why("line.soak=8 h,line.soak=9 h").find("is set twice in one change") == 0);
  const auto problems = changed(test::goat_farm(), {{"rack.tiers", "0"}});
  CHECK(std::holds_alternative<Problems>(problems));
}

TEST_CASE("keys of the usual water network are compared only where it is the one that is played") {
  Scenario own = test::goat_farm();
  own.water.nodes = {{"tank", water::NodeKind::source, Metres(0.0)}};
  for (const char* text : {"water.feed=cascade", "water.riser_diameter=3 cm", "water.branch_diameter*=2", "water.run_length+=1 m"}) {
    INFO(text);
    CHECK(std::holds_alternative<Settings>(read_change(test::goat_farm(), text)));
    const auto refused = read_change(own, text);
    REQUIRE(std::holds_alternative<Problem>(refused));
    CHECK(std::get<Problem>(refused).why.find("while [[water.node]] draws the network") != std::string::npos);
    const std::string key = std::get<Problem>(refused).key;
    Problems problems;
    read_axis(own, key + "=1,2", SweepMethod::grid, problems);
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].key == key);
    CHECK(problems[0].why == why_fixed(own, key));
  }
  CHECK(why_fixed(own, "water.tank").empty());
}

TEST_CASE("what measured weather goes before cannot vary beside it") {
  Scenario farm = test::goat_farm();
  climate::Record record{2001, std::vector<float>(365, 25.0F), std::vector<float>(365, 10.0F), {}};
  farm.weather.record = std::make_shared<const climate::RecordedWeather>(climate::prepare(record, farm.climate.mean));
  for (const char* text : {"climate.mean=5 degC", "climate.range_mean+=2 K", "climate.monthly_mean=1 degC"}) {
    INFO(text);
    const auto refused = read_change(farm, text);
    REQUIRE(std::holds_alternative<Problem>(refused));
    CHECK(std::get<Problem>(refused).why.find("the measured days go before it") != std::string::npos);
  }
  CHECK(std::holds_alternative<Settings>(read_change(farm, "climate.latitude=40 degree")));
  CHECK(std::holds_alternative<Settings>(read_change(test::goat_farm(), "climate.mean=5 degC")));
  Problems problems;
  static_cast<void>(read_axis(farm, "climate.mean=5 degC,30 degC", SweepMethod::grid, problems));
  REQUIRE(problems.size() == 1);
  CHECK(problems.front().why == why_fixed(farm, "climate.mean"));
  CHECK(why_fixed("climate.mean").empty());
  CHECK(why_fixed(farm, "run.start") == why_fixed("run.start"));
}

TEST_CASE("a verdict needs an interval on one side of zero") {
  CHECK(verdict({1.0, 0.5, 1.5, 0, 0, 0}, 1) == "better");
  CHECK(verdict({1.0, 0.5, 1.5, 0, 0, 0}, -1) == "worse");
  CHECK(verdict({-1.0, -1.5, -0.5, 0, 0, 0}, 0) == "less");
  CHECK(verdict({1.0, -0.5, 2.5, 0, 0, 0}, 1) == "no difference shown");
  CHECK(verdict({0.0, 0.0, 0.0, 0, 0, 0}, 1) == "no difference shown");
}

TEST_CASE("paired differences are those of the two runs replication by replication, whatever the threads") {
  const Scenario before = test::goat_farm();
  Scenario after = before;
  after.line.trays_per_batch = 2;
  const Comparison found = compare(before, after, {.random_seed = 4, .replications = 20, .threads = 2});
  REQUIRE(found.replications == 20);
  std::vector<double> filled[2];
  for (const int which : {0, 1}) {
    const Plan plan = make_plan(which == 0 ? before : after);
    run_replications(plan, {.random_seed = 4, .replications = 20, .threads = 1}, nullptr, [&](const Block& block) {
      for (const Outcome& o : block.outcomes) filled[which].push_back(o.fill_rate);
    });
  }
  Moments difference;
  for (std::size_t r = 0; r < 20; ++r) difference.add(filled[1][r] - filled[0][r]);
  CHECK(found.columns[0].difference.mean == Approx(difference.mean()));
  CHECK(found.columns[0].difference.high == Approx(mean_estimate(difference).high));
  CHECK(found.columns[0].difference.mean < 0.0);
  const Comparison alone = compare(before, after, {.random_seed = 4, .replications = 20, .threads = 1});
  for (std::size_t c = 0; c < found.columns.size(); ++c)
    CHECK(alone.columns[c].difference.mean == found.columns[c].difference.mean);
  const Comparison same = compare(before, before, {.random_seed = 4, .replications = 8, .threads = 2});
  for (const Difference& d : same.columns) CHECK((d.difference.low == 0.0 && d.difference.high == 0.0));
}
