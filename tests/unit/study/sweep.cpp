// Where the points of a sweep lie, how --vary is read, and what a sweep makes of its points.

#include "sim/study/sweep.hpp"

#include <cmath>
#include <map>
#include <set>

#include "sim/study/sweep_digest.hpp"
#include "sim/study/sweep_run.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

Sweep sweep_of(SweepMethod method, const std::vector<std::string>& vary, std::optional<std::uint64_t> points = {},
               const Scenario& farm = test::small_farm()) {
  Problems problems;
  std::vector<SweepAxis> axes;
  for (const std::string& text : vary) axes.push_back(read_axis(farm, text, method, problems));
  Sweep sweep = make_sweep(farm, method, std::move(axes), points, problems);
  for (const Problem& p : problems) FAIL(p.key << " " << p.value << ": " << p.why);
  return sweep;
}

std::string complaint(SweepMethod method, const std::vector<std::string>& vary, std::optional<std::uint64_t> points = {}) {
  Problems problems;
  std::vector<SweepAxis> axes;
  for (const std::string& text : vary) axes.push_back(read_axis(test::small_farm(), text, method, problems));
  if (problems.empty()) make_sweep(test::small_farm(), method, std::move(axes), points, problems);
  return problems.empty() ? "" : problems.front().key + " " + problems.front().value + ": " + problems.front().why;
}

std::vector<double> at(SweepPoints& points, std::uint64_t point) {
  const auto values = points.at(point);
  return {values.begin(), values.end()};
}

}  // namespace

TEST_CASE("sweep: a list keeps its values, a range its ends, and both their units") {
  const Sweep sweep = sweep_of(SweepMethod::grid, {"line.soak=6 h, 0.5 d", "rack.tiers=2:10:3", "line.wash=10 %:90 %",
                                                   "water.feed=parallel,cascade", "grain.barley.price=0.3"});
  CHECK(sweep.axes[0].numbers == std::vector<double>{6.0, 12.0});
  CHECK(sweep.axes[0].unit == "h");
  CHECK(sweep.axes[1].numbers == std::vector<double>{2.0, 6.0, 10.0});
  CHECK(sweep.axes[2].numbers.size() == 5);
  CHECK(sweep.axes[2].low == Approx(0.1));
  CHECK(sweep.axes[2].numbers.back() == Approx(0.9));
  CHECK(sweep.axes[3].words == std::vector<std::string>{"parallel", "cascade"});
  CHECK(sweep.points == 2 * 3 * 5 * 2);
  CHECK(axis_text(sweep.axes[0], 12.0) == "0.5 d");  // as typed
  CHECK(axis_text(sweep.axes[3], 1.0) == "cascade");
}

TEST_CASE("sweep: values are told as they were typed, those of a range in the keeper's units") {
  Scenario us = test::small_farm();
  us.units = Units::us;
  Problems problems;
  const auto axis = [&](const char* text) { return read_axis(us, text, SweepMethod::grid, problems); };
  const SweepAxis warm = axis("room.heater_set=60 degF,15 degC"), thick = axis("room.insulation=4 in,6 in"), share = axis("line.wash=90 %,1"), range = axis("room.heater_set=50 degF:70 degF:3");
  const SweepAxis bare = axis("room.air_changes=2,3");
  REQUIRE(problems.empty());
  CHECK(axis_text(warm, warm.numbers[0]) == "60 degF");
  CHECK(axis_text(warm, warm.numbers[1]) == "15 degC");
  CHECK(axis_text(thick, thick.numbers[1]) == "6 in");
  CHECK(axis_text(share, share.numbers[0]) == "90 %");
  CHECK(axis_text(bare, 3.0) == "3");
  CHECK(axis_text(range, range.numbers[1]) == "60 degF");
  CHECK(axis_text(range, 15.5556) == "60 degF");
  const SweepAxis soak = read_axis(test::small_farm(), "line.soak=6 h:14 h:3", SweepMethod::grid, problems);
  CHECK(axis_text(soak, 10.0) == "10 h");
}

