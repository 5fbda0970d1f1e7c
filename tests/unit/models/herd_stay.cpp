#include "models/herd/stay.hpp"

#include "tests/catch.hpp"

using namespace rackwright::herd;

TEST_CASE("a group is here between its days, and what comes first tells what was before") {
  const Stay bought{.arrives = 30.0}, sold{.leaves = 30.0}, lent{.arrives = 10.0, .leaves = 40.0}, at_grass{.arrives = 40.0, .leaves = 10.0};
  CHECK(presence({}, 0.0).here);
  CHECK_FALSE(presence(bought, 29.0).here);
  CHECK(presence(bought, 30.0).here);
  CHECK(presence(bought, 30.0).since == 30.0);
  CHECK(presence(sold, 29.0).here);
  CHECK(presence(sold, 29.0).since == since_ever);
  CHECK_FALSE(presence(sold, 30.0).here);
  for (const int day : {0, 9, 40, 400}) CHECK_FALSE(presence(lent, day).here);
  for (const int day : {10, 39}) CHECK(presence(lent, day).here);
  for (const int day : {0, 9, 40, 400}) CHECK(presence(at_grass, day).here);
  for (const int day : {10, 39}) CHECK_FALSE(presence(at_grass, day).here);
}

TEST_CASE("a stay of each year comes again every 365 days, and not before it first does") {
  const Stay winters{.arrives = 400.0, .leaves = 500.0, .each_year = true};
  CHECK_FALSE(presence(winters, 50.0).here);
  CHECK(presence(winters, 400.0).here);
  CHECK_FALSE(presence(winters, 500.0).here);
  CHECK(presence(winters, 765.0).here);
  CHECK(presence(winters, 864.0).since == 765.0);
  CHECK_FALSE(presence(winters, 865.0).here);
}

TEST_CASE("a run that starts later meets the same days") {
  for (const bool each_year : {false, true}) {
    for (const auto& [arrives, leaves] : {std::pair{10.0, 100.0}, {100.0, 10.0}, {-1.0, 50.0}, {50.0, -1.0}, {350.0, 30.0}}) {
      if (each_year && (arrives < 0.0 || leaves < 0.0)) continue;
      const Stay stay{arrives, leaves, each_year};
      for (const double later : {1.0, 10.0, 40.0, 99.0, 100.0, 101.0, 364.0, 365.0, 500.0}) {
        const Stay moved = later_start(stay, later);
        for (int day = 0; day < 800; day += 7) {
          INFO(arrives << " to " << leaves << ", " << later << " later, day " << day << (each_year ? ", each year" : ""));
          CHECK(presence(moved, day).here == presence(stay, day + later).here);
        }
      }
    }
  }
}

TEST_CASE("a run that starts after an arrival knows how long ago that was") {
  CHECK(presence(later_start({.arrives = 10.0}, 15.0), 0.0).since == -5.0);
  CHECK(presence(later_start({.arrives = 10.0, .leaves = 100.0}, 15.0), 3.0).since == -5.0);
  CHECK(presence(later_start(later_start({.arrives = 10.0}, 15.0), 4.0), 0.0).since == -9.0);
  CHECK(presence(later_start({.arrives = 10.0, .leaves = 100.0, .each_year = true}, 385.0), 0.0).since == -10.0);
  CHECK(presence(later_start({}, 15.0), 0.0).since == since_ever);
}

TEST_CASE("a run that starts earlier has a yearly stay's earlier years") {
  const Stay grass{.arrives = 184.0, .leaves = 61.0, .each_year = true};
  const Stay moved = later_start(grass, -365.0);
  for (const int day : {0, 60, 61, 183, 184, 425, 426, 548, 549}) CHECK(presence(moved, day).here == presence(grass, day % 365).here);
}
