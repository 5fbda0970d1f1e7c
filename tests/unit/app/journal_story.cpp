#include "sim/app/journal_story.hpp"

#include <set>
#include <string>

#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::app;
using Kind = Happening::Kind;

namespace {

// Mats of 5 kg, 10 kg wanted a feeding, eight days on the rack; day 20 is fed by what was soaked for day 12.
Story story(Units units = Units::metric) { return {{5.0, 0.9, 10.0, 8, 2}, Run{}, units}; }

std::vector<Reason> short_on(Story& s, int day, double wanted, double served) {
  s.note(day * minutes_per_day, {.kind = Kind::fed, .day = day, .trays = 1, .amount = wanted, .other = served});
  return s.explain();
}

void sow(Story& s, int day, double lot = 0.9, double vigour = 1.0) {
  s.note(day * minutes_per_day, {.kind = Kind::sown, .day = day, .trays = 2, .amount = lot, .other = vigour});
}

Happening of_batch(Kind kind, int day, int trays, double amount = 0.0, double other = 0.0) {
  return {.kind = kind, .day = day, .trays = trays, .amount = amount, .other = other};
}

}  // namespace

TEST_CASE("the chain of a short feeding: each cause from what happened to the batches that were due") {
  const auto cause = [](const Happening& happening, double lot = 0.9) {
    Story s = story();
    sow(s, 12, lot);
    s.note(19 * minutes_per_day, happening);
    return short_on(s, 20, 10.0, 4.0).front();
  };
  CHECK(cause(of_batch(Kind::soured, 12, 1)).cause == Cause::sour);
  CHECK(cause(of_batch(Kind::moulded, 12, 1)).words == "1 tray sown 13 March went mouldy");
  CHECK(cause(of_batch(Kind::no_grain, 12, 2)).cause == Cause::no_grain);
  CHECK(cause(of_batch(Kind::no_place, 12, 2)).cause == Cause::no_place);
  CHECK(cause(of_batch(Kind::no_bucket, 12, 2)).words == "2 trays not soaked on 13 March for want of buckets");
  CHECK(cause(of_batch(Kind::no_time, 12, 2)).words == "2 trays not sown on 13 March for want of time");
  CHECK(cause(of_batch(Kind::frosted, 12, 2)).words == "2 trays sown 13 March were killed by frost");
  CHECK(cause(of_batch(Kind::frosted, 12, 1)).cause == Cause::frost);
  CHECK(cause(of_batch(Kind::frozen_out, 12, 2)).words == "2 trays not sown on 13 March: the room was freezing");
  CHECK(cause(of_batch(Kind::composted, 11, 1)).cause == Cause::composted);
  CHECK(cause(of_batch(Kind::unready, 12, 2, 0.6)).cause == Cause::slow);
  const Reason poor = cause(of_batch(Kind::cut, 12, 2, 7.0, 0.6), 0.6);
  CHECK(poor.cause == Cause::thin_poor_lot);
  CHECK(poor.kilograms == Approx(3.0));
  CHECK(cause_words(poor.cause) == "poor lot -> thin mats -> short");
  CHECK(cause(of_batch(Kind::cut, 12, 2, 7.0, 0.8)).cause == Cause::thin);
  CHECK(cause(of_batch(Kind::cut, 12, 2, 9.9, 0.9)).cause == Cause::rack);  // nothing went wrong
  CHECK(cause(of_batch(Kind::soured, 2, 1)).cause == Cause::rack);          // long gone
}

TEST_CASE("mats that grow slowly for want of water are told as that, and not as cold") {
  const auto cause = [](double watered, double ready, const std::optional<Happening>& before = {}) {
    Story s = story();
    sow(s, 12);
    if (before) s.note(18 * minutes_per_day, *before);
    Happening unready = of_batch(Kind::unready, 12, 2, ready, 20.0);
    unready.water = watered;
    s.note(19 * minutes_per_day, unready);
    return short_on(s, 20, 10.0, 4.0).front();
  };
  CHECK(cause(0.25, 0.24).cause == Cause::slow_dry);  // with all its water it would have been ready
  CHECK(cause(0.25, 0.24).words.find("watered with 25 % of what mats drink") != std::string::npos);
  CHECK(cause(0.25, 0.05).cause == Cause::slow);      // cold did more
  CHECK(cause(1.0, 0.6).cause == Cause::slow);
  CHECK(cause(1.0, 0.6, of_batch(Kind::dried, 12, 2, 30.0, 0.0)).cause == Cause::slow_dry);
  CHECK(cause(1.0, 0.6, of_batch(Kind::dried, 12, 2, 3.0, 0.0)).cause == Cause::slow);
}

