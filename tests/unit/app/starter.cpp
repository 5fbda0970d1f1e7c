#include "sim/app/starter.hpp"

#include <cmath>
#include <string>
#include <tuple>
#include <vector>

#include <fmt/format.h>

#include "sim/app/say.hpp"
#include "sim/app/starter_answers.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/questions.hpp"

using namespace rackwright;
using namespace rackwright::app;
using rackwright::test::question;

namespace {

std::string refused(Option option, const std::string& answer) {
  Starter farm = starter_kind("goats").value();
  return question(option).take(farm, answer).value_or("");
}
Starter with(Option option, const std::string& answer) {
  Starter farm = starter_kind("goats").value();
  const auto why = question(option).take(farm, answer);
  INFO(answer << ": " << why.value_or(""));
  REQUIRE_FALSE(why.has_value());
  return farm;
}
void sound(const Starter& farm) {
  const std::string text = starter_text(farm);
  const Reading reading = read_scenario(text);
  INFO(text << problems_text("new", reading.problems));
  REQUIRE(reading.scenario.has_value());
  CHECK_NOTHROW(make_plan(*reading.scenario));
  CHECK(reading.scenario->choose.choices.size() >= 3);
}

}  // namespace

TEST_CASE("new: no more than eight questions, and Enter on each is a sound farm") {
  CHECK(questions().size() <= 8);
  for (const std::string& kind : starter_kinds()) {
    Starter farm = starter_kind(kind).value();
    sound(farm);
    for (const Question& q : questions()) {
      INFO(kind << ": " << q.asks << " [" << q.standing(farm) << "]");
      const auto why = q.take(farm, q.standing(farm));  // what stands in brackets may be typed as it stands
      CHECK_FALSE(why.has_value());
    }
    sound(farm);
  }
  CHECK_FALSE(starter_kind("dragons").has_value());
}

TEST_CASE("new: any combination of answers makes a scenario that reads without a problem") {
  int farms = 0;
  for (const char* units : {"metric, EUR", "us, USD"})
    for (const char* animals : {"1 goat", "12 goats at 1.5 kg, 40 hens", "3000 hens", "25 cows", "1 rabbit", "60 ewes and 30 lambs",
                                "2 horses at 4 lb", "400 broilers", "5 goats at 60 oz"})
      for (const char* place : {"stone barn", "greenhouse", "cellar"})
        for (const char* weather : {"-18 and 18 degC", "12 and 12 degC", "68 and 95 degF"})
          for (const char* trays : {"none", "20 in x 10 in", "1 m x 1 m"}) {
            Starter farm = starter_kind("mixed").value();
            const std::pair<Option, const char*> answers[] = {{Option::units, units},     {Option::animals, animals},
                                                              {Option::place, place},     {Option::weather, weather},
                                                              {Option::hours, "45 min"},  {Option::trays, trays},
                                                              {Option::grain, "oats at 10 / 25 kg"}};
            for (const auto& [option, answer] : answers) REQUIRE_FALSE(question(option).take(farm, answer).has_value());
            const std::string text = starter_text(farm);
            const Reading reading = read_scenario(text);
            INFO(text << problems_text("new", reading.problems));
            REQUIRE(reading.scenario.has_value());
            ++farms;
          }
  CHECK(farms == 486);
}

TEST_CASE("new: animals are understood as people name them") {
  const Starter farm = with(Option::animals, "12 milking goats at 1.5 kg, 3 Dry goats and 40 hens at 30 g a day; 2 growing-pigs");
  REQUIRE(farm.groups.size() == 4);
  CHECK(farm.groups[0].animal_class == "goat-milking");
  CHECK(farm.groups[0].count == 12);
  CHECK(farm.groups[0].ration_kg.value() == Approx(1.5));
  CHECK(farm.groups[1].animal_class == "goat-dry");
  CHECK(farm.groups[2].animal_class == "laying-hen");
  CHECK(farm.groups[2].ration_kg.value() == Approx(0.03));
  CHECK(farm.groups[3].animal_class == "growing-pig");
  CHECK(refused(Option::animals, "12 gots").find("did you mean goats?") != std::string::npos);
  for (const char* bad : {"goats", "0 goats", "-3 goats", "12", "12 goats at 3 h", "12 goats, 4 goats", ", ,", "1e9 goats",
                          "12 goats at nan kg", "12 goats at 900 kg", "5 dragons"}) {
    INFO(bad);
    CHECK_FALSE(refused(Option::animals, bad).empty());
  }
}

TEST_CASE("new: birds by the names of old and young") {
  for (const auto& [words, animal] : {std::pair{"12 geese", "goose"}, {"3 ganders", "goose"}, {"9 ducklings", "duck"}, {"30 pullets", "growing-chicken"}, {"4 turkeys", "turkey"}, {"6 ewes in milk", "ewe-milking"}})
    CHECK(with(Option::animals, words).groups.at(0).animal_class == animal);
  CHECK(refused(Option::animals, "12 gryphons").find("ducks, geese, turkeys") != std::string::npos);
}

