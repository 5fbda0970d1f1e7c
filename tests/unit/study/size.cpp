#include "sim/study/size.hpp"

#include <atomic>
#include <set>
#include <string>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

Scenario farm_with_choices() {
  Scenario farm = test::goat_farm();
  farm.target.fill_rate = 0.8;
  farm.target.years = 0.8;
  farm.choose.choices = {{"line.trays_per_batch", {"2", "4", "5", "6"}}, {"rack.tiers", {"4", "5"}}};
  farm.choose.most_replications = 400;
  return farm;
}

}  // namespace

TEST_CASE("the grid is the product of the choices, the last varying fastest") {
  Choose choose;
  CHECK(grid(choose) == std::vector<std::vector<std::string>>{{}});
  choose.choices = {{"a", {"1", "2"}}, {"b", {"x", "y", "z"}}};
  const auto rows = grid(choose);
  REQUIRE(rows.size() == 6);
  CHECK(rows[0] == std::vector<std::string>{"1", "x"});
  CHECK(rows[1] == std::vector<std::string>{"1", "y"});
  CHECK(rows[5] == std::vector<std::string>{"2", "z"});
  choose.choices.push_back({"c", {}});
  CHECK(grid(choose).empty());
}

TEST_CASE("arithmetic passes a roomy design and names what is too little") {
  Scenario farm = test::goat_farm();
  REQUIRE(check_scenario(farm).empty());
  CHECK(screen(farm) == "");

  Scenario few = farm;
  few.line.trays_per_batch = 1;
  CHECK(screen(few).find("trays a day of at most") != std::string::npos);
  CHECK(screen(few).find(" kg a day; the target needs") != std::string::npos);
  few.units = Units::us;
  CHECK(screen(few).find(" lb a day; the target needs") != std::string::npos);
  CHECK(screen(few).find("kg") == std::string::npos);
  Scenario cramped = farm;
  cramped.rack.tiers = 1;
  cramped.rack.trays_per_tier = 6;
  CHECK(screen(cramped).find("places give at most") != std::string::npos);
  cramped.units = Units::us;
  CHECK(screen(cramped).find(" lb a day; the target needs") != std::string::npos);
  CHECK(screen(cramped).find("kg") == std::string::npos);
  Scenario hurried = farm;
  hurried.keeper.minutes_per_day = 4.0;
  CHECK(screen(hurried).find("keeper's time") != std::string::npos);
  Scenario one_bucket = farm;
  one_bucket.keeper.soak_buckets = 1;
  one_bucket.keeper.trays_per_bucket = 1.0;
  CHECK(screen(one_bucket).find("soak buckets can pass") == 0);
  CHECK(screen(one_bucket).find(" buckets", 20) != std::string::npos);  // how many would be enough
  Scenario dry = farm;
  dry.water.pump.shutoff = Metres(0.5);  // lifts to the lowest tier only
  CHECK(screen(dry).find("water") != std::string::npos);
}

TEST_CASE("sizing finds a design, says why the others are out, and does not depend on threads") {
  const Scenario farm = farm_with_choices();
  const SizeResult one = size(farm, {.threads = 1});
  const SizeResult two = size(farm, {.threads = 2});
  REQUIRE(one.chosen >= 0);
  REQUIRE(one.candidates.size() == 8);
  CHECK(one.keys == std::vector<std::string>{"line.trays_per_batch", "rack.tiers"});
  const Candidate& chosen = one.candidates[static_cast<std::size_t>(one.chosen)];
  CHECK(chosen.verdict == Verdict::chosen);
  CHECK(chosen.success.low >= 0.7);
  CHECK_FALSE(one.binding.empty());

  std::uint64_t years = 0;
  std::set<Verdict> seen;
  for (std::size_t i = 0; i < 8; ++i) {
    const Candidate& a = one.candidates[i];
    const Candidate& b = two.candidates[i];
    CAPTURE(i, a.why);
    CHECK(a.verdict == b.verdict);
    CHECK(a.why == b.why);
    CHECK(a.replications == b.replications);
    CHECK(a.cost_year.mean == b.cost_year.mean);
    CHECK(a.fill_rate.sd == b.fill_rate.sd);
    CHECK_FALSE(a.why.empty());
    CHECK((a.verdict == Verdict::screened) == (a.replications == 0));
    if (a.verdict == Verdict::costlier) CHECK(a.cost_year.mean > chosen.cost_year.mean);
    if (a.verdict == Verdict::fails) CHECK(a.success.mean < farm.target.years);
    years += a.replications;
    seen.insert(a.verdict);
  }
  CHECK(one.replications == years);
  CHECK(one.chosen == two.chosen);
  CHECK(one.runners_up == two.runners_up);
  CHECK(one.binding == two.binding);
  CHECK(seen.count(Verdict::screened) == 1);
  CHECK(seen.count(Verdict::fails) == 1);
  CHECK(one.runners_up.size() <= 5);
}