TEST_CASE("a round cut short for want of time is told of its own feeding only") {
  Story s = story();
  sow(s, 12);
  s.note(20 * minutes_per_day, {.kind = Kind::rushed, .day = 20});
  const Reason reason = short_on(s, 20, 10.0, 6.0).front();
  CHECK(reason.cause == Cause::no_hands);
  CHECK(reason.words == "the keeper's time was up before enough was cut");
  CHECK(short_on(s, 21, 10.0, 6.0).front().cause == Cause::rack);
}

TEST_CASE("a round that found its mats frozen is told as frost, of its own feeding only") {
  Story s = story();
  sow(s, 12);
  s.note(20 * minutes_per_day, {.kind = Kind::ice, .day = 20, .trays = 4});
  CHECK(short_on(s, 20, 10.0, 6.0).front().cause == Cause::frost);
  CHECK(short_on(s, 21, 10.0, 6.0).front().cause == Cause::rack);
}

TEST_CASE("what was not soaked or sown because nobody was there is told as that, full buckets and foul grain too") {
  const auto told = [](const std::vector<Happening>& all) {
    Story s = story();
    sow(s, 2);
    for (const Happening& h : all) s.note(12 * minutes_per_day, h);
    return short_on(s, 20, 10.0, 1.0).front();
  };
  CHECK(told({of_batch(Kind::nobody_soaked, 12, 2)}).words == "2 trays not soaked on 13 March: nobody was there");
  CHECK(told({of_batch(Kind::foul, 12, 2)}).words == "2 trays not sown on 13 March: nobody was there, and the grain went foul");
  const Happening missed{.kind = Kind::missed_round, .day = 12}, fed{.kind = Kind::fed, .day = 12, .trays = 1, .amount = 10.0, .other = 0.0};
  const Reason full = told({missed, fed, of_batch(Kind::no_bucket, 12, 2)});
  CHECK(full.words == "2 trays not soaked on 13 March: the buckets were full of grain that nobody had sown");
  for (const Kind kind : {Kind::nobody_soaked, Kind::foul}) CHECK(told({of_batch(kind, 12, 2)}).cause == Cause::nobody);
  CHECK(full.cause == Cause::nobody);
  // A round that was held in between emptied them.
  CHECK(told({missed, fed, fed, of_batch(Kind::no_bucket, 12, 2)}).cause == Cause::no_bucket);
}

TEST_CASE("an empty rack at the start is no rack that is too small") {
  Story s = story();
  CHECK(short_on(s, 0, 10.0, 0.0).front().words == "the rack was empty at the start: nothing has been sown yet");
  sow(s, 1);
  const Reason reason = short_on(s, 5, 10.0, 0.0).front();
  CHECK(reason.cause == Cause::start);
  CHECK(reason.words == "the rack was empty at the start: the first mats were sown on 2 March and are due on 10 March");
  CHECK(short_on(s, 9, 10.0, 4.0).front().cause == Cause::rack);
  CHECK(s.summary().size() == 2);
}

TEST_CASE("what explains little of a shortage does not stand for it") {
  Story s = story();
  sow(s, 12);
  const auto reasons = short_on(s, 20, 10.6, 3.0);
  REQUIRE(reasons.size() == 2);
  CHECK(reasons[0].cause == Cause::rack);
  CHECK(reasons[0].kilograms == Approx(7.0));
  CHECK(reasons[0].words == "nothing else went wrong: the rack gives less than is wanted");
  CHECK(reasons[1].cause == Cause::demand);
  Story first = story();
  CHECK(short_on(first, 0, 10.6, 3.0).front().cause == Cause::start);
}

TEST_CASE("a meal is more than usual against its own round: who is fed once a day eats mornings") {
  const auto evening = [](double wanted) {
    Story s({5.0, 0.9, 15.0, 8, 2, 1.0, 6.0}, Run{}, Units::metric);
    sow(s, 12);
    s.note(20 * minutes_per_day, {.kind = Kind::fed, .day = 20, .session = 1, .trays = 1, .amount = wanted, .other = 6.0});
    return s.explain().front();
  };
  CHECK(evening(9.0).cause == Cause::demand);
  CHECK(evening(9.0).kilograms == Approx(3.0));
  CHECK(evening(6.2).cause == Cause::rack);
  // Worked out of the plan: goats twice, hens and ewes mornings.
  const Plan plan = make_plan(test::small_farm());
  const Usual usual = usual_of(plan);
  CHECK(usual.feeding_kg == Approx(9 * 1.5 / 2 + 40 * 0.03 + 4 * 1.0));
  CHECK(usual.evening_kg == Approx(9 * 1.5 / 2));
}

