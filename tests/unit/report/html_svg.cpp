// Scales of the charts, and numbers as drawings write them.

#include <limits>

#include "sim/report/svg_canvas.hpp"
#include "sim/report/svg_charts.hpp"
#include "tests/catch.hpp"

using namespace rackwright::report::svg;

TEST_CASE("an axis has round ticks that cover the values") {
  for (const auto& [low, high] :
       {std::pair{0.0, 37.9}, std::pair{1421.0, 2190.0}, std::pair{-7.3, 41.0}, std::pair{0.001, 0.0042}}) {
    const Scale s = round_scale(low, high, 300.0, 50.0);
    INFO(low << " to " << high);
    CHECK(s.low <= low);
    CHECK(s.high >= high);
    CHECK(s.ticks.size() >= 3);
    CHECK(s.ticks.size() <= 8);
    CHECK(s.at(s.low) == Approx(300.0));
    CHECK(s.at(s.high) == Approx(50.0));
  }
  CHECK(round_scale(0.0, 37.9, 0.0, 1.0).ticks == std::vector<double>{0, 10, 20, 30, 40});
  CHECK(round_scale(0.0, 0.5, 0.0, 1.0).decimals == 1);
}

TEST_CASE("an axis without a range is given one") {
  for (const double value : {0.0, 5.0, -3.0}) {
    const Scale s = round_scale(value, value, 0.0, 1.0);
    CHECK(s.high > s.low);
  }
  const double inf = std::numeric_limits<double>::infinity();
  CHECK(round_scale(inf, -inf, 0.0, 1.0).ticks.size() >= 2);
}

TEST_CASE("numbers of a drawing are short") {
  CHECK(coordinate(12.0) == "12");
  CHECK(coordinate(12.345) == "12.35");
  CHECK(coordinate(-0.001) == "0");
  CHECK(coordinate(100.5) == "100.5");
}

TEST_CASE("points that are no numbers are left out of a line") {
  Canvas c("x", 10, 10, "a", "b");
  c.path({{0, 0}, {1, std::numeric_limits<double>::quiet_NaN()}, {2, 2}}, "l");
  CHECK(c.finish().find("M0.0,0.0 2.0,2.0") != std::string::npos);
}

TEST_CASE("the rack has every tray and every mat, and none too many") {
  RackView v;
  v.words = {"r", "t", "d"};
  v.tiers = 4, v.trays_per_tier = 5, v.tray_width = 0.3, v.spacing = 0.4, v.lowest = 0.3, v.mat_height = 0.2;
  v.days_on_rack = 8, v.trays_per_day = 2;
  const std::string drawing = rack(v);
  const auto count = [&](const std::string& part) {
    int n = 0;
    for (auto at = drawing.find(part); at != std::string::npos; at = drawing.find(part, at + 1)) ++n;
    return n;
  };
  CHECK(count("class=\"tray\"") == 20);
  CHECK(count("class=\"mat\"") == 16 + 8);  // two a day for eight days, and the legend
  CHECK(count(": free<") == 4);
  CHECK(count("tier 4, place 1: day 1 of 8") == 2);  // the youngest on top
  v.tiers = 40, v.trays_per_tier = 60, v.trays_per_day = 300;
  CHECK(rack(v).size() < 400'000);  // a barn full of places
}

TEST_CASE("the rack says what a tier weighs, what tank and pump are, and where the water goes") {
  RackView v;
  v.words = {"r", "t", "d"};
  v.tiers = 3, v.trays_per_tier = 5, v.tray_width = 0.3, v.spacing = 0.4, v.lowest = 0.3, v.mat_height = 0.2;
  v.days_on_rack = 7, v.trays_per_day = 2;
  v.tier_weight = "85.6 kg", v.tank_text = "120 L", v.pump_text = "45 W", v.height_text = "1.5 m";
  const auto count = [](const std::string& drawing, const std::string& part) {
    int n = 0;
    for (auto at = drawing.find(part); at != std::string::npos; at = drawing.find(part, at + 1)) ++n;
    return n;
  };
  std::string drawing = rack(v);
  CHECK(count(drawing, ">85.6 kg</text>") == 3);
  CHECK(count(drawing, ">120 L</text>") == 1);
  CHECK(count(drawing, ">pump 45 W</text>") == 1);
  CHECK(count(drawing, "class=\"drain\"") == 4);  // one from each tier and one down
  CHECK(count(drawing, ">drain</text>") == 1);
  CHECK(count(drawing, "rotate(-90)\" text-anchor=\"middle\" class=\"strong\">1.5 m</text>") == 1);
  v.returns = true, v.tier_weight = "";
  drawing = rack(v);
  CHECK(count(drawing, ">back to the tank</text>") == 1);
  CHECK(count(drawing, "class=\"pipe\"") == 5);  // to the pump, up, and along three tiers
  v.cascade = true;
  drawing = rack(v);
  CHECK(count(drawing, "class=\"pipe\"") == 3);
  CHECK(count(drawing, "class=\"drain\"") == 2 + 2 * 4);  // the lowest tier's, the pipe, and drips under the others
  CHECK(count(drawing, " kg</text>") == 0);
  v.own_water = true, v.tier_texts = {"tier 1 gets 5 L/h", "tier 2 gets 4 L/h", "tier 3 gets 3 L/h"};
  drawing = rack(v);
  CHECK(count(drawing, "class=\"pipe\"") == 1);  // from the tank to the pump
  CHECK(count(drawing, "class=\"drain\"") == 0);
  for (const char* tier : {"tier 1 gets", "tier 2 gets", "tier 3 gets"}) CHECK(count(drawing, tier) == 1);
}

TEST_CASE("bars of a tornado go from nought to either side, on one scale") {
  Tornado t{{"w", "t", "d"}, "points", "half", "twice", {{"a", "down", "up", -4.0, 2.0}, {"b", "", "", 0.0, 1.0}}};
  const std::string drawing = tornado(t);
  CHECK(drawing.find(">a</text>") != std::string::npos);
  CHECK(drawing.find("<title>down</title>") != std::string::npos);
  CHECK(drawing.find("nan") == std::string::npos);
  // From -4 to 2 in 592 of width: 394.67 left of nought, 197.33 right of it.
  CHECK(drawing.find("<rect x=\"24\" y=\"64\" width=\"394.67\"") != std::string::npos);
  CHECK(drawing.find("<rect x=\"418.67\" y=\"77\" width=\"197.33\"") != std::string::npos);
  Tornado still{{"w", "t", "d"}, "points", "half", "twice", {{"a", "", "", 0.0, 0.0}}};
  CHECK(tornado(still).find("nan") == std::string::npos);
}
