// Keys of grades, short seasons and trials: what wins, what is refused, what is warned of.

#include <algorithm>

#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Scenario with(const std::vector<std::string>& settings) {
  const Reading reading = read_scenario(sample::small, settings);
  for (const Problem& p : reading.problems) UNSCOPED_INFO(p.key << " " << p.why);
  REQUIRE(reading.scenario.has_value());
  return *reading.scenario;
}

bool refuses(const std::vector<std::string>& settings, const std::string& key, const std::string& why) {
  const Reading reading = read_scenario(sample::small, settings);
  return std::any_of(reading.problems.begin(), reading.problems.end(),
                     [&](const Problem& p) { return p.key == key && p.why.find(why) != std::string::npos; });
}

bool warns(const Scenario& s, const std::string& of) {
  const auto all = cautions(s);
  return std::any_of(all.begin(), all.end(), [&](const std::string& c) { return c.find(of) != std::string::npos; });
}

std::string told(const Scenario& s, const char* key) { return get_key(s, key).value_or("nothing"); }

}  // namespace

TEST_CASE("a grade says what is not stated, in whatever order they stand") {
  const GrainSupply feed = with({"grain.barley.grade=feed"}).grains[0];
  CHECK(feed.grade.germination_mean == 0.85);
  CHECK(feed.price() == Approx(0.9 * feed.price_per_kg));
  for (const auto& settings : {std::vector<std::string>{"grain.barley.germination=70 %", "grain.barley.grade=seed"},
                               std::vector<std::string>{"grain.barley.grade=seed", "grain.barley.germination=70 %"}}) {
    const GrainSupply seed = with(settings).grains[0];
    CHECK(seed.grade.germination_mean == Approx(0.7));
    CHECK(seed.grade.inoculum == 0.5);
    CHECK(seed.price_multiple == 4.0);
  }
  const GrainSupply back = with({"grain.barley.grade=seed", "grain.barley.grade=own"}).grains[0];
  CHECK(back.grade.inoculum == 1.0);
  CHECK(back.price_multiple == 1.0);
  CHECK(with({"grain.barley.grade=bulk", "grain.barley.tray_spread=0.03"}).grains[0].grade.tray_rho == 0.03);
  CHECK(told(with({"grain.barley.grade=bulk"}), "grain.barley.grade") == "bulk");
}

TEST_CASE("a grade can be chosen") {
  Scenario s = with({"choose.grain.barley.grade=feed, bulk, seed", "choose.grain.barley.trial=0, 100"});
  REQUIRE(s.choose.choices.size() == 2);
  CHECK_FALSE(set_key(s, "grain.barley.grade", "seed").has_value());
  CHECK(s.grains[0].grade.germination_mean == 0.92);
  CHECK(s.grains[0].price_multiple == 4.0);
  CHECK(refuses({"choose.grain.barley.grade=feed, fodder"}, "choose.grain.barley.grade", "must be"));
}

TEST_CASE("the resolved text of grades, seasons and trials reads as the same scenario") {
  const Scenario s = with({"grain.barley.grade=feed", "grain.barley.year_spread=0.4", "grain.barley.short_from=2026-11-15",
                           "grain.barley.short_until=2027-02-28", "grain.barley.short_chance=0.2", "grain.barley.short_delay=9 d",
                           "grain.barley.short_grade=seed", "grain.barley.trial=200", "grain.barley.keep_back=60 kg"});
  CHECK(s.grains[0].shortage.from == 319);
  CHECK(s.grains[0].shortage.until == 59);
  const Reading again = read_scenario(resolved_text(s));
  REQUIRE(again.scenario.has_value());
  CHECK(*again.scenario == s);
  CHECK(again.scenario->grains[0].grade.germination_mean == s.grains[0].grade.germination_mean);
  CHECK(told(s, "grain.barley.short_from") == "2026-11-15");
  CHECK(told(with({}), "grain.barley.short_from") == "none");
  CHECK(with({"grain.barley.short_from=2028-02-29", "grain.barley.short_until=2028-12-31"}).grains[0].shortage.from == 60);
}

