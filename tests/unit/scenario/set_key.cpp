#include <string>

#include "sim/scenario/key_number.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Scenario sample_scenario() { return read_scenario(sample::every_list).scenario.value(); }

}  // namespace

TEST_CASE("set_key reaches single keys and entries by name or position") {
  Scenario s = sample_scenario();
  CHECK_FALSE(set_key(s, "rack.tiers", "5"));
  CHECK(s.rack.tiers == 5);
  CHECK_FALSE(set_key(s, "line.soak", "600 min"));
  CHECK(s.line.soak.value() == Approx(10.0));
  CHECK_FALSE(set_key(s, "group.goats.count", "9"));
  CHECK_FALSE(set_key(s, "group.2.count", "3"));
  CHECK(s.groups[0].count == 9);
  CHECK(s.groups[1].count == 3);
  CHECK_FALSE(set_key(s, "species.bere.growth.ripe", "6 d"));
  CHECK(s.species[0].growth.ripe == 6.0);
  CHECK_FALSE(set_key(s, "water.node.top.height", "4 ft"));
  CHECK(s.water.nodes[5].height.value() == Approx(1.2192));
  CHECK_FALSE(set_key(s, "line.grains", "old barley, barley"));
  CHECK(s.line.grains == std::vector<std::string>{"old barley", "barley"});
  CHECK_FALSE(set_key(s, "group.goats.ration", "none"));
  CHECK_FALSE(s.groups[0].ration.has_value());
  CHECK_FALSE(set_key(s, "choose.rack.tray_length", "60 cm, 2 ft"));
  CHECK(s.choose.choices.back().values == std::vector<std::string>{"60 cm", "2 ft"});
}

TEST_CASE("set_key refuses what does not fit and leaves the scenario as it was") {
  Scenario s = sample_scenario();
  const Scenario before = s;
  for (const auto& [key, value] : std::vector<std::pair<std::string, std::string>>{{"rack.tiers", "0"},
                                                                                   {"rack.tiers", "five"},
                                                                                   {"line.soak", "3 kg"},
                                                                                   {"group.cows.count", "3"},
                                                                                   {"group.3.count", "3"},
                                                                                   {"group.goats", "3"},
                                                                                   {"rack", "3"},
                                                                                   {"", "3"},
                                                                                   {"choose.rack.tires", "3"},
                                                                                   {"species.bere.like", "spelt"},
                                                                                   {"water.pipe.1.to", "nowhere"}}) {
    INFO(key << " = " << value);
    const auto problem = set_key(s, key, value);
    REQUIRE(problem.has_value());
    CHECK(problem->key == key);
    CHECK(problem->value == value);
    CHECK_FALSE(problem->why.empty());
    CHECK(resolved_text(s) == resolved_text(before));
  }
  CHECK(set_key(s, "group.goats.conut", "3")->suggestion == "group.goats.count");
}

TEST_CASE("get_key answers in the scenario's units") {
  Scenario s = sample_scenario();
  CHECK(get_key(s, "line.soak") == "10 h");
  CHECK(get_key(s, "run.length") == "365 d");
  CHECK(get_key(s, "grain.barley.use_by") == "365 d");
  CHECK(get_key(s, "run.start") == "2026-03-01");
  CHECK(get_key(s, "keeper.evening") == "18:00");
  CHECK(get_key(s, "spell.1.start") == "2026-07-10");
  CHECK(get_key(s, "group.ewes.first_births") == "2026-12-20");
  CHECK(get_key(s, "group.goats.first_births") == "none");
  CHECK(get_key(s, "water.pipe.1.to") == "foot");
  CHECK(get_key(s, "grain.barley.price") == "0.35 /kg");
  CHECK_FALSE(get_key(s, "rack.tires").has_value());
  CHECK_FALSE(get_key(s, "group.cows.count").has_value());
  REQUIRE_FALSE(set_key(s, "units", "us"));
  CHECK(get_key(s, "line.sowing_density") == "1.02408 lb/ft2");
  CHECK(get_key(s, "line.soak_water") == "60.8 degF");
  CHECK(get_key(s, "group.ewes.weight") == "150 lb");
}

TEST_CASE("moving the start keeps dates on the calendar") {
  Scenario s = sample_scenario();
  REQUIRE_FALSE(set_key(s, "run.start", "2026-06-01"));
  CHECK(get_key(s, "spell.1.start") == "2026-07-10");
  CHECK(get_key(s, "group.ewes.first_births") == "2026-12-20");
  REQUIRE_FALSE(set_key(s, "run.start", "2027-01-01"));  // past the births: the next season
  CHECK(get_key(s, "group.ewes.first_births") == "2027-12-20");
  const auto reading = read_scenario(sample::every_list, {"run.start=2026-06-01"});
  REQUIRE(reading.scenario.has_value());
  CHECK(get_key(*reading.scenario, "spell.1.start") == "2026-07-10");
}