TEST_CASE("when nothing meets the target the nearest miss is named") {
  Scenario farm = farm_with_choices();
  farm.target.fill_rate = 0.999;
  farm.choose.choices = {{"line.trays_per_batch", {"4", "5"}}};
  const SizeResult result = size(farm, {.threads = 2});
  CHECK(result.chosen == -1);
  CHECK(result.settled);
  REQUIRE(result.nearest >= 0);
  CHECK(result.candidates[static_cast<std::size_t>(result.nearest)].verdict == Verdict::fails);
  CHECK(result.binding.find("the nearest") == 0);
}

TEST_CASE("of designs that serve alike and all fail, the cheapest is the nearest") {
  Scenario farm = farm_with_choices();
  farm.target.fill_rate = 0.999;
  farm.choose.choices = {{"grain.barley.price", {"0.5", "0.3", "0.4"}}};
  farm.choose.most_replications = 16;  // the same years for each
  const SizeResult result = size(farm, {.threads = 1});
  CHECK(result.chosen == -1);
  CHECK(result.nearest == 1);
}

TEST_CASE("where too few years are played to show anything, that is said, and the cheapest that seems to meet the target is named") {
  Scenario farm = farm_with_choices();
  farm.target.fill_rate = 0.1;
  farm.target.years = 0.99;
  farm.choose.choices = {{"grain.barley.price", {"0.5", "0.3", "0.4"}}};
  farm.choose.most_replications = 30;
  const SizeResult result = size(farm, {.threads = 1});
  CHECK(result.chosen == -1);
  CHECK(result.nearest == 1);
  CHECK(result.promise.find("with 30 replications of a design at most (choose.most_replications) not even one that meets the target in all of them") != std::string::npos);
  REQUIRE(result.help.size() == 1);
  CHECK(result.help.front().find("more replications: as far as it was played it reaches the target") == 0);
  farm.choose.most_replications = static_cast<int>(least_replications(farm, 3));
  CHECK(too_few_words(farm, 3).empty());
  CHECK(size(farm, {.threads = 1, .advice = false}).chosen == 1);
}

TEST_CASE("what a design takes to build is told of every one that is sound") {
  Scenario farm = farm_with_choices();
  farm.choose.choices = {{"line.trays_per_batch", {"4", "5", "0"}}};
  const SizeResult result = size(farm, {.threads = 1, .advice = false});
  REQUIRE(result.candidates[0].capital);
  REQUIRE(result.candidates[1].capital);
  CHECK(*result.candidates[1].capital - *result.candidates[0].capital == Approx(farm.prices.tray.value()));  // one more in the wash
  CHECK_FALSE(result.candidates[2].capital);
}

TEST_CASE("a design no dearer than the indifference is named beside the chosen one, not called dearer") {
  Scenario farm = farm_with_choices();
  farm.target.fill_rate = 0.5;
  farm.choose.indifference = 0.5;
  farm.choose.choices = {{"line.trays_per_batch", {"6"}}, {"line.wash", {"90 %", "91 %"}}};
  const auto other = [&](double years) {
    farm.target.years = years;
    const SizeResult result = size(farm, {.threads = 1});
    REQUIRE(result.chosen >= 0);
    CHECK(result.settled);
    return result.candidates[static_cast<std::size_t>(1 - result.chosen)];
  };
  // Sixteen years show that one year in three is met, but not that four in five are: then only the chosen one is followed further.
  const Candidate both = other(0.33), one = other(0.8);
  CAPTURE(both.why, one.why);
  CHECK(both.verdict == Verdict::meets);
  CHECK(both.why.find("too little to matter or to tell") != std::string::npos);
  CHECK(one.verdict == Verdict::undecided);
  CHECK(one.why.find("not followed further because it cannot be cheaper by more than 50 %") != std::string::npos);
}