TEST_CASE("the resolved text remarks on what a grade says and states what the keeper does") {
  const auto warns = [](const Scenario& s) {
    const auto all = cautions(s);
    return std::any_of(all.begin(), all.end(), [](const std::string& c) { return c.find("let the grade say") != std::string::npos; });
  };
  const auto again = [](const Scenario& s, const std::vector<std::string>& settings = {}) {
    const Reading reading = read_scenario(resolved_text(s), settings);
    REQUIRE(reading.scenario.has_value());
    return *reading.scenario;
  };
  const Scenario feed = with({"grain.barley.grade=feed"});
  CHECK_FALSE(warns(feed));
  CHECK_FALSE(warns(again(feed)));
  CHECK(resolved_text(feed).find("\n# germination = 0.8") != std::string::npos);
  CHECK(resolved_text(again(feed)) == resolved_text(feed));
  // Another grade chosen of the text in a file is that grade.
  CHECK(again(feed, {"grain.barley.grade=seed"}).grains[0].grade.germination_mean == with({"grain.barley.grade=seed"}).grains[0].grade.germination_mean);
  CHECK(again(feed, {"grain.barley.grade=seed"}).grains[0].price_multiple == 4.0);
  const Scenario chosen = with({"choose.grain.barley.grade=own, seed"});
  CHECK(again(chosen, {"grain.barley.grade=seed"}).grains[0].grade.germination_mean == with({"grain.barley.grade=seed"}).grains[0].grade.germination_mean);
  const Scenario stated = with({"grain.barley.grade=feed", "grain.barley.germination=70 %"});
  CHECK(warns(stated));
  CHECK(warns(again(stated)));
  CHECK(again(stated, {"grain.barley.grade=seed"}).grains[0].grade.germination_mean == Approx(0.7));
  // A grain of no grade is written as ever.
  CHECK(resolved_text(with({})).find("\n# ") == std::string::npos);
}

TEST_CASE("what cannot be is refused, all at once") {
  CHECK(refuses({"grain.barley.short_from=2026-06-01"}, "grain.barley.short_from", "has no end"));
  CHECK(refuses({"grain.barley.short_until=2026-06-01"}, "grain.barley.short_until", "has no beginning"));
  CHECK(refuses({"grain.barley.short_chance=0.2"}, "grain.barley.short_chance", "not when"));
  CHECK(refuses({"grain.barley.trial=100", "grain.barley.keep_back=900 kg"}, "grain.barley.keep_back", "does not fit in the bin"));
  CHECK(refuses({"grain.barley.trial=2000", "grain.barley.bag=100 g"}, "grain.barley.trial", "more than half of a bag"));
  CHECK(refuses({"grain.barley.trial=100", "grain.barley.trial_time=30 d", "grain.barley.use_by=20 d"}, "grain.barley.trial_time", "longer than grain keeps"));
  const Reading reading = read_scenario(sample::small, {"grain.barley.trial=100", "grain.barley.keep_back=900 kg", "grain.barley.short_chance=0.2"});
  CHECK(reading.problems.size() == 2);
  for (const Problem& p : reading.problems) CHECK(p.line == 6);  // of its [[grain]]
  // Without a trial nothing is kept back.
  CHECK(read_scenario(sample::small, {"grain.barley.keep_back=900 kg"}).problems.empty());
}

TEST_CASE("what does nothing is warned of, not what sizing may choose") {
  CHECK_FALSE(warns(with({}), "grain.barley"));
  CHECK(warns(with({"grain.barley.accept=90 %"}), "grain.barley: accept is without effect: trial is 0"));
  CHECK(warns(with({"grain.barley.accept=90 %", "grain.barley.keep_back=50 kg"}), "accept and keep_back are without effect"));
  CHECK(warns(with({"choose.grain.barley.keep_back=0 kg, 50 kg"}), "keep_back is without effect"));
  CHECK_FALSE(warns(with({"grain.barley.accept=90 %", "choose.grain.barley.trial=0, 100"}), "without effect"));
  CHECK_FALSE(warns(with({"grain.barley.accept=90 %", "choose.grain.1.trial=0, 100"}), "without effect"));
  CHECK_FALSE(warns(with({"grain.barley.accept=90 %", "grain.barley.trial=50"}), "without effect"));
  const std::vector<std::string> season{"grain.barley.short_from=2026-06-01", "grain.barley.short_until=2026-07-31"};
  CHECK(warns(with(season), "never short, because short_chance is 0"));
  CHECK(warns(with({season[0], season[1], "grain.barley.short_chance=0.3"}), "nothing changes"));
  CHECK_FALSE(warns(with({season[0], season[1], "grain.barley.short_chance=0.3", "grain.barley.short_price=50 %"}), "grain.barley"));
  CHECK(warns(with({"grain.barley.grade=feed", "grain.barley.germination=90 %"}), "germination is stated, and stays the same whatever the grade"));
  CHECK_FALSE(warns(with({"grain.barley.grade=feed"}), "germination is stated"));
  CHECK(warns(with({"choose.grain.barley.grade=bulk, seed"}), "dressed seed is poisonous as feed: buy it"));
  CHECK_FALSE(warns(with({"choose.grain.barley.grade=bulk, feed"}), "buy it untreated"));
  CHECK(warns(with({"grain.barley.trial=100", "grain.barley.accept=99 %"}), "of 100 lots would pass"));
  CHECK_FALSE(warns(with({"grain.barley.trial=100"}), "of 100 lots would pass"));
}
