// Maximum flow against every possible cut, and limits that only move one way.
#include <algorithm>
#include <random>

#include "models/route/stations.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::route;

namespace {

// Least capacity of any set of stations whose removal parts first from last: every subset tried.
double brute_force_cut(const Layout& layout) {
  const std::size_t n = layout.stations.size();
  double least = 1e300;
  for (unsigned set = 0; set < (1u << n); ++set) {
    double capacity = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
      if (!((set >> i) & 1u)) continue;
      capacity += layout.stations[i].trays_per_day > 0.0 ? layout.stations[i].trays_per_day : 1e300;
    }
    if (capacity >= least) continue;
    std::vector<char> reached(n);
    const auto first = static_cast<std::size_t>(layout.first);
    reached[first] = !((set >> first) & 1u);
    for (std::size_t round = 0; round < n; ++round)
      for (const Path& path : layout.paths) {
        const auto to = static_cast<std::size_t>(path.to);
        if (reached[static_cast<std::size_t>(path.from)] && !((set >> to) & 1u)) reached[to] = 1;
      }
    if (!reached[static_cast<std::size_t>(layout.last)]) least = capacity;
  }
  return least;
}

}  // namespace

TEST_CASE("the ceiling is the least cut of all, in 300 layouts") {
  std::mt19937 engine(1618);
  const auto below = [&](unsigned n) { return static_cast<int>(engine() % n); };
  LineShape shape;
  shape.keeper_minutes_per_day = 1e7;
  for (int i = 0; i < 300; ++i) {
    Layout layout;
    const int n = 4 + below(6);
    for (int s = 0; s < n; ++s)
      layout.stations.push_back({"s" + std::to_string(s), s == 0 ? 500.0 : (below(5) == 0 ? 0.0 : 1.0 + below(40)), 1.0});
    for (int s = 1; s < n; ++s) layout.paths.push_back({below(static_cast<unsigned>(s)), s, Metres(1.0 + below(20))});
    for (int extra = 0; extra < n; ++extra) {
      const int to = 1 + below(static_cast<unsigned>(n - 1));
      layout.paths.push_back({below(static_cast<unsigned>(to)), to, Metres(1.0 + below(20))});
    }
    layout.first = 0;
    layout.last = n - 1;
    const Plan p = plan(layout, shape, Handling::fixed, {});
    INFO("layout " << i << " with " << n << " stations, bottleneck " << p.bottleneck);
    REQUIRE(p.daily_ceiling == Approx(brute_force_cut(layout)));
    REQUIRE(!p.bottleneck.empty());
  }
}

TEST_CASE("more positions, buckets, minutes or a shorter stay never lower the ceiling") {
  std::mt19937 engine(42);
  const auto below = [&](unsigned n) { return static_cast<int>(engine() % n); };
  for (int i = 0; i < 500; ++i) {
    LineShape shape;
    shape.positions = 8 + below(200);
    shape.trays_per_batch = 1 + below(10);
    shape.batches_per_day = 1.0 + below(2);
    shape.days_on_rack = days(5 + below(6));
    shape.soak = Hours(1.0 + below(36));
    shape.soak_buckets = 1 + below(6);
    shape.keeper_minutes_per_day = 20.0 + below(400);
    const Handling handling = below(2) == 0 ? Handling::ladder : Handling::fixed;
    const auto ceiling = [&](const LineShape& s) { return plan(usual_layout(s, handling, {}), s, handling, {}).daily_ceiling; };
    const double base = ceiling(shape);
    LineShape more = shape;
    more.positions += 10;
    REQUIRE(ceiling(more) >= base);
    more = shape;
    ++more.soak_buckets;
    REQUIRE(ceiling(more) >= base);
    more = shape;
    more.keeper_minutes_per_day += 30.0;
    REQUIRE(ceiling(more) >= base);
    more = shape;
    more.days_on_rack = shape.days_on_rack - days(1.0);
    REQUIRE(ceiling(more) >= base);
  }
}

TEST_CASE("Little's law: places grow with rate and with stay, and their product fits the rack at the ceiling") {
  LineShape shape;
  shape.keeper_minutes_per_day = 1e4;
  shape.soak_buckets = 1000;
  shape.wash_trays_per_day = 1e6;
  for (int positions = 8; positions <= 400; positions += 7) {
    shape.positions = positions;
    const double fixed = plan(usual_layout(shape, Handling::fixed, {}), shape, Handling::fixed, {}).daily_ceiling;
    const double ladder = plan(usual_layout(shape, Handling::ladder, {}), shape, Handling::ladder, {}).daily_ceiling;
    CHECK(littles_law(fixed, shape.days_on_rack, shape.soak).on_rack == near(positions, 1e-4));
    CHECK(littles_law(ladder, shape.days_on_rack, shape.soak).on_rack <= positions + 1e-6);
    CHECK(ladder <= fixed + 1e-6);
  }
}

TEST_CASE("no lift is easier farther out, lower, longer, more twisted, more often or with a worse grip") {
  const auto limit = [](double h, double v, double d, double a, double f, int c) {
    return lifting_limit(Metres(h), Metres(v), Metres(d), Degrees(a), f, c).value();
  };
  for (double h = 0.25; h < 0.7; h += 0.07)
    for (double v = 0.0; v <= 0.75; v += 0.15)
      for (double f = 0.1; f < 16.0; f += 1.3) {
        const double here = limit(h, v, 0.5, 30.0, f, 0);
        REQUIRE(here <= 23.0);
        REQUIRE(limit(h + 0.05, v, 0.5, 30.0, f, 0) <= here);
        REQUIRE(limit(h, v, 0.8, 30.0, f, 0) <= here);
        REQUIRE(limit(h, v, 0.5, 60.0, f, 0) <= here);
        REQUIRE(limit(h, v, 0.5, 30.0, f + 0.7, 0) <= here);
        REQUIRE(limit(h, v, 0.5, 30.0, f, 2) <= here);
        if (v > 0.15) REQUIRE(limit(h, v - 0.15, 0.5, 30.0, f, 0) <= here);
      }
}