TEST_CASE("every cause is named by its chain, each by one of its own") {
  std::set<std::string> chains;
  for (const Kind kind : {Kind::no_grain, Kind::no_bucket, Kind::no_time, Kind::no_place, Kind::moulded, Kind::soured, Kind::frosted, Kind::composted, Kind::nobody_soaked}) {
    Story s = story();
    sow(s, 12);
    s.note(19 * minutes_per_day, of_batch(kind, 12, 2));
    const std::string chain = cause_words(short_on(s, 20, 10.0, 4.0).front().cause);
    INFO(chain);
    CHECK(chain.find(" -> ") != std::string::npos);
    CHECK(chains.insert(chain).second);
  }
  CHECK(chains.contains("too few buckets -> trays not soaked -> short"));
  CHECK(chains.contains("no time left -> work undone -> short"));
}

TEST_CASE("a pump that stopped stands behind mats that dried") {
  Story s = story();
  sow(s, 12);
  s.note(15 * minutes_per_day, {.kind = Kind::pump, .amount = 30.0});
  s.note(16 * minutes_per_day, of_batch(Kind::dried, 12, 2, 30.0, 0.3));
  s.note(20 * minutes_per_day, of_batch(Kind::cut, 12, 2, 6.0, 0.6));
  const auto reasons = short_on(s, 20, 10.0, 6.0);
  CHECK(reasons.front().cause == Cause::thin_dry);
  CHECK(cause_words(reasons.front().cause) == "no water -> sprouts dried -> thin mats -> short");
  CHECK(reasons.front().words.find("the pump stood for 30 h") != std::string::npos);
}

TEST_CASE("a missed round explains its feeding alone, more wanted than usual is a reason too") {
  Story s = story();
  sow(s, 12);
  s.note(20 * minutes_per_day, {.kind = Kind::missed_round, .day = 20});
  CHECK(short_on(s, 20, 10.0, 0.0).front().cause == Cause::missed_round);
  CHECK(short_on(s, 21, 14.0, 10.0).front().cause == Cause::demand);
  const auto lines = s.summary();
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] == "missed round -> nothing fed: 1 feeding, 10.0 kg missing");  // most first
}

TEST_CASE("in US units the story weighs in pounds") {
  Story s = story(Units::us);
  sow(s, 12);
  short_on(s, 20, 10.0, 5.0);
  CHECK(s.summary().front().find("11.0 lb missing") != std::string::npos);
}

TEST_CASE("mats that the cold held back are told of the cold, and never of a negative growth") {
  const auto words = [](double ready, double room, double vigour, Units units = Units::metric) {
    Story s({5.0, 0.9, 10.0, 8, 2, 1.1}, Run{}, units);
    sow(s, 12, 0.9, vigour);
    s.note(19 * minutes_per_day, of_batch(Kind::unready, 12, 2, ready, room));
    return short_on(s, 20, 10.0, 4.0).front().words;
  };
  CHECK(words(-0.05, -9.0, 1.0) == "2 trays sown 13 March had not begun to grow; too cold for them (-9 degC in the room now)");
  CHECK(words(0.6, 15.0, 0.9, Units::us) == "2 trays sown 13 March had 60 % of the growth to be fed; too cold for them (59 degF in the room now); the lot is slow");
  CHECK(words(0.6, 36.0, 1.0) == "2 trays sown 13 March had 60 % of the growth to be fed; too hot for them (36 degC in the room now)");
  CHECK(words(0.95, 20.0, 0.9) == "2 trays sown 13 March had 95 % of the growth to be fed; the lot is slow");
}

TEST_CASE("an outage that still lasts is told for so long as it has lasted") {
  Story s = story();
  sow(s, 12);
  s.note(19 * minutes_per_day, {.kind = Kind::power, .amount = 72.0});
  s.note(20 * minutes_per_day, of_batch(Kind::dried, 12, 2, 24.0, 0.3));
  s.note(20 * minutes_per_day, of_batch(Kind::cut, 12, 2, 6.0, 0.6));
  CHECK(short_on(s, 20, 10.0, 6.0).front().words.find("the power was out for 24 h so far") != std::string::npos);
  s.note(22 * minutes_per_day, of_batch(Kind::cut, 12, 2, 6.0, 0.6));
  CHECK(short_on(s, 22, 10.0, 6.0).front().words.find("the power was out for 72 h") != std::string::npos);
}
