// What is said of pumps, timers and tanks: that it can be so, that what is advised does what is said of it, and that tiers share what is poured.
#include "sim/scenario/cautions_pump.hpp"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "sim/scenario/cautions.hpp"
#include "sim/scenario/cautions_water.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/watering_pipes.hpp"
#include "tests/catch.hpp"
#include "tests/paths.hpp"

using namespace rackwright;

namespace {

/// The shipped farm: 4 tiers of 10 trays, 8 days, 4 trays a day, on a ladder.
Reading read_with(const std::vector<std::string>& settings) { return read_scenario_file(std::string(RACKWRIGHT_SOURCE_DIR) + "/scenarios/minimal.toml", settings); }

Scenario farm(const std::vector<std::string>& settings) {
  const Reading reading = read_with(settings);
  for (const Problem& problem : reading.problems) FAIL(problem.key << " " << problem.value << ": " << problem.why);
  return *reading.scenario;
}

std::string told(const std::vector<std::string>& settings, const std::string& of) {
  std::vector<std::string> all;
  water_cautions(farm(settings), all);
  const auto found = std::find_if(all.begin(), all.end(), [&](const std::string& one) { return one.find(of) != std::string::npos; });
  return found == all.end() ? "" : *found;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// What stands between two pieces of a text.
std::string cut(const std::string& text, const std::string& before, const std::string& after) {
  const auto from = text.find(before);
  if (from == std::string::npos) return "";
  const auto start = from + before.size();
  return text.substr(start, text.find(after, start) - start);
}

const std::string cascade = "water.feed=cascade";

/// A rack so high that its top tier lies at 2.4 m.
std::vector<std::string> high(const std::string& shutoff, const std::vector<std::string>& more = {}) {
  std::vector<std::string> all{"rack.tiers=7", "room.height=3 m", "water.pump_shutoff=" + shutoff};
  all.insert(all.end(), more.begin(), more.end());
  return all;
}

}  // namespace

TEST_CASE("in a cascade lower tiers get what upper ones leave, and all drink no more than is poured") {
  // Shares at their thirstiest, the lowest first. While water fell on every tier as if nobody above drank, three minutes gave all enough, and one 100, 78, 41 and 49 %.
  const std::vector<double> three{1.0, 0.77, 0.82, 1.0}, one{0.65, 0.19, 0.21, 0.49};
  for (const auto& [on_time, expected] : {std::pair("3 min", three), std::pair("1 min", one)}) {
    const Watering water = watering_of(farm({cascade, std::string("water.on_time=") + on_time}));
    double falls = water.solution.pump_flow.value() * 4.0 * (expected[3] == 1.0 ? 0.05 : 1.0 / 60.0);
    for (std::size_t tier = 4; tier-- > 0;) {
      INFO(on_time << " tier " << tier + 1);
      CHECK(water.tiers[tier].falls == Approx(falls));
      CHECK(water.tiers[tier].share() == Approx(expected[tier]).margin(0.006));
      falls -= std::min(water.tiers[tier].need, 0.5 * falls);
    }
  }
  for (const char* on_time : {"15 s", "1 min", "3 min", "10 min"}) {
    const Scenario s = farm({cascade, std::string("water.on_time=") + on_time});
    const Watering water = watering_of(s);
    const double poured = water.solution.pump_flow.value() * s.water.schedule.cycles_per_day * s.water.schedule.on_time.value();
    double most = 0.0, usual = 0.0;
    for (const TierWater& tier : water.tiers) {
      most += std::min(tier.need, tier.supplied);
      usual += std::min(tier.usual, tier.usual_supplied);
    }
    CHECK(most <= poured);
    CHECK(usual <= poured);
  }
}

TEST_CASE("the pump time that is advised suffices, in a cascade too, and so little that it changes nothing is not advised") {
  for (const std::string feed : {"parallel", "cascade"}) {
    int advised = 0, little = 0;
    for (double minutes = 0.5; minutes < 4.0; minutes += 0.05) {
      const std::string now = "water.on_time=" + std::to_string(minutes) + " min", said = told({"water.feed=" + feed, now}, "Too little water");
      INFO(feed << " " << now << ": " << said);
      CHECK_FALSE(has(said, "1.0 times"));
      const std::string better = cut(said, "--against \"", "\"");
      if (!better.empty()) {
        ++advised;
        CHECK(std::stod(cut(better, "=", " ")) >= 1.05 * minutes - 1e-6);
        CHECK(told({"water.feed=" + feed, better}, "Too little water").empty());
      } else if (!said.empty()) {
        ++little;
        CHECK(has(said, "So little is lacking"));
      }
    }
    CHECK(advised > 3);
    CHECK(little > 0);
  }
}

TEST_CASE("what is poured in a cascade is told once, not once a tier") {
  const std::string said = told({cascade, "water.on_time=1 h"}, "runs past the mats");
  const Watering water = watering_of(farm({cascade}));
  REQUIRE_FALSE(said.empty());
  CHECK(std::stod(cut(said, "past the mats: ", " L are poured")) == Approx(4.0 * water.solution.pump_flow.value()).epsilon(0.01));
}

TEST_CASE("a tank filled by hand is filled at rounds only, and is told by the gap between them") {
  const std::vector<std::string> base{"water.top_up=by-hand", "water.tank=10 L", "water.on_time=1 min"};
  const auto with = [&](const std::string& every, const std::string& tank = "") {
    auto all = base;
    all.push_back("water.top_up_every=" + every);
    if (!tank.empty()) all[1] = "water.tank=" + tank;
    return all;
  };
  const Scenario s = farm(base);
  const double morning = s.keeper.morning.value(), evening = s.keeper.evening.value(), night = 24.0 - (evening - morning);
  REQUIRE(evening - morning < night);
  CHECK(fill_gap(s, Hours(4.0)).value() == Approx(night));
  CHECK(fill_gap(s, Hours(24.0)).value() == Approx(24.0));
  CHECK(fill_gap(s, Hours(26.0)).value() == Approx(24.0 + night));  // the round an hour too soon is let go by
  REQUIRE(watering_of(s).tank_lasts < Hours(8.0));
  for (const char* every : {"1 h", "4 h", "12 h", "24 h", "30 h"}) {
    const std::string said = told(with(every), "it runs empty");
    INFO(every << ": " << said);
    REQUIRE_FALSE(said.empty());
    CHECK_FALSE(has(said, "water.top_up_every"));  // no interval would do: rounds are too far apart
    CHECK(told(with(every, cut(said, "Take a tank of ", " or more")), "it runs empty").empty());
  }
  // A tank that lasts a night but no day.
  const std::string said = told(with("24 h", "25 L"), "it runs empty");
  const std::string every = cut(said, "fill it every ", " (water.top_up_every)");
  REQUIRE_FALSE(every.empty());
  CHECK(told(with(every, "25 L"), "it runs empty").empty());
}

TEST_CASE("a pump of too little head is refused by its head, with one that does, and one of too little flow by its flow") {
  for (const char* shutoff : {"2 m", "2.4 m", "2.41 m", "2.45 m"}) {
    const Reading reading = read_with(high(shutoff));
    INFO(shutoff);
    REQUIRE(reading.problems.size() == 1);
    CHECK(reading.problems[0].key == "water.pump_shutoff");
    const std::string better = cut(reading.problems[0].suggestion, "a pump that lifts ", " or more");
    REQUIRE_FALSE(better.empty());
    CHECK(read_with(high(better)).problems.empty());
  }
  const Reading thin = read_with({"water.emitters_per_tier=40"});
  REQUIRE(thin.problems.size() == 1);
  CHECK(thin.problems[0].key == "water.pump_full_flow");
}

TEST_CASE("where the pump hardly lifts to a tier, more head comes before longer pumping") {
  const std::vector<std::string> more{"water.emitters_per_tier=1", "water.pump_full_flow=4000 L/h"};
  const std::string said = told(high("2.5 m", more), "Too little water");
  CHECK(has(said, "The pump hardly lifts to tier 7: of the 2.5 m that it can, 2.1 cm are left there"));
  CHECK(said.find("(water.pump_shutoff)") < said.find("let the pump run"));
  const std::string better = cut(said, "With a pump that lifts ", " (water.pump_shutoff)"), share = cut(said, "every tier would get ", " %");
  REQUIRE_FALSE(share.empty());
  CHECK(100.0 * driest_tier(watering_of(farm(high(better, more)))).share == Approx(std::stod(share)).margin(0.6));
  auto both = more;
  both.push_back(cut(said, "--against \"", "\""));
  CHECK(told(high(better, both), "Too little water").empty());
  CHECK_FALSE(has(told({"water.on_time=6 s"}, "Too little water"), "hardly lifts"));
}

TEST_CASE("a pump that gives the water more power than it takes is told, and mains without a pump are not") {
  const std::string said = told({"water.pump_power=6 W"}, "No pump is like that");
  for (const char* key : {"water.pump_shutoff", "water.pump_full_flow", "water.pump_power"}) CHECK(has(said, key));
  CHECK(has(said, "up to 6.3 W"));  // 9.81 kN/m3, 3 m, 2 m3/h, 0.385 of it
  CHECK(told({"water.pump_power=7 W"}, "No pump is like that").empty());
  CHECK(told({"water.pump_power=1 W"}, "No pump is like that").empty());
}

TEST_CASE("emitters that regulate themselves are told where there is too little head for it") {
  const std::string said = told({"water.emitter_exponent=0", "water.emitter_head=10 m"}, "regulate themselves");
  CHECK(has(said, "reckoned with 100 % of their flow"));
  CHECK(has(said, "water.pump_shutoff"));
  CHECK(told({"water.emitter_exponent=0", "water.emitter_head=1 m"}, "regulate themselves").empty());
  CHECK(told({"water.emitter_exponent=0.5", "water.emitter_head=10 m"}, "regulate themselves").empty());
}

TEST_CASE("a timer that waters all day, and one that waters too seldom, are told") {
  CHECK(has(told({"water.on_time=6 h"}, "all day"), "water.cycles_per_day"));
  CHECK(told({"water.on_time=5.9 h"}, "all day").empty());
  const std::string said = told({"water.cycles_per_day=0.5", "water.on_time=4 h"}, "Between waterings");
  CHECK(has(said, "for 44 h"));  // by `evaluate dry-spell dry=44h temperature=18degC`: 1.83 d and 37 %
  CHECK(has(said, "1.8 d of growth and 37 % of the sprouts"));
  CHECK(has(told({"water.cycles_per_day=1"}, "Between waterings"), "10 % of the sprouts"));
  CHECK(told({"water.cycles_per_day=2"}, "Between waterings").empty());
}

TEST_CASE("a tank above the rack is told by its weight, and a generator by its exhaust") {
  const auto told = [](const std::vector<std::string>& settings) {
    std::string all;
    for (const std::string& one : cautions(farm(settings))) all += one + "\n";
    return all;
  };
  // What is poured a day, as `check` tells it: 4 waterings of 3 min.
  const Watering watering = watering_of(farm({}));
  const double a_day = watering.solution.pump_flow.value() * 0.2;
  const std::string weight = fmt::format("for 12 h holds some {:.0f} kg of water", 0.5 * a_day);
  const std::string all = told({"water.header_tank=12 h", "water.battery=24 h"});
  INFO(all);
  CHECK(all.find(weight) != std::string::npos);
  CHECK(all.find("A generator runs outdoors only") != std::string::npos);
  CHECK(told({}).find("tank above the rack") == std::string::npos);
  CHECK(told({}).find("A generator") == std::string::npos);
}