TEST_CASE("sweep: the last key of a grid varies fastest, and every combination comes once") {
  const Sweep sweep = sweep_of(SweepMethod::grid, {"rack.tiers=3,4", "line.soak=6 h,8 h,10 h"});
  SweepPoints points(sweep);
  CHECK(at(points, 0) == std::vector<double>{3.0, 6.0});
  CHECK(at(points, 1) == std::vector<double>{3.0, 8.0});
  CHECK(at(points, 5) == std::vector<double>{4.0, 10.0});
  std::set<std::vector<double>> seen;
  for (std::uint64_t p = 0; p < sweep.points; ++p) CHECK(seen.insert(at(points, p)).second);
}

TEST_CASE("sweep: a clock time is a listed word, whatever colons it has") {
  const Sweep sweep = sweep_of(SweepMethod::grid, {"keeper.morning=06:30,07:30", "keeper.evening=17:30,18:30"});
  CHECK(sweep.axes[0].words == std::vector<std::string>{"06:30", "07:30"});
  CHECK(sweep.points == 4);
  CHECK(sweep_of(SweepMethod::grid, {"keeper.morning=06:30"}).points == 1);
}

TEST_CASE("sweep: what cannot vary is refused, with a reason") {
  CHECK(complaint(SweepMethod::grid, {"rack.teirs=3,4"}) == "rack.teirs : is not a known key");
  CHECK(complaint(SweepMethod::grid, {"rack.tiers=3,4", "line.soak=8 h", "rack.tiers=5"}) == "rack.tiers : varies twice");
  CHECK(complaint(SweepMethod::grid, {"grain.1.price=0.3,0.4", "grain.barley.price=0.5"}) == "grain.barley.price : varies twice, also as grain.1.price");
  CHECK(complaint(SweepMethod::grid, {"run.random_seed=1,2"}).find("same luck") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"run.length=100 d,365 d"}).find("cannot be compared") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"run.start=2026-03-01,2026-06-01"}).find("cannot be compared") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak=10 h,600 min"}) == "line.soak 600 min: is listed twice, also as 10 h");
  CHECK(complaint(SweepMethod::grid, {"run.ignorance=true,yes"}) == "run.ignorance yes: is listed twice, also as true");
  CHECK(complaint(SweepMethod::grid, {"choose.rack.tiers=1,2"}) != "");
  CHECK(complaint(SweepMethod::grid, {"line.soak=3 kg,4 h"}).find("not a length of time") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak=8 h:6 h"}).find("above the lower end") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak=6 h:8 h:1"}).find("from 2") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak"}).find("KEY=") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak=6 h,,8 h"}).find("empty value") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak=6 h", "line.soak=8 h"}).find("varies twice") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {}).find("at least once") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak=6 h,8 h"}, 10).find("own number") != std::string::npos);
  CHECK(complaint(SweepMethod::latin, {"line.soak=6 h:8 h"}).find("say how many") != std::string::npos);
  CHECK(complaint(SweepMethod::sensitivity, {"line.soak=6 h:8 h"}, 4).find("too few") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"line.soak=6 h:8 h:1000000", "rack.tiers=1:40:40", "line.wash=0:1:1000"}) != "");
  CHECK(complaint(SweepMethod::even, {"line.soak=6 h:8 h"}, most_sweep_points + 1).find("makes more than") != std::string::npos);
  CHECK(complaint(SweepMethod::grid, {"water.feed=parallel,sideways"}).find("water.feed sideways: ") == 0);
}

TEST_CASE("sweep: a Latin hypercube has one point in each slice of each key") {
  for (const std::uint64_t n : {1U, 2U, 7U, 100U, 1000U}) {
    const Sweep sweep = sweep_of(SweepMethod::latin, {"line.soak=6 h:14 h", "line.wash=0:1"}, n);
    SweepPoints points(sweep);
    for (const std::size_t axis : {0U, 1U}) {
      std::set<std::uint64_t> slices;
      for (std::uint64_t p = 0; p < n; ++p) {
        const double share = (at(points, p)[axis] - sweep.axes[axis].low) / (sweep.axes[axis].high - sweep.axes[axis].low);
        slices.insert(static_cast<std::uint64_t>(share * static_cast<double>(n)));
      }
      CHECK(slices.size() == n);
    }
  }
}