TEST_CASE("settings on top of a file") {
  const auto good = read_scenario(sample::small, {"rack.tiers=6", "group.goats.count=8"});
  REQUIRE(good.scenario.has_value());
  CHECK(good.scenario->rack.tiers == 6);
  CHECK(good.scenario->groups[0].count == 8);
  const auto bad = read_scenario(sample::small, {"rack.tiers", "rack.tires=6", "line.soak=3"});
  CHECK_FALSE(bad.scenario.has_value());
  CHECK(bad.problems.size() == 3);
}

TEST_CASE("a species of one's own starts as a copy") {
  const Scenario s = sample_scenario();
  const OwnSpecies& bere = s.species.at(0);
  const auto barley = germination::preset("barley").value();
  CHECK(bere.germination.base.value() == 2.0);
  CHECK(bere.germination.theta == barley.theta);
  CHECK(bere.soak.skin == 0.05);
  CHECK(bere.growth.ripe == 8.0);
  const auto wheat = read_scenario(sample::small + "[[species]]\nname = \"spelt\"\nlike = \"wheat\"\n");
  REQUIRE(wheat.scenario.has_value());
  CHECK(wheat.scenario->species.at(0).germination.theta == germination::preset("wheat")->theta);
}

TEST_CASE("monthly means become a yearly wave") {
  const auto reading =
      read_scenario(sample::small +
                    "[climate]\nmonthly_mean = [\"39.7 degF\", \"39.2 degF\", \"42.2 degF\", \"46.3 degF\", "
                    "\"52.6 degF\", \"58 degF\", \"61.9 degF\", \"60.5 degF\", \"56.5 degF\", \"49.5 degF\", "
                    "\"42.6 degF\", \"39.5 degF\"]\n");
  REQUIRE(reading.scenario.has_value());
  const climate::YearlyWave& wave = reading.scenario->climate.mean;
  CHECK(wave.mean.value() == near(9.47, 0.05));
  CHECK(wave.peak_day > 180.0);
  CHECK(wave.peak_day < 230.0);
}

TEST_CASE("settings of one command are judged together: dates of the file that they replace need not follow a run.start that is typed") {
  const std::string file = "[run]\nstart = 2026-12-01\n" + sample::goats_and_barley + "first_births = 2027-04-05\narrives = 2027-01-10\n";
  const std::vector<std::string> later{"run.start=2030-12-01", "group.goats.first_births=2031-04-05", "group.1.arrives=2031-01-10"};
  std::vector<std::string> backwards(later.rbegin(), later.rend());
  for (const auto& settings : {later, backwards}) {
    const Reading reading = read_scenario(file, settings);
    for (const Problem& p : reading.problems) UNSCOPED_INFO(p.key << ": " << p.why);
    REQUIRE(reading.scenario.has_value());
    CHECK(reading.scenario->groups[0].breeding.first_birth_day == 125.0);
    CHECK(reading.scenario->groups[0].stay.arrives == 40.0);
  }
  // By the day of the run, too; what nobody replaces is refused as before, and so is a value that cannot be read at all.
  CHECK(read_scenario(file, {"run.start=2030-12-01", "group.goats.first_births_day=125", "group.goats.arrives_day=40"}).scenario.has_value());
  const Reading one = read_scenario(file, {"run.start=2030-12-01", "group.goats.first_births=2031-04-05"});
  REQUIRE(one.problems.size() == 1);
  CHECK(one.problems[0].key == "group.goats.arrives");
  const Reading wrong = read_scenario(file, {"run.start=2030-12-01", "group.goats.first_births=2029-04-05", "group.goats.arrives_day=1"});
  REQUIRE(wrong.problems.size() == 1);
  CHECK(wrong.problems[0].typed);
}

TEST_CASE("keys that say one thing are told, the later and the earlier") {
  const Scenario farm = *read_scenario(sample::goats_and_barley).scenario;
  const auto pair = [](std::size_t later, std::size_t earlier) { return std::optional(std::pair(later, earlier)); };
  CHECK(stated_twice(farm, {"rack.tiers", "group.1.count", "group.goats.count"}) == pair(2, 1));
  CHECK(stated_twice(farm, {"rack.tiers", "line.soak", "rack.tiers"}) == pair(2, 0));
  CHECK(stated_twice(farm, {"climate.monthly_mean", "climate.mean"}) == pair(1, 0));
  CHECK(stated_twice(farm, {"group.goats.leaves_day", "group.1.leaves"}) == pair(1, 0));
  CHECK(stated_twice(farm, {"nobody.knows", "nobody.knew", "nobody.knows"}) == pair(2, 0));
  CHECK_FALSE(stated_twice(farm, {"group.1.count", "grain.1.price", "rack.tiers", "group.goats.ration", "nobody.knows"}));
  CHECK_FALSE(stated_twice(farm, {}));
}

