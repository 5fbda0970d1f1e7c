// What is proposed where heating is dear: something that is not there already, in the keeper's units, or nothing.
#include "sim/report/parts.hpp"
#include "tests/catch.hpp"
#include "tests/unit/report/html_sample.hpp"

using namespace rackwright;
using namespace rackwright::report;

namespace {

/// A stone barn with `room` as its insulation and air, of 1000 a year of which 700 are for its heater.
std::string words(const std::string& room, const char* units = "metric", double heating = 700.0, double cooling = 0.0) {
  study::Summary summary{Target{}};
  for (std::uint32_t i = 0; i < 5; ++i) {
    Outcome o = results::sample::outcome(i);
    o.cost_total = 1000.0;
    summary.add(o);
  }
  results::ResultFile file;
  file.header = results::sample::header("simulate", 5);
  file.header.display_units = units;
  file.arrays = results::summary_arrays(summary);
  file.arrays["scenario/resolved"] = results::text("[room]\nfloor_area = \"16 m2\"\nheight = \"2.5 m\"\nshell_area = \"60 m2\"\nshell = \"1.8 W/m2/K\"\ninsulation_conductivity = "
                                                   "\"0.037 W/m/K\"\n" + room);
  return heating_words(file, heating, cooling);
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a bare wall is to be insulated, in centimetres or inches") {
  CHECK(words("insulation = \"0 m\"\nair_changes = 1\n") ==
        "Heating is 70 % of the year's cost, more than a third: insulate, and compare with `rackwright simulate farm.toml --against \"room.insulation=5 cm\" --out against.h5`.");
  CHECK(has(words("insulation = \"0 m\"\nair_changes = 1\n", "us"), "--against \"room.insulation=2 in\" --out against.h5`."));
}

TEST_CASE("insulation that is there is named, and what is proposed is thicker") {
  // 60 m2 of 1.8 W/m2/K with 5 cm of 0.037 W/m/K: 31.5 W/K; the air of 40 m3 once an hour 13.2 W/K (worked out by hand).
  const std::string metric = words("insulation = \"0.05 m\"\nair_changes = 1\n");
  INFO(metric);
  CHECK(has(metric, "70 % of the warmth goes through the walls, with 5 cm of insulation; thicker may pay"));
  CHECK(has(metric, "room.insulation=10 cm"));
  const std::string us = words("insulation = \"0.1016 m\"\nair_changes = 0.5\n", "us");
  INFO(us);
  CHECK(has(us, "with 4 in of insulation"));
  CHECK(has(us, "room.insulation=6 in"));
  CHECK_FALSE(has(us, "cm"));
}

TEST_CASE("where most goes out with the air, fewer air changes are proposed, with what they cost in damp") {
  const std::string said = words("insulation = \"0.1 m\"\nair_changes = 3\n");  // 39.6 W/K of air, 18.4 of wall
  INFO(said);
  CHECK(has(said, "68 % of the warmth goes out with the air, which is renewed 3 times an hour"));
  CHECK(has(said, "mats mould sooner"));
  CHECK(has(said, "room.air_changes=1.5"));
  CHECK_FALSE(has(said, "room.insulation="));
  CHECK(has(words("insulation = \"0.1 m\"\nair_changes = 1.4\n"), "room.air_changes=1\""));  // no less than a room of wet mats needs
}

TEST_CASE("nothing is said where nothing sensible is left, or heating is no third of the cost") {
  CHECK(words("insulation = \"0.28 m\"\nair_changes = 0.2\n").empty());
  CHECK(words("insulation = \"0.2 m\"\nair_changes = 3\n", "metric", 0.0, 600.0).empty());  // another board saves 4 % of what goes in and out
  CHECK(words("insulation = \"0 m\"\nair_changes = 1\n", "metric", 300.0).empty());
  CHECK(has(words("insulation = \"0.05 m\"\nair_changes = 4\n", "metric", 0.0, 600.0), "Cooling is 60 %"));
  CHECK_FALSE(has(words("insulation = \"0.05 m\"\nair_changes = 4\n", "metric", 0.0, 600.0), "air_changes"));  // night air cools
}
