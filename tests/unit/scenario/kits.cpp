// Things bought together: one choice that sets several keys.
#include <algorithm>
#include <string>

#include "sim/scenario/key_number.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

const std::string& farm = sample::goats_and_barley;

const std::string pumps = R"([[kit]]
part = "pump"
name = "small"
sets = ["water.pump_full_flow = 2400 L/h", "water.pump_power=50 W", "prices.pump = 70"]
[[kit]]
part = "pump"
name = "large"
sets = ["water.pump_full_flow = 4000 L/h", "water.pump_power = 90 W", "prices.pump = 140"]
[[kit]]
part = "tray"
name = "large"
sets = ["rack.tray_length = 1 m", "prices.tray = 22"]
)";

Scenario read(const std::string& text) {
  const Reading reading = read_scenario(text);
  for (const Problem& p : reading.problems) UNSCOPED_INFO(p.key << ": " << p.why);
  REQUIRE(reading.scenario.has_value());
  return *reading.scenario;
}

/// What is said against a text; "" if nothing.
std::string against(const std::string& text) {
  std::string all;
  for (const Problem& p : read_scenario(text).problems) all += p.key + " [" + p.value + "] " + p.why + (p.suggestion.empty() ? "" : " (" + p.suggestion + ")") + "\n";
  return all;
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("kits: none is in until it is taken, and then all that comes with it is") {
  Scenario s = read(farm + pumps);
  CHECK(kit_parts(s) == std::vector<std::string>{"pump", "tray"});
  CHECK(get_key(s, "kit.pump") == "none");
  const Scenario before = s;
  REQUIRE_FALSE(set_key(s, "kit.pump", "none"));
  CHECK(s == before);
  REQUIRE_FALSE(set_key(s, "kit.pump", "large"));
  CHECK(s.water.pump.full_flow.value() == 4000.0);
  CHECK(s.water.pump.power.value() == 90.0);
  CHECK(s.prices.pump.value() == 140.0);
  CHECK(get_key(s, "kit.pump") == "large");
  CHECK(get_key(s, "kit.tray") == "none");
  REQUIRE_FALSE(set_key(s, "kit.pump", "small"));
  CHECK(get_key(s, "kit.pump") == "small");
  s.prices.pump = Money(71.0);
  CHECK(get_key(s, "kit.pump") == "none");
  CHECK_FALSE(get_key(s, "kit.shed"));
  REQUIRE(key_facts(s, "kit.pump"));
  CHECK_FALSE(key_facts(s, "kit.pump")->number);
  const auto names = keys::all_key_names(s);
  CHECK(std::count(names.begin(), names.end(), "kit.pump") == 1);
}

TEST_CASE("kits: a scenario with them reads back equal, and settings of the command line take them") {
  Scenario s = read(farm + pumps);
  CHECK(read(resolved_text(s)) == s);
  REQUIRE_FALSE(set_key(s, "kit.pump", "large"));
  CHECK(read(resolved_text(s)) == s);
  const Reading typed = read_scenario(farm + pumps, {"kit.pump=large"});
  REQUIRE(typed.scenario.has_value());
  CHECK(*typed.scenario == s);
}

TEST_CASE("kits: a part is a choice, and not beside one of the keys it sets") {
  CHECK(against(farm + pumps + "[choose]\n\"kit.pump\" = [\"small\", \"large\"]\n").empty());
  CHECK(has(against(farm + pumps + "[choose]\n\"kit.pump\" = [\"small\", \"huge\"]\n"), "choose.kit.pump [huge] is no [[kit]] of the part pump"));
  CHECK(has(against(farm + pumps + "[choose]\n\"kit.shed\" = [\"small\"]\n"), "choose.kit.shed"));
  CHECK(has(against(farm + pumps + "[choose]\n\"kit.pump\" = [\"small\"]\n\"water.pump_power\" = [\"50 W\"]\n"), "is also set by the kits of kit.pump"));
}

TEST_CASE("kits: one that is taken is taken, whatever else sizing was to choose from") {
  const std::string file = farm + pumps + "[choose]\n\"kit.pump\" = [\"none\", \"small\", \"large\"]\n";
  const Reading taken = read_scenario(file, {"kit.pump=small"});
  REQUIRE(taken.problems.empty());
  CHECK(get_key(*taken.scenario, "kit.pump") == "small");
  // What was there before is not known any more: "none" would be this one.
  REQUIRE(taken.scenario->choose.choices.size() == 1);
  CHECK(taken.scenario->choose.choices[0].values == std::vector<std::string>{"small", "large"});
  const Reading none = read_scenario(file, {"kit.pump=none"});
  REQUIRE(none.problems.empty());
  CHECK(none.scenario->choose.choices[0].values.size() == 3);
  const Reading only = read_scenario(farm + pumps + "[choose]\n\"kit.pump\" = [\"none\"]\n", {"kit.pump=small"});
  REQUIRE(only.problems.empty());
  CHECK(only.scenario->choose.choices.empty());
}

TEST_CASE("kits: a part that no kit is of is told as such, once for all values of a choice") {
  const std::string none = "no [[kit]] has part = \"pump\"";
  CHECK(against(farm + "[choose]\n\"kit.pump\" = [\"small\", \"large\"]\n") == "choose.kit.pump [small] " + none + "\n");
  Scenario s = read(farm);
  const auto bad = set_key(s, "kit.pump", "small");
  REQUIRE(bad);
  CHECK(bad->why == none);
  CHECK(bad->suggestion.empty());  // and not prices.pump
  CHECK(has(against(farm + pumps + "[choose]\n\"kit.pumps\" = [\"small\"]\n"), "no [[kit]] has part = \"pumps\" (kit.pump)"));
  CHECK(set_key(s, "kit.1", "small")->why == "is not a known key");  // a place in the list, and no key of it
}

TEST_CASE("kits: what is wrong in one is told where it stands") {
  const auto kit = [](const std::string& part, const std::string& name, const std::string& sets) {
    return farm + "[[kit]]\npart = \"" + part + "\"\nname = \"" + name + "\"\nsets = [" + sets + "]\n";
  };
  CHECK(against(kit("pump", "a", "\"prices.pump = 5\"")).empty());
  CHECK(has(against(kit("pump", "a", "\"prices.pomp = 5\"")), "kit.a.sets [prices.pomp = 5] is not a known key (prices.pump)"));
  CHECK(has(against(kit("pump", "a", "\"water.pump_power = 5 kg\"")), "kit.a.sets [water.pump_power = 5 kg]"));
  CHECK(has(against(kit("pump", "a", "\"prices.pump\"")), "is written \"KEY = VALUE\""));
  CHECK(has(against(kit("pump", "a", "\"kit.pump = a\"")), "is nothing that a kit can bring"));
  CHECK(has(against(kit("pump", "a", "\"group.goats.count = 1\"")), "is nothing that a kit can bring"));
  CHECK(has(against(kit("pump", "a", "")), "brings nothing with it"));
  CHECK(has(against(kit("my pump", "a", "\"prices.pump = 5\"")), "must be one word without a dot"));
  CHECK(has(against(kit("pump", "none", "\"prices.pump = 5\"")), "must be a name of its own"));
  CHECK(has(against(kit("pump", "a", "\"prices.pump = 5\"") + "[[kit]]\npart = \"pump\"\nname = \"a\"\nsets = [\"prices.pump = 6\"]\n"), "is there twice for the part pump"));
  // Refused as a whole: the scenario stays as it was.
  Scenario s = read(farm + pumps);
  s.kits[0].sets.push_back("water.pump_power = 5 kg");
  const Scenario before = s;
  const auto bad = set_key(s, "kit.pump", "small");
  REQUIRE(bad);
  CHECK(s == before);
}

TEST_CASE("kits: what one brings is not set beside it") {
  const auto told = [](const std::vector<std::string>& settings) {
    std::string all;
    for (const Problem& p : read_scenario(farm + pumps, settings).problems) all += p.key + " " + p.why + "\n";
    return all;
  };
  CHECK(told({"water.pump_power=70 W", "kit.pump=small"}) == "water.pump_power is also set by kit.pump=small: one or the other\n");
  CHECK(told({"kit.pump=small", "water.pump_power=70 W"}) == "water.pump_power is also set by kit.pump=small: one or the other\n");
  CHECK(told({"kit.pump=none", "water.pump_power=70 W"}).empty());
  CHECK(told({"kit.pump=small", "rack.tiers=3"}).empty());
}

TEST_CASE("kits: two that bring one thing clash, by whatever name it goes, and so do one and a key of its own") {
  const std::string goods = farm + "[[kit]]\npart = \"deal\"\nname = \"a\"\nsets = [\"grain.1.price = 0.3\", \"prices.pump = 5\"]\n"
                                   "[[kit]]\npart = \"deal\"\nname = \"b\"\nsets = [\"prices.tray = 5\"]\n[[kit]]\npart = \"pump\"\nname = \"c\"\nsets = [\"prices.pump = 6\"]\n";
  const Scenario s = read(goods);
  const auto both = clash(s, {{"rack.tiers", "3"}, {"kit.deal", "a"}, {"grain.barley.price", "0.4"}});
  REQUIRE(both);
  CHECK(both->later == 2);
  CHECK(both->earlier == 1);
  CHECK(both->key == "grain.barley.price");
  CHECK(clash(s, {{"kit.deal", ""}, {"kit.pump", ""}})->key == "prices.pump");
  CHECK_FALSE(clash(s, {{"kit.deal", "b"}, {"kit.pump", "c"}}));
  CHECK_FALSE(clash(s, {{"kit.deal", "none"}, {"prices.pump", "1"}}));
  CHECK(clash(s, {{"kit.deal", "a"}, {"kit.deal", "b"}}));
  CHECK(has(against(goods + "[choose]\n\"kit.deal\" = [\"a\", \"b\"]\n\"grain.barley.price\" = [0.3, 0.4]\n"), "choose.grain.barley.price [] is also set by the kits of kit.deal: choose one or the other"));
}
