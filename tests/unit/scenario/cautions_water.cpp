// What is said of water: tiers that get too little and by which pipe, a tank that runs empty, and keys that an own network leaves no say.
#include "sim/scenario/cautions_water.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/watering_pipes.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Scenario farm(const std::string& text, const std::vector<std::string>& settings) {
  const Reading reading = read_scenario(text, settings);
  for (const Problem& problem : reading.problems) FAIL(problem.key << " " << problem.value << ": " << problem.why);
  return *reading.scenario;
}
Scenario usual(const std::vector<std::string>& settings) { return farm(sample::small, settings); }
Scenario own(const std::vector<std::string>& settings) { return farm(sample::every_list, settings); }

/// The first caution that holds these words; empty where none does.
std::string told(const Scenario& s, const std::string& of) {
  std::vector<std::string> all;
  water_cautions(s, all);
  const auto found = std::find_if(all.begin(), all.end(), [&](const std::string& one) { return one.find(of) != std::string::npos; });
  return found == all.end() ? "" : *found;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::string why(const std::vector<std::string>& settings, const std::string& key) {
  for (const Problem& problem : read_scenario(sample::every_list, settings).problems)
    if (problem.key == key) return problem.why;
  return "";
}

/// On whom the thin pipe is: in the sample the fifth goes to the highest tier, and other pipes are 16 mm or 20 mm wide.
const std::vector<std::string> thin{"water.pipe.5.diameter=2 mm", "water.on_time=4 min"};

}  // namespace

TEST_CASE("a tier that a thin pipe starves is told by that pipe, and a wider one comes before longer pumping") {
  const std::string said = told(own(thin), "Too little water");
  CHECK(has(said, "the mats of tier 4 ("));
  CHECK(has(said, "On the way to tier 4 most is lost in the pipe from foot to top, 2 mm wide: "));
  CHECK(has(said, "With 16 mm there every tier would get all that its mats drink."));
  CHECK(said.find("With 16 mm") < said.find("Instead you may let the pump run "));
  CHECK(told(own({"water.pipe.5.diameter=16 mm", "water.on_time=4 min"}), "Too little water").empty());
  auto us = thin;
  us.emplace_back("units=us");
  CHECK(has(told(own(us), "Too little water"), "0.079 in wide"));
}

TEST_CASE("the pipe that is told costs most, and with the wider one the tier gets what was promised") {
  const Scenario s = own(thin);
  const Watering before = watering_of(s);
  REQUIRE(driest_tier(before).tier == 3);
  const Widening widening = widening_of(s, before);
  REQUIRE(widening.pipes.size() == 1);
  CHECK(widening.pipes[0].pipe == 4);
  CHECK(widening.pipes[0].to.value() == Approx(0.016));
  CHECK(widening.share > 2.0 * driest_tier(before).share);
  CHECK(widening.share == Approx(driest_tier(watering_of(own({"water.pipe.5.diameter=16 mm", "water.on_time=4 min"}))).share));
}

TEST_CASE("pipes that are as wide as any other are not told to be wider, and where width is not all the pump is told besides") {
  const Scenario wide = own({"water.on_time=6 s"});
  CHECK(widening_of(wide, watering_of(wide)).pipes.empty());
  CHECK(has(told(wide, "Too little water"), " Let the pump run "));
  const std::string both = told(own({"water.pipe.5.diameter=2 mm", "water.on_time=12 s"}), "Too little water");
  CHECK(has(both, "every tier would get "));
  CHECK(has(both, " % or more. Besides, let the pump run "));
  const std::string line = told(usual({"water.branch_diameter=4 mm", "water.on_time=1 min"}), "Too little water");
  CHECK(has(line, "(water.branch_diameter), 4 mm wide"));
  CHECK(has(line, "With 20 mm there "));
}

TEST_CASE("a tank that runs empty is told in minutes, with less water before a larger tank, which then lasts") {
  const std::vector<std::string> small{"water.on_time=30 min", "water.tank=20 L", "water.top_up=by-hand"};
  const std::string said = told(own(small), "it runs empty");
  CHECK(has(said, "The tank of 20 L lasts "));
  CHECK(has(said, " min and is filled every 24 h"));
  CHECK_FALSE(has(said, "lasts 0"));
  const auto value = [&](const std::string& before) { return std::stod(said.substr(said.find(before) + before.size())); };
  const double minutes = value("Let less run: water.on_time = \""), litres = value("Besides, take a tank of ");
  CHECK(minutes < 10.0);
  const std::vector<std::string> mended{"water.on_time=" + std::to_string(minutes) + " min", "water.tank=" + std::to_string(litres) + " L", "water.top_up=by-hand"};
  CHECK(told(own(mended), "runs empty").empty());
  CHECK(told(own(mended), "Too little water").empty());
  // Where water returns, what the tank loses does not hang on how long the pump runs.
  auto returning = small;
  returning.insert(returning.end(), {"water.recirculating=true", "water.tank=2 L"});
  const std::string round = told(own(returning), "it runs empty");
  CHECK(has(round, " Take a tank of "));
  CHECK_FALSE(has(round, "Let less run"));
  // Longer pumping is no remedy where the tank gives no more.
  CHECK(has(told(own({"water.on_time=6 s", "water.tank=1 L", "water.top_up=by-hand"}), "Too little water"), "more water than the tank gives, which runs empty as it is"));
  CHECK(has(told(own({"water.tank=20 L", "water.top_up=by-hand", "water.on_time=1 min", "water.cycles_per_day=1", "water.top_up_every=100 h"}), "it runs empty"), " h and is filled every 100 h"));
}