TEST_CASE("sweep: listed values and words come equally often where the points are laid by shares, and are set as listed") {
  const Scenario farm = test::small_farm();
  const Sweep sweep = sweep_of(SweepMethod::latin, {"water.feed=parallel,cascade", "line.soak=6 h,8 h,12 h"}, 12, farm);
  SweepPoints points(sweep);
  std::map<std::string, int> feeds, soaks;
  for (std::uint64_t p = 0; p < 12; ++p) {
    const auto values = at(points, p);
    Scenario there = farm;
    for (std::size_t a = 0; a < 2; ++a) CHECK_FALSE(set_axis(there, sweep.axes[a], values[a]));
    CHECK(there.water.feed == (axis_text(sweep.axes[0], values[0]) == "cascade" ? water::Feed::cascade : water::Feed::parallel));
    CHECK(there.line.soak.value() == values[1]);
    ++feeds[axis_text(sweep.axes[0], values[0])];
    ++soaks[axis_text(sweep.axes[1], values[1])];
  }
  CHECK(feeds == std::map<std::string, int>{{"parallel", 6}, {"cascade", 6}});
  CHECK(soaks == std::map<std::string, int>{{"6 h", 4}, {"8 h", 4}, {"12 h", 4}});
}

TEST_CASE("sweep: points taken alone or in any order are the same") {
  for (const SweepMethod method : {SweepMethod::latin, SweepMethod::even, SweepMethod::sensitivity}) {
    const Sweep sweep = sweep_of(method, {"line.soak=6 h:14 h", "rack.tiers=1:9", "line.wash=0:1"}, 64);
    SweepPoints in_turn(sweep), jumping(sweep);
    std::vector<std::vector<double>> all;
    for (std::uint64_t p = 0; p < sweep.points; ++p) all.push_back(at(in_turn, p));
    for (std::uint64_t p = sweep.points; p-- > 0;) {
      INFO(method_name(method) << " " << p);
      CHECK(at(jumping, p) == all[p]);
    }
  }
}

TEST_CASE("sweep: each way of laying points has one name") {
  for (const SweepMethod method : {SweepMethod::grid, SweepMethod::latin, SweepMethod::even, SweepMethod::sensitivity})
    CHECK(method_named(method_name(method)) == method);
  CHECK(method_name(SweepMethod::sensitivity) == "sobol");
  CHECK(method_named("evenly") == std::nullopt);
}

TEST_CASE("sweep: the Sobol sequence begins in the middle, and whole numbers come equally often") {
  const Sweep sweep = sweep_of(SweepMethod::even, {"line.soak=6 h:14 h", "rack.tiers=1:4"}, 255);
  SweepPoints points(sweep);
  CHECK(at(points, 0) == std::vector<double>{10.0, 3.0});
  std::map<double, int> tiers;
  for (std::uint64_t p = 0; p < 255; ++p) ++tiers[at(points, p)[1]];
  for (const double t : {1.0, 2.0, 3.0, 4.0}) CHECK(std::abs(tiers[t] - 64) <= 1);
}

TEST_CASE("sweep: a row of a sensitivity sweep mixes one column of its second point into the first") {
  const Sweep sweep = sweep_of(SweepMethod::sensitivity, {"line.soak=6 h:14 h", "line.wash=0:1"}, 16);
  CHECK(sweep.points == 64);
  SweepPoints points(sweep);
  for (std::uint64_t row = 0; row < 16; ++row) {
    const auto a = at(points, 4 * row), b = at(points, 4 * row + 1);
    CHECK(at(points, 4 * row + 2) == std::vector<double>{b[0], a[1]});
    CHECK(at(points, 4 * row + 3) == std::vector<double>{a[0], b[1]});
  }
  CHECK(sweep.block_points() % 4 == 0);
}