TEST_CASE("new: prices, temperatures, hours and trays as people write them") {
  CHECK(with(Option::grain, "barley at 9 EUR / 25 kg").grain_price == "9 / 25 kg");
  CHECK(with(Option::grain, "wheat 11 per 50 lb").grain == "wheat");
  CHECK(with(Option::grain, "corn: $12/50 lb").grain == "maize");
  CHECK(with(Option::eats, "alfalfa hay at 0.3").feed_price == "0.3 /kg");
  CHECK(with(Option::weather, "46 and 79 degF").hottest == near(26.111, 0.001));
  CHECK(with(Option::weather, "-5, 20").coldest == -5.0);
  CHECK(with(Option::weather, "-5 20").hottest == 20.0);
  CHECK(with(Option::hours, "90 min").minutes == Approx(90.0));
  CHECK(with(Option::hours, "2").minutes == Approx(120.0));
  CHECK(with(Option::trays, "20 x 10 in").tray.value().first == Approx(0.508));
  CHECK(with(Option::trays, "60x30").tray.value().second == Approx(0.3));
  CHECK(with(Option::units, "us, usd").currency == "USD");
  CHECK(with(Option::units, "us").us);
  for (const auto& [option, bad] : std::initializer_list<std::pair<Option, const char*>>{
           {Option::grain, "barley"}, {Option::grain, "barly at 9 / 25 kg"}, {Option::grain, "barley at 0 / 25 kg"},
           {Option::grain, "barley at 9 / bag"}, {Option::weather, "20"}, {Option::weather, "26 and 8"},
           {Option::weather, "8 and 99 degC"}, {Option::hours, "30 h"}, {Option::hours, "some"}, {Option::trays, "60 cm"},
           {Option::trays, "9 m x 9 m"}, {Option::place, "castle"}, {Option::units, "\";"}}) {
    INFO(bad);
    CHECK_FALSE(refused(option, bad).empty());
  }
}

TEST_CASE("new: more animals make a larger rack and more work") {
  Starter few = starter_kind("goats").value(), many = few;
  few.tray = many.tray = std::pair(0.6, 0.3);
  many.groups[0].count = 3 * few.groups[0].count;
  const auto minutes = [](const Starter& farm) { return starter_minutes(read_scenario(starter_text(farm)).scenario.value()); };
  CHECK(minutes(many) > 1.8 * minutes(few));
  const auto trays = [](const Starter& farm) { return read_scenario(starter_text(farm)).scenario.value().line.trays_per_batch; };
  CHECK(trays(many) >= 3 * trays(few) - 2);
}

TEST_CASE("new: a larger tray is drawn to save work, and not where one a day is enough") {
  Starter two = with(Option::animals, "2 goats");
  two.minutes = 20.0;
  const Reading small = read_scenario(starter_text(two));
  REQUIRE(small.scenario.has_value());
  CHECK(small.scenario->rack.tray_length.value() == Approx(0.6));
  CHECK(small.scenario->line.trays_per_batch == 1);
  Starter many = with(Option::animals, "40 goats");
  many.minutes = 60.0;
  CHECK(read_scenario(starter_text(many)).scenario->rack.tray_length.value() > 1.0);
}

TEST_CASE("new: grain is bought in the bags that it is priced by") {
  const auto bag = [](const char* price) {
    Starter farm = with(Option::grain, price);
    const Reading reading = read_scenario(starter_text(farm));
    REQUIRE(reading.scenario.has_value());
    return reading.scenario->grains[0].store.bag.value();
  };
  CHECK(bag("barley at 9.5 / 30 kg") == Approx(30.0));
  CHECK(bag("barley at 11 / 50 lb") == near(22.7, 0.05));
  CHECK(bag("barley at 0.35 /kg") == Approx(25.0));
  CHECK(bag("barley at 300 / 1 t") == Approx(1000.0));
}