TEST_CASE("keys of the usual network are refused as choices beside an own one, and told where they are stated") {
  for (const std::string key : {"water.feed=parallel, cascade", "water.riser_diameter=10 mm, 20 mm", "water.branch_diameter=10 mm, 20 mm", "water.run_length=4 m, 8 m"}) {
    INFO(key);
    const std::string name = "choose." + key.substr(0, key.find('='));
    CHECK(has(why({"choose." + key}, name), "cannot vary while [[water.node]] draws the network"));
    CHECK(read_scenario(sample::small, {"choose." + key}).problems.empty());
  }
  CHECK(told(own({}), "beside [[water.node]]").empty());
  CHECK(told(usual({"water.feed=cascade"}), "beside [[water.node]]").empty());
  CHECK(has(told(own({"water.feed=cascade"}), "beside [[water.node]]"), "water.feed changes nothing"));
  CHECK(has(told(own({"water.run_length=8 m", "water.branch_diameter=2 cm"}), "beside [[water.node]]"), "water.branch_diameter and water.run_length change nothing"));
  const std::string kit = "[[kit]]\npart = \"pipes\"\nname = \"wide\"\nsets = [\"water.riser_diameter = 3 cm\", \"water.tank = 200 L\"]\n";
  CHECK(has(told(farm(sample::every_list + kit, {}), "beside [[water.node]]"), "water.riser_diameter (in kit wide) changes nothing"));
}

TEST_CASE("a joint that water passes by suction is told, and one that it is pressed through is not") {
  CHECK(told(own({}), "suction").empty());
  const Scenario high = own({"water.node.foot.height=2.9 m"});
  const Watering water = watering_of(high);
  REQUIRE(water.solution.head[1] < Metres(2.9));
  CHECK(has(told(high, "suction"), "foot lies "));
}

TEST_CASE("times of the pump are told in plain digits, and none is advised that may not be stated") {
  int hundreds = 0;  // of minutes, once told as 1.2e+02
  for (int litres = 1; litres <= 400; litres *= 2) {
    for (const char* on : {"0.001 h", "1 min", "20 min", "6 h"}) {
      for (const char* cycles : {"0.5", "4", "200"}) {
        for (const char* flow : {"0.5 L/h", "1 L/h", "10 L/h"}) {
          const Scenario s = usual({"water.on_time=" + std::string(on), "water.cycles_per_day=" + std::string(cycles), "water.top_up=by-hand", "water.tank=" + std::to_string(litres) + " L",
                                    "water.emitter_flow=" + std::string(flow)});
          std::vector<std::string> all;
          water_cautions(s, all);
          for (const std::string& one : all) {
            INFO(one);
            CHECK_FALSE(has(one, "e+"));
            const auto lasts = one.find(" lasts "), min = one.find(" min and is filled");
            hundreds += lasts != std::string::npos && min != std::string::npos && std::stod(one.substr(lasts + 7)) >= 100.0 ? 1 : 0;
            CHECK_FALSE(has(one, "inf"));
            for (const std::string key : {"water.on_time", "water.cycles_per_day"}) {
              const auto there = one.find(key + (has(one, key + " = ") ? " = " : "="));
              if (there == std::string::npos) continue;
              std::string value = one.substr(one.find('=', there) + 1);
              // "key=value" of a command, or key = "value" and key = value of a sentence
              if (there > 0 && one[there - 1] == '"') value = value.substr(0, value.find('"'));
              else value = has(value.substr(0, 2), "\"") ? value.substr(value.find('"') + 1, value.find('"', value.find('"') + 1) - value.find('"') - 1) : value.substr(0, value.find_first_not_of("0123456789"));
              INFO(key << " " << value);
              Scenario tried = s;
              CHECK_FALSE(set_key(tried, key, value).has_value());
            }
          }
        }
      }
    }
  }
  CHECK(hundreds > 0);
}

TEST_CASE("where the pump may run no longer more waterings are advised, which do, and where it never stops more water at once") {
  const std::vector<std::string> seldom{"water.cycles_per_day=0.5", "water.on_time=30 min", "water.emitter_flow=1 L/h"};
  const std::string said = told(usual(seldom), "Too little water"), often = "--against \"water.cycles_per_day=";
  CHECK_FALSE(has(said, "the pump run"));
  REQUIRE(has(said, often));
  CHECK(has(said, " times as often: see "));
  auto mended = seldom;
  mended[0] = "water.cycles_per_day=" + std::to_string(std::stoi(said.substr(said.find(often) + often.size())));
  CHECK(told(usual(mended), "Too little water").empty());
  CHECK(has(told(usual({"water.cycles_per_day=4", "water.on_time=6 h", "water.emitter_flow=0.5 L/h", "water.emitters_per_tier=1", "water.emitter_head=50 m"}), "Too little water"), "Let more water come at once, with larger or more emitters"));
}

TEST_CASE("water that returns and is never renewed is cautioned against") {
  const auto warns = [](const std::vector<std::string>& settings) {
    const std::vector<std::string> all = cautions(usual(settings));
    return std::any_of(all.begin(), all.end(), [](const std::string& one) { return has(one, "salts and germs gather"); });
  };
  CHECK(warns({"water.recirculating=true", "water.renewals_per_week=0"}));
  CHECK_FALSE(warns({"water.recirculating=true", "water.renewals_per_week=1"}));
  CHECK_FALSE(warns({"water.recirculating=false", "water.renewals_per_week=0"}));
}