TEST_CASE("sweep: blocks depend on the sweep alone and stay few however many points there are") {
  Sweep sweep;
  sweep.replications = 100;
  for (const std::uint64_t points : {1ULL, 10ULL, 10'000ULL, 1'000'000ULL, 1'000'000'000ULL}) {
    sweep.points = points;
    CHECK(sweep.block_points() >= 1);
    CHECK(sweep.blocks() * sweep.block_points() >= points);
    CHECK((sweep.blocks() - 1) * sweep.block_points() < points);
  }
  sweep.points = 10'000'000;  // 10^9 rack-years
  CHECK(sweep.blocks() < 20'000);
  sweep.replications = 1'000'000;
  sweep.points = 3;
  CHECK(sweep.blocks() == 3);
}

TEST_CASE("sweep: unsound points are told apart from hopeless ones and from those played") {
  Scenario farm = test::small_farm();
  farm.run.replications = 4;
  farm.run.length = days(60);
  farm.line.trays_per_batch = 3;
  // Nobody can sow more trays at once than there are places; with a place each the animals go hungry.
  const Sweep sweep = sweep_of(SweepMethod::grid, {"rack.tiers=1,4", "rack.trays_per_tier=1,13"}, {}, farm);
  SweepPlayer player(farm, sweep, nullptr);
  const auto rows = player.play(0, 4);
  REQUIRE(rows);
  CHECK((*rows)[0].status != PointStatus::played);
  CHECK_FALSE((*rows)[0].why.empty());
  CHECK_FALSE((*rows)[0].has_numbers());
  CHECK((*rows)[3].status == PointStatus::played);
  CHECK((*rows)[3].why.empty());
  const Spread& fill = (*rows)[3].spreads[fill_rate_column];
  CHECK(fill.mean > 0.0);
  CHECK(fill.standard_error == Approx(fill.sd / 2.0));
  CHECK(fill.low <= fill.median);
  CHECK(fill.median <= fill.high);
}

TEST_CASE("sweep: a point is the same whether it is played alone, in a block or with all") {
  Scenario farm = test::small_farm();
  farm.run.replications = 3;
  farm.run.length = days(40);
  Sweep sweep = sweep_of(SweepMethod::even, {"line.soak=6 h:14 h", "line.sowing_density=3 kg/m2:7 kg/m2"}, 6, farm);
  sweep.play_all = true;
  SweepPlayer one(farm, sweep, nullptr), other(farm, sweep, nullptr);
  const auto all = one.play(0, 6);
  REQUIRE(all);
  for (std::uint64_t p = 6; p-- > 0;) {
    const auto alone = other.play(p, 1);
    REQUIRE(alone);
    CHECK(alone->front().values == (*all)[p].values);
    CHECK(alone->front().success == (*all)[p].success);
    for (std::size_t c = 0; c < sweep_column_count; ++c)
      CHECK(alone->front().spreads[c].mean == (*all)[p].spreads[c].mean);
  }
  // Half a limit kept is no target met: no money at all is allowed here.
  farm.target.fill_rate = 0.0;
  farm.target.unripe_fed = 1.0;
  farm.target.mean_yearly_cost = 1.0;
  sweep.points = 1;
  const auto dear = SweepPlayer(farm, sweep, nullptr).play(0, 1);
  REQUIRE(dear);
  CHECK(dear->front().success == 1.0);
  CHECK(dear->front().gap < -1.0);
  const std::atomic<bool> stop{true};
  CHECK_FALSE(SweepPlayer(farm, sweep, &stop).play(0, 1));
}

TEST_CASE("sweep: the digest names the cheapest that meet the target, or else the nearest") {
  const Sweep sweep = sweep_of(SweepMethod::grid, {"rack.tiers=2,3,4"});
  const auto row = [&](std::uint64_t point, double success, double cost) {
    SweepRow r;
    r.point = point;
    r.values = {2.0 + static_cast<double>(point % 3)};
    r.success = 1.0;  // the limits taken together are one requirement of several
    r.gap = success - 0.9;
    r.spreads[cost_year_column].mean = cost;
    r.spreads[fill_rate_column].mean = success;
    return r;
  };
  SweepDigest digest(sweep);
  digest.add(row(0, 0.5, 10.0));
  digest.add(row(1, 0.8, 30.0));
  digest.add(row(2, 0.8, 20.0));
  CHECK_FALSE(digest.target_met());
  CHECK(digest.leaders().front().point == 2);
  digest.add(row(3, 0.9, 90.0));
  digest.add(row(4, 1.0, 80.0));
  digest.add(row(5, 0.2, 1.0));
  CHECK(digest.target_met());
  REQUIRE(digest.leaders().size() == 2);
  CHECK(digest.leaders()[0].point == 4);
  CHECK(digest.leaders()[1].point == 3);
  REQUIRE(digest.effects().size() == 3);
  CHECK(digest.effects()[0].label == "2");
  CHECK(digest.effects()[0].cost_year.mean() == Approx(50.0));
  CHECK(digest.effects()[2].cost_year.count() == 2);
  CHECK(digest.played() == 6);
  SweepRow ruled_out = row(6, 0.1, 5.0), unplayed = row(7, 0.1, 5.0);  // played all the same, and not
  ruled_out.status = unplayed.status = PointStatus::hopeless;
  unplayed.success = std::nan("");
  digest.add(ruled_out);
  digest.add(unplayed);
  CHECK(digest.played() == 7);
  CHECK(digest.count(PointStatus::hopeless) == 2);
}

TEST_CASE("sweep: a range of whole numbers has a row for each, a long one slices of whole numbers") {
  const auto labels = [](const Sweep& sweep) {
    std::vector<std::string> all;
    const SweepDigest digest(sweep);
    for (const Effect& e : digest.effects()) all.push_back(e.label);
    return all;
  };
  CHECK(labels(sweep_of(SweepMethod::even, {"rack.tiers=3:6"}, 8)) == std::vector<std::string>{"3", "4", "5", "6"});
  const Sweep longer = sweep_of(SweepMethod::even, {"group.goats.count=7:50"}, 64);
  CHECK(labels(longer) == std::vector<std::string>{"7 to 15", "16 to 24", "25 to 33", "34 to 42", "43 to 50"});
  // Every number falls into the slice that names it.
  SweepDigest digest(longer);
  for (int count = 7; count <= 50; ++count) {
    SweepRow row;
    row.values = {static_cast<double>(count)};
    digest.add(row);
  }
  std::vector<std::uint64_t> counts;
  for (const Effect& e : digest.effects()) counts.push_back(e.cost_year.count());
  CHECK(counts == std::vector<std::uint64_t>{9, 9, 9, 9, 8});
}

TEST_CASE("sweep: the best are designs, not points: equal ones count once") {
  const Sweep sweep = sweep_of(SweepMethod::even, {"rack.tiers=2:4"}, 16);
  SweepDigest digest(sweep);
  for (std::uint64_t p = 0; p < 16; ++p) {
    SweepRow row;
    row.point = p;
    row.values = {2.0 + static_cast<double>(p % 3)};
    row.success = 1.0;
    row.spreads[cost_year_column].mean = 10.0 * row.values[0];
    digest.add(row);
  }
  REQUIRE(digest.leaders().size() == 3);
  CHECK(digest.leaders()[0].point == 0);
  CHECK(digest.leaders()[1].point == 1);
  CHECK(digest.leaders()[2].point == 2);
}

TEST_CASE("sweep: a kit and a key that it brings do not vary beside each other") {
  Scenario farm = test::small_farm();
  farm.kits = {{"cooler", "small", {"room.cooler = 1500 W"}}, {"cooler", "large", {"room.cooler = 3000 W"}}};
  const auto told = [&](const std::vector<std::string>& vary) {
    Problems problems;
    std::vector<SweepAxis> axes;
    for (const std::string& text : vary) axes.push_back(read_axis(farm, text, SweepMethod::grid, problems));
    make_sweep(farm, SweepMethod::grid, std::move(axes), {}, problems);
    return problems.empty() ? "" : problems.front().key + " " + problems.front().why;
  };
  for (const auto& vary : {std::vector<std::string>{"kit.cooler=small,large", "room.cooler=0 W,3000 W"}, {"room.cooler=0 W,3000 W", "kit.cooler=small,large"}})
    CHECK(told(vary) == "room.cooler is also set by the kits of kit.cooler: vary one or the other");
  CHECK(told({"kit.cooler=small,large", "room.shade=0,1"}).empty());
}