TEST_CASE("new: what they eat now has the energy and the water of what it is, in either units") {
  for (const char* units : {"metric", "us"}) {
    const auto eaten = [&](const std::string& eats) {
      Starter farm = with(Option::eats, (eats + " at 0.1 /kg").c_str());
      REQUIRE_FALSE(question(Option::units).take(farm, units).has_value());
      const std::string text = starter_text(farm);
      const Reading reading = read_scenario(text);
      INFO(text << problems_text("new", reading.problems));
      REQUIRE(reading.scenario.has_value());
      return reading.scenario->feed.hay;
    };
    // Dry matter [1] and metabolisable energy of it [MJ/kg]: feed tables, from memory.
    const std::tuple<const char*, double, double> feeds[] = {
        {"hay", 0.88, 8.5},     {"meadow hay", 0.88, 8.5},  {"grass hay", 0.88, 8.5},      {"clover", 0.88, 8.5},       {"haylage", 0.55, 9.5},   {"grass haylage", 0.55, 9.5}, {"silage", 0.30, 10.5},
        {"Grass silage", 0.30, 10.5}, {"maize silage", 0.33, 11.0}, {"corn silage", 0.33, 11.0}, {"fresh grass", 0.18, 10.5}, {"pasture", 0.18, 10.5},  {"ryegrass", 0.18, 10.5},   {"straw", 0.88, 6.3},
        {"barley straw", 0.88, 6.3},  {"brewers grains", 0.24, 11.5}, {"wheat", 0.88, 13.0},    {"layer mash", 0.88, 13.0},  {"wheat grains", 0.88, 13.0},
        {"grass pellets", 0.88, 8.5}, {"pasture for the goats", 0.18, 10.5}, {"goat pasture", 0.18, 10.5}, {"winter wheat pasture", 0.18, 10.5}, {"green oats", 0.18, 10.5},
        {"fresh barley", 0.18, 10.5}, {"stubble grazing", 0.18, 10.5}, {"corn stalks", 0.88, 6.3}, {"maize stover", 0.88, 6.3}, {"acorns", 0.88, 8.5}, {"oats", 0.88, 13.0},
        {"oatmeal", 0.88, 13.0}, {"hay for the goats", 0.88, 8.5}, {"wheat straw and hay", 0.88, 8.5}, {"hay and oats and straw", 0.88, 13.0}, {"pasture or haylage", 0.55, 9.5}};
    for (const auto& [name, dry, energy] : feeds) {
      INFO(name << ", " << units);
      CHECK(eaten(name).dry_matter == Approx(dry));
      CHECK(eaten(name).energy_mj_per_kg_dm == Approx(energy).epsilon(0.005));
    }
  }
}

TEST_CASE("new: what is wetter than hay is said, and what is as dry is not") {
  CHECK(with(Option::eats, "haylage at 0.15 /kg").assumed == std::vector<std::string>{"haylage is taken to be 55 % dry matter"});
  CHECK(with(Option::eats, "hay at 0.15 /kg").assumed.empty());
  CHECK(with(Option::eats, "straw at 0.15 /kg").assumed.empty());
  CHECK(with(Option::eats, "wheat straw and hay at 0.15 /kg").assumed == std::vector<std::string>{"wheat straw and hay is taken to be hay"});
  CHECK(with(Option::eats, "pasture with haylage at 0.15 /kg").assumed == std::vector<std::string>{"pasture with haylage is taken to be haylage of 55 % dry matter"});
  CHECK(starter_text(with(Option::eats, "straw and oats at 0.15 /kg")).find("it means straw and oats, taken for grain, as it usually is") != std::string::npos);
}

TEST_CASE("new: horses of another size have its weight, and a ration that follows") {
  const auto ration = [](const char* animals, double kilograms) {
    const Starter farm = with(Option::animals, animals);
    const std::string text = starter_text(farm);
    const Reading reading = read_scenario(text);
    INFO(text << problems_text("new", reading.problems));
    REQUIRE(reading.scenario.has_value());
    const Group& group = reading.scenario->groups.at(0);
    CHECK(group.animal_class == "horse");
    if (kilograms > 0.0) CHECK(group.weight.value().value() == Approx(kilograms));
    else CHECK_FALSE(group.weight.has_value());
    CHECK((text.find("from memory: put in yours; they eat less") != std::string::npos) == (text.find("donkey") != std::string::npos || text.find("mule") != std::string::npos));
    return group.ration.value().value();
  };
  const double horse = ration("1 horse", 0.0);
  // Appetite goes with weight to the power 0.75; rations are written to two digits.
  for (const auto& [animals, kilograms] : {std::pair{"1 pony", 250.0}, {"2 ponies", 250.0}, {"3 donkeys", 180.0}, {"1 donkey", 180.0}, {"2 mules", 400.0}, {"2 miniature horses", 100.0}, {"2 draft horses", 750.0}}) {
    INFO(animals);
    CHECK(ration(animals, kilograms) == Approx(horse * std::pow(kilograms / 500.0, 0.75)).epsilon(0.04));
  }
  Starter farm = with(Option::animals, "2 ponies at 3 kg");
  CHECK(farm.groups.at(0).ration_kg.value() == Approx(3.0));
  REQUIRE_FALSE(question(Option::units).take(farm, "us").has_value());
  CHECK(starter_text(farm).find("weight = \"550 lb\"") != std::string::npos);
  CHECK(refused(Option::animals, "2 donkys").find("did you mean donkeys?") != std::string::npos);
}

TEST_CASE("new: a ton is asked for by its name, but in US units") {
  CHECK(refused(Option::eats, "hay at 180 / ton").find("write t for 1000 kg") != std::string::npos);
  CHECK(refused(Option::grain, "barley at 180 per ton").find("short_ton") != std::string::npos);
  CHECK(with(Option::eats, "hay at 180 / t").feed_price == "180 / t");
  Starter farm = starter_kind("goats").value();
  REQUIRE_FALSE(question(Option::units).take(farm, "us").has_value());
  CHECK_FALSE(question(Option::eats).take(farm, "hay at 180 / ton").has_value());
}