TEST_CASE("a herd that grows: sizing tells until when the design it recommends is large enough") {
  Scenario farm = farm_with_choices();
  farm.choose.look_ahead = days(400.0);
  farm.groups.front().growth = 0.6;
  farm.spoilage.mould_rate = farm.spoilage.sour_rate = 1e-6;
  const SizeResult result = size(farm, {.threads = 2});
  REQUIRE(result.chosen >= 0);
  CHECK(result.runway.look_ahead == 730);  // whole years
  CHECK(result.runway_words.find("the herd") != std::string::npos);
  Scenario steady = farm;
  steady.groups.front().growth = 0.0;
  CHECK(size(steady, {.threads = 2}).runway_words.empty());
}

TEST_CASE("values that do not fit are screened with the reason, the rest goes on") {
  Scenario farm = farm_with_choices();
  farm.choose.choices = {{"rack.tiers", {"5", "-3", "five"}}};
  const SizeResult result = size(farm, {.threads = 1});
  REQUIRE(result.candidates.size() == 3);
  CHECK(result.candidates[0].verdict != Verdict::screened);
  CHECK(result.candidates[1].verdict == Verdict::screened);
  CHECK(result.candidates[2].verdict == Verdict::screened);
  CHECK(result.candidates[2].why.find("rack.tiers") != std::string::npos);
}

TEST_CASE("a stop before the start leaves everything undecided and says so") {
  std::atomic<bool> stop{true};
  SizeRequest request{.threads = 2};
  request.stop = &stop;
  const SizeResult result = size(farm_with_choices(), request);
  CHECK(result.stopped);
  CHECK_FALSE(result.settled);
  CHECK(result.chosen == -1);
  for (const Candidate& candidate : result.candidates) {
    CHECK(candidate.verdict == Verdict::undecided);
    CHECK_FALSE(candidate.why.empty());
  }
}

TEST_CASE("a search stopped on the way names the best so far") {
  Scenario farm = farm_with_choices();
  farm.target.fill_rate = 0.999;
  std::atomic<bool> stop{false};
  SizeRequest request{.threads = 1};
  request.stop = &stop;
  request.progress = [&](const std::string& stage, std::size_t, std::size_t) { stop = stop || stage != "screen"; };
  const SizeResult result = size(farm, request);
  CHECK(result.stopped);
  CHECK_FALSE(result.settled);
  CHECK(result.chosen == -1);
  REQUIRE(result.nearest >= 0);
  CHECK(result.binding.find("the best so far") == 0);
  CHECK(result.help.empty());
}

TEST_CASE("what is told beside the choice: a frontier that holds the promise's words, steps with intervals, what would help") {
  const SizeResult found = size(farm_with_choices(), {.threads = 2});
  CHECK(found.promise.find("as far as luck goes, with at least 95 % confidence the recommended design meets the target") == 0);
  REQUIRE_FALSE(found.frontier.empty());
  for (std::size_t i = 1; i < found.frontier.size(); ++i) {
    const Candidate& before = found.candidates[static_cast<std::size_t>(found.frontier[i - 1])];
    const Candidate& after = found.candidates[static_cast<std::size_t>(found.frontier[i])];
    CHECK(before.cost_year.mean < after.cost_year.mean);
    CHECK(before.fill_rate.mean < after.fill_rate.mean);
  }
  CHECK(found.equal_allocation > 0);

  Scenario cramped = farm_with_choices();  // arithmetic leaves none
  cramped.choose.choices = {{"line.trays_per_batch", {"1", "2"}}, {"rack.tiers", {"5"}}};
  cramped.rack.trays_per_tier = 2;
  const SizeResult none = size(cramped, {.threads = 1});
  CHECK(none.chosen == -1);
  REQUIRE(none.nearest >= 0);
  CHECK(none.candidates[static_cast<std::size_t>(none.nearest)].why.find("at least") != std::string::npos);
  REQUIRE_FALSE(none.help.empty());
  CHECK(none.help.front().find("the target holds in") != std::string::npos);
}

TEST_CASE("day-old soaked grain is no fodder: neither recommended nor offered for more money, unless the keeper asks for it") {
  Scenario farm = test::goat_farm();
  farm.target.unripe_fed = 0.1;
  farm.target.fill_rate = 0.8;
  farm.target.years = 0.5;
  farm.groups[0].animal_class = "goat-milking";
  farm.groups[0].ration = Kilograms(1.0);
  farm.choose.choices = {{"line.days_on_rack", {"1", "8"}}};
  const SizeResult grown = size(farm, {.threads = 1});
  REQUIRE(grown.candidates.size() == 2);
  CAPTURE(grown.candidates[0].why, grown.candidates[1].why);
  CHECK(grown.candidates[0].verdict == Verdict::fails);
  CHECK(grown.candidates[0].why.find("too many mats fed unripe") != std::string::npos);
  CHECK(grown.candidates[0].fill_rate.mean > 0.95);  // by weight it feeds them well
  CHECK(grown.chosen == 1);
  for (const std::string& more : grown.buys) CHECK(more.find("line.days_on_rack = 1:") == std::string::npos);
  farm.target.unripe_fed = 1.0;
  CHECK(size(farm, {.threads = 1}).candidates[0].verdict != Verdict::fails);
}