TEST_CASE("a typed list of names has one pair of brackets, or none") {
  Scenario s = sample_scenario();
  const std::string first = s.grains[0].name;
  CHECK_FALSE(set_key(s, "line.grains", "[\"" + first + "\"]"));
  CHECK_FALSE(set_key(s, "line.grains", first));
  CHECK(s.line.grains == std::vector<std::string>{first});
  CHECK(set_key(s, "line.grains", "[[" + first + "]]")->why.find("square brackets") != std::string::npos);
  CHECK(s.line.grains == std::vector<std::string>{first});
}

TEST_CASE("a ton is asked for by its name, but in US units, where it is the short one") {
  const auto told = [](const std::string& file, const std::vector<std::string>& settings = {}) {
    const Reading reading = read_scenario(file, settings);
    return reading.problems.empty() ? "" : reading.problems.front().key + " " + reading.problems.front().why;
  };
  const auto price = [&](const std::string& unit, const std::string& head = "") {
    const Reading reading = read_scenario(head + sample::goats_and_barley, {"grain.barley.price=180 / " + unit});
    INFO(unit);
    REQUIRE(reading.scenario.has_value());
    return reading.scenario->grains.front().price_per_kg;
  };
  const std::string metric = sample::goats_and_barley, us = "units = \"us\"\n" + metric;
  for (const char* ton : {"ton", "tons", "Ton", "TON", "1 ton", "(2 ton)"}) {
    INFO(ton);
    CHECK(told(metric, {std::string("grain.barley.price=180 / ") + ton}).starts_with("grain.barley.price does not say which ton: write t for 1000 kg"));
  }
  CHECK(told(metric + "[prices]\nhay = \"90 / ton\"\n").starts_with("prices.hay does not say which ton"));
  CHECK(told(metric, {"grain.barley.bin=2 tons"}).starts_with("grain.barley.bin does not say which ton"));
  CHECK(told(metric, {"choose.grain.barley.price=90 / t, 180 / ton"}).find("which ton") != std::string::npos);
  const Scenario s = *read_scenario(metric).scenario;
  CHECK(std::holds_alternative<Problem>(read_number(s, "grain.1.price", "180 / ton")));
  // 1000 kg; 2000 and 2240 lb of 0.45359237 kg (NIST Handbook 44, Appendix C).
  for (const char* t : {"t", "tonne", "tonnes", "metric_ton", "metric ton", "metric tons"}) CHECK(price(t) == Approx(0.18));
  for (const char* t : {"short_ton", "short ton", "short tons"}) CHECK(price(t) == Approx(180.0 / (2000.0 * 0.45359237)));
  for (const char* t : {"long_ton", "long ton", "long tons"}) CHECK(price(t) == Approx(180.0 / (2240.0 * 0.45359237)));
  CHECK(price("ton", "units = \"us\"\n") == Approx(180.0 / (2000.0 * 0.45359237)));
  CHECK(price("long ton", "units = \"us\"\n") == Approx(180.0 / (2240.0 * 0.45359237)));
  CHECK(told(metric, {"title=A ton of barley"}).empty());  // words are no units
}

TEST_CASE("a plain price is no price by the pound: with US units it must say what it is for") {
  const std::string us = "units = \"us\"\n" + sample::goats_and_barley;
  const auto told = [](const std::string& file, const std::vector<std::string>& settings = {}) {
    const Reading reading = read_scenario(file, settings);
    return reading.problems.empty() ? "" : reading.problems.front().key + " " + reading.problems.front().why;
  };
  const std::string asks = " needs what it is for, such as ";
  CHECK(told(us + "[prices]\nhay = 0.15\n").starts_with("prices.hay" + asks + "0.16 /lb"));
  CHECK(told(us + "[prices]\nwater = 0.006\n").starts_with("prices.water" + asks + "0.006 /gal"));
  CHECK(told(us, {"grain.1.price=0.23"}).starts_with("grain.1.price" + asks));
  CHECK(told(us + "[prices]\nhay = \"0.15 /lb\"\nwater = 0\n").empty());
  CHECK(told(sample::goats_and_barley + "[prices]\nhay = 0.15\n").empty());
  const Scenario s = *read_scenario(us).scenario;
  CHECK(std::holds_alternative<Problem>(read_number(s, "grain.1.price", "0.23")));
  CHECK(std::get<double>(read_number(s, "grain.1.price", "0.23 /lb")) == Approx(0.23 / 0.45359237));
  CHECK(read_scenario(resolved_text(s)).scenario.has_value());
}
