// Answers to the questions of `rackwright new`: what Enter stands for, what is taken as meant, and what is refused with a reason to go by.
#include "sim/app/starter_answers.hpp"

#include <memory>
#include <string>

#include "sim/scenario/units.hpp"
#include "tests/catch.hpp"
#include "tests/questions.hpp"

using namespace rackwright;
using namespace rackwright::app;
using rackwright::test::question;

namespace {

Starter farm() { return starter_kind("goats").value(); }

/// The farm after an answer that is taken.
Starter after(Starter start, Option option, const std::string& answer) {
  const auto why = question(option).take(start, answer);
  INFO(answer << ": " << why.value_or(""));
  REQUIRE_FALSE(why.has_value());
  return start;
}

/// The reason against an answer, which leaves the farm as it was.
std::string refused(Option option, const std::string& answer, Starter start = farm()) {
  const std::string before = starter_text(start);
  const auto why = question(option).take(start, answer);
  INFO(answer);
  REQUIRE(why.has_value());
  CHECK(starter_text(start) == before);
  return *why;
}

std::string standing(const Starter& start, Option option) { return question(option).standing(start); }
double kilogram(const std::string& price) { return std::get<double>(read_quantity(price, "1/kg")); }
bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("new: what Enter stands for is an answer that changes nothing") {
  for (const bool us : {false, true}) {
    const Starter start = us ? after(farm(), Option::units, "us") : farm();
    Starter same = start;
    for (const Question& q : questions()) {
      const std::string answer = q.standing(start);
      CAPTURE(q.asks, answer);
      CHECK_FALSE(q.take(same, answer).has_value());
    }
    // But for who is said to have chosen the animals, and how a price is spaced.
    CHECK(same.groups.size() == start.groups.size());
    CHECK(same.feed == start.feed);
    CHECK(same.grain == start.grain);
    CHECK(same.coldest == near(start.coldest, 0.3));  // degF are told whole
    CHECK(same.minutes == start.minutes);
    CHECK(standing(same, Option::units) == standing(start, Option::units));
    CHECK(kilogram(same.feed_price) == kilogram(start.feed_price));
    CHECK(kilogram(same.grain_price) == kilogram(start.grain_price));
  }
}

TEST_CASE("new: units and money in any of their names, and prices of a ready farm go with the units") {
  CHECK(standing(after(farm(), Option::units, "SI"), Option::units) == "metric, EUR");
  CHECK(standing(after(farm(), Option::units, "kg chf"), Option::units) == "metric, CHF");
  for (const char* word : {"us", "imperial", "lb", "American"}) {
    INFO(word);
    const Starter us = after(farm(), Option::units, word);
    CHECK(standing(us, Option::units) == "us, USD");
    CHECK(standing(us, Option::grain) == "barley at 8 / 50 lb");
    CHECK(standing(us, Option::eats) == "hay at 11 / 100 lb");
    CHECK(standing(after(us, Option::units, "metric"), Option::grain) == "barley at 9 / 25 kg");
  }
  CHECK(standing(after(farm(), Option::units, "us, CAD"), Option::units) == "us, CAD");
  const Starter own = after(farm(), Option::grain, "barley at 7 / 20 kg");  // a price of one's own stays
  CHECK(standing(after(own, Option::units, "us"), Option::grain) == "barley at 7 / 20 kg");
  for (const char* bad : {"E", "12", "metric, e2", "thalersilver"}) CHECK(contains(refused(Option::units, bad), "say metric or us"));
}

TEST_CASE("new: a misspelt system of units is no currency, and there is one currency") {
  CHECK(contains(refused(Option::units, "metrisch, EUR"), "\"metrisch\" is neither metric nor us (did you mean metric?)"));
  CHECK(contains(refused(Option::units, "metrci"), "did you mean metric?"));
  CHECK(contains(refused(Option::units, "imperiel, USD"), "did you mean imperial?"));
  CHECK(contains(refused(Option::units, "metric, EUR, CHF"), "\"CHF\": one currency, please; EUR is one already"));
  for (const char* money : {"EUR", "francs", "euro", "pesos", "dirham", "kr"}) {
    INFO(money);
    CHECK_FALSE(question(Option::units).take(*std::make_unique<Starter>(farm()), money).has_value());
  }
}

TEST_CASE("new: a decimal comma is named, whichever the question") {
  const auto said = [](Option option, const std::string& answer) {
    Starter start = farm();
    return take_answer(question(option), start, answer).value_or("");
  };
  CHECK(said(Option::animals, "9 goats at 1,5 kg") == "\"9 goats at 1,5 kg\": commas stand between things, and decimals have a point: 9 goats at 1.5 kg");
  CHECK(contains(said(Option::eats, "hay 0,26"), "decimals have a point: hay 0.26"));
  CHECK(contains(said(Option::hours, "1,5 h"), "decimals have a point: 1.5 h"));
  CHECK(contains(said(Option::trays, "60,5 cm x 30,5 cm"), "decimals have a point: 60.5 cm x 30.5 cm"));
  CHECK(contains(said(Option::weather, "8,5 and 26,5"), "decimals have a point: 8.5 and 26.5"));
  CHECK(said(Option::animals, "12 goats,5 hens").empty());
  CHECK(said(Option::weather, "8,26").empty());  // two temperatures
  CHECK(contains(said(Option::animals, "9 unicorns at 1,5 kg"), "no ration is known for"));
}

TEST_CASE("new: what a number without a unit is taken to be is noted, and nothing of one with a unit") {
  const auto assumed = [](Option option, const std::string& answer, Starter start = farm()) {
    const Starter done = after(std::move(start), option, answer);
    std::string all;
    for (const std::string& one : done.assumed) all += one + "\n";
    return all;
  };
  const Starter us = after(farm(), Option::units, "us");
  CHECK(assumed(Option::eats, "hay 0.26") == "0.26 is taken to be 0.26 EUR/kg\n");
  CHECK(assumed(Option::eats, "hay 0.26", us) == "0.26 is taken to be 0.26 USD/lb\n");
  CHECK(assumed(Option::grain, "barley 0.4") == "0.4 is taken to be 0.4 EUR/kg\n");
  CHECK(assumed(Option::trays, "60 x 30") == "60 x 30 is taken to be 60 cm x 30 cm\n");
  CHECK(assumed(Option::trays, "20 x 10", us) == "20 x 10 is taken to be 20 in x 10 in\n");
  CHECK(assumed(Option::animals, "12 goats at 1.5, 3 hens") == "1.5 is taken to be 1.5 kg\n");
  CHECK(assumed(Option::weather, "8 and 26") == "8 and 26 is taken to be 8 and 26 degC\n");
  CHECK(assumed(Option::hours, "2") == "2 is taken to be 2 hours\n");
  CHECK((assumed(Option::eats, "hay 0.26 /kg") + assumed(Option::trays, "60 cm x 30 cm") + assumed(Option::trays, "60 x 30 cm") + assumed(Option::animals, "2 goats at 1 kg") +
         assumed(Option::weather, "8 and 26 degC") + assumed(Option::hours, "2 h") + assumed(Option::trays, "none")).empty());
}

TEST_CASE("new: a ration that is more than they eat in all is asked for again") {
  const auto said = [](const std::string& answer) {
    Starter start = farm();
    return take_answer(question(Option::animals), start, answer).value_or("");
  };
  CHECK(said("6 ewes at 20 kg") == "\"6 ewes at 20 kg\": a head eats no more than 8.8 kg of fodder a day even if it eats nothing else");
  CHECK(said("6 ewes at 8 kg").empty());
  CHECK(contains(said("1 pony at 50 kg"), "a head eats no more than "));
}

TEST_CASE("new: rations are taken in the farm's units, however a day is said") {
  const auto ration = [](const Starter& start, const std::string& answer) { return after(start, Option::animals, answer).groups.at(0).ration_kg.value(); };
  const Starter us = after(farm(), Option::units, "us");
  CHECK(ration(farm(), "12 goats at 1.5") == 1.5);
  CHECK(ration(us, "12 goats at 3") == Approx(1.36078).epsilon(1e-5));
  CHECK(ration(us, "12 goats with 1.5 kg/day") == 1.5);
  CHECK(ration(farm(), "12 goats @ 1500 g per head") == 1.5);
  CHECK_FALSE(after(farm(), Option::animals, "12 goats").groups.at(0).ration_kg.has_value());
  CHECK(after(farm(), Option::animals, "1 pony + 2 rabbits").groups.size() == 2);
  CHECK(contains(refused(Option::animals, "goats"), "12 goats at 1.5 kg"));
  CHECK(contains(refused(Option::animals, "goats", us), "12 goats at 3 lb"));
  CHECK(contains(refused(Option::animals, "0 goats"), "from 1 to 100000 animals"));
  CHECK(contains(refused(Option::animals, "100001 goats"), "from 1 to 100000 animals"));
  CHECK(contains(refused(Option::animals, "4 goats, 2 goats"), "named twice"));
  CHECK(refused(Option::animals, " , ") == "name at least one kind of animal, such as 12 goats");
  CHECK(contains(refused(Option::animals, "12 goats at 0 kg"), "is not between 0.001 and 100 kg"));
}

TEST_CASE("new: a price is taken with its money, by any weight, and must be one") {
  const Starter us = after(farm(), Option::units, "us");
  CHECK(after(farm(), Option::grain, "oats at \xE2\x82\xAC" "8 / 25 kg").grain == "oat");
  CHECK(after(farm(), Option::grain, "oats at 8 a 25 kg").grain_price == "8 / 25 kg");
  CHECK(after(us, Option::grain, "barley 0.2").grain_price == "0.2 /lb");
  CHECK(after(us, Option::grain, "barley: 10 usd / 50 lb").grain_price == "10 / 50 lb");
  CHECK(after(farm(), Option::eats, "clover hay = 0.3 EUR per kg").feed == "clover hay");
  CHECK(contains(refused(Option::grain, "9"), "such as barley at 9 / 25 kg"));
  CHECK(contains(refused(Option::grain, "9", us), "such as barley at 11 / 50 lb"));
  CHECK(contains(refused(Option::eats, "hay"), "such as hay at 0.25 /kg"));
  CHECK(contains(refused(Option::eats, "hay", us), "such as hay at 11 / 100 lb"));
  CHECK(refused(Option::eats, "hay at 0") == "the price must be above 0");
  CHECK(contains(refused(Option::eats, "hay at 5 / 2 h"), "is not"));
  CHECK(contains(refused(Option::eats, "hay at 5000 /kg"), "is not between 0 and 100"));
  CHECK(contains(refused(Option::grain, "whaet at 9 / 25 kg"), "did you mean wheat?"));
}

TEST_CASE("new: two temperatures, the colder first, in the unit that stands behind either") {
  const Starter us = after(farm(), Option::units, "us");
  CHECK(after(us, Option::weather, "50 to 86").hottest == Approx(30.0));
  CHECK(after(farm(), Option::weather, "50 and 86 degF").coldest == Approx(10.0));
  CHECK(standing(after(us, Option::weather, "50 and 86"), Option::weather) == "50 and 86 degF");
  CHECK(after(farm(), Option::weather, "8 degC, 26 degC").hottest == 26.0);
  CHECK(after(farm(), Option::weather, "12 and 12").coldest == 12.0);
  CHECK(refused(Option::weather, "26 and 8") == "the coldest month comes first");
  CHECK(refused(Option::weather, "-30 and 45") == "the two lie more than 70 degC apart");
  CHECK(contains(refused(Option::weather, "mild"), "such as 8 and 26 degC"));
  CHECK(contains(refused(Option::weather, "mild", us), "such as 46 and 79 degF"));
  CHECK(contains(refused(Option::weather, "8 and 26 kg"), "is not"));
  CHECK(contains(refused(Option::weather, "-31 and 20"), "is not between -30 and 45 degC"));
}

TEST_CASE("new: hours within a day, and trays by length and width or none") {
  CHECK(standing(after(farm(), Option::hours, "45 min"), Option::hours) == "0.75 h");
  CHECK(contains(refused(Option::hours, "25 h"), "is not between 0.05 and 24 h"));
  CHECK(contains(refused(Option::hours, "2 kg"), "is not"));
  const Starter us = after(farm(), Option::units, "us");
  CHECK(standing(after(farm(), Option::trays, "60 by 30"), Option::trays) == "60 cm x 30 cm");
  CHECK(standing(after(farm(), Option::trays, "0.6 m x 0.3 m"), Option::trays) == "60 cm x 30 cm");
  CHECK(after(us, Option::trays, "20 x 10").tray->first == Approx(0.508));
  CHECK(standing(after(farm(), Option::trays, "None"), Option::trays) == "none");
  CHECK(standing(after(farm(), Option::trays, "no"), Option::trays) == "none");
  CHECK(contains(refused(Option::trays, "60"), "such as 60 cm x 30 cm, or none"));
  CHECK(contains(refused(Option::trays, "60", us), "such as 20 in x 10 in, or none"));
  CHECK(contains(refused(Option::trays, "60 cm x 300 cm"), "is not between 0.1 and 2 m"));
  CHECK(contains(refused(Option::trays, "60 kg x 30 cm"), "is not"));
  for (const Place& place : places()) CHECK(standing(after(farm(), Option::place, std::string(place.name)), Option::place) == place.name);
  CHECK(contains(refused(Option::place, "castle"), "there are "));
}