TEST_CASE("a margin makes no second design where every batch gets all its trays") {
  Scenario farm = farm_with_choices();
  farm.choose.choices = {{"line.trays_per_batch", {"5"}}, {"line.margin", {"0.1", "0.3"}}, {"line.sow", {"all", "as-wanted"}}};
  farm.choose.most_replications = 40;
  const SizeResult result = size(farm, {});
  REQUIRE(result.candidates.size() == 4);
  for (const Candidate& candidate : result.candidates) {
    const bool twin = candidate.values[1] == "0.3" && candidate.values[2] == "all";
    INFO(candidate.values[1] << " " << candidate.values[2] << ": " << candidate.why);
    CHECK((candidate.verdict == Verdict::screened) == twin);
    CHECK((candidate.why == "the same design as with line.margin = 0.1, since every batch gets all its trays") == twin);
  }
}

TEST_CASE("a rack that does not go into its room is ruled out, and one whose tiers leave no room for a mat") {
  Scenario farm = test::goat_farm();
  REQUIRE(screen(farm).empty());
  farm.room.height = Metres(1.5);
  CHECK(screen(farm).find("high, but the room is 1.5 m high: it does not fit") != std::string::npos);
  farm = test::goat_farm();
  farm.room.floor_area = SquareMetres(0.5);
  CHECK(screen(farm).find("the room's floor is 0.5 m2: it does not fit") != std::string::npos);
  farm = test::goat_farm();
  farm.rack.tier_spacing = Metres(0.15);
  CHECK(screen(farm).find("leave no room for a mat that is due") != std::string::npos);
  farm.line.days_on_rack = 4;  // cut young, mats stay low
  CHECK(screen(farm).find("leave no room") == std::string::npos);
  farm.line.days_on_rack = 8;
  farm.rack.tier_spacing = Metres(0.22);
  OwnSpecies& reeds = farm.species.emplace_back();
  reeds.name = "reeds";
  reeds.growth.height_end = 80.0;
  farm.grains.emplace_back(farm.grains.front()).name = "reeds";
  farm.grains.back().species = "reeds";
  farm.line.grains = {"barley"};
  CHECK(screen(farm).empty());  // nobody sows them
  farm.line.grains = {"barley", "reeds"};
  REQUIRE(farm.line.batches_per_day == 1);
  CHECK(screen(farm).empty());  // named, but the one batch of a day is barley
  farm.line.batches_per_day = 2;
  CHECK(screen(farm).find("leave no room") != std::string::npos);
}

TEST_CASE("cost alone decides only where arithmetic has ruled nothing out") {
  Scenario farm = farm_with_choices();
  farm.target.fill_rate = 0.5;
  farm.choose.choices = {{"rack.tiers", {"1", "5"}}};
  farm.choose.most_replications = 40;
  const SizeResult one = size(farm, {});
  REQUIRE(one.chosen == 1);
  REQUIRE(one.candidates[0].verdict == Verdict::screened);
  CHECK(one.binding.find("what was ruled out by arithmetic may be what keeps a cheaper one out") != std::string::npos);
  farm.choose.choices = {{"rack.tiers", {"4", "5"}}};
  const SizeResult both = size(farm, {});
  if (both.chosen == 0) CHECK(both.binding == "no cheaper design of those listed under [choose] fails the target: cost alone decides");
}

TEST_CASE("a margin says something where a kit sows as wanted") {
  Scenario farm = farm_with_choices();
  farm.kits = {{"way", "wanted", {"line.sow = as-wanted"}}, {"way", "every", {"line.sow = all"}}};
  farm.choose.choices = {{"line.margin", {"0.1", "0.6"}}, {"kit.way", {"wanted", "every"}}};
  farm.choose.most_replications = 40;
  const SizeResult result = size(farm, {});
  REQUIRE(result.candidates.size() == 4);
  for (const Candidate& candidate : result.candidates) {
    INFO(candidate.values[0] << " " << candidate.values[1] << ": " << candidate.why);
    CHECK((candidate.why.find("the same design") == 0) == (candidate.values[0] == "0.6" && candidate.values[1] == "every"));
  }
}
