#include <cmath>
#include <numeric>
#include <stdexcept>

#include "sim/study/intervals.hpp"
#include "sim/study/sequential.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

TEST_CASE("an error is spent whole, evenly or late", "[statistics]") {
  const auto even = spend(0.05, 4, Spending::even);
  const auto late = spend(0.05, 4, Spending::late);
  CHECK(std::accumulate(even.begin(), even.end(), 0.0) == Approx(0.05));
  CHECK(std::accumulate(late.begin(), late.end(), 0.0) == Approx(0.05));
  CHECK(even[0] == Approx(0.0125));
  CHECK(late[3] == Approx(2.0 * late[2]));
  CHECK(late[3] > 0.026);
  CHECK(spend(0.05, 1, Spending::late)[0] == Approx(0.05));
  CHECK_THROWS_AS(spend(0.05, 0, Spending::even), std::logic_error);
  CHECK_THROWS_AS(spend(0.0, 3, Spending::even), std::logic_error);
}

TEST_CASE("verdicts on a share", "[statistics]") {
  const ShareTest test(0.9, 0.05, 0.05, 1);
  CHECK(test.at(0, 0, 0) == Proof::open);
  CHECK(test.at(0, 28, 28) == Proof::open);  // 29 without failure are needed
  CHECK(test.at(0, 29, 29) == Proof::shown);
  CHECK(test.at(0, 0, 2) == Proof::refuted);
  CHECK(test.at(0, 90, 100) == Proof::open);
  CHECK(test.at(0, 80, 100) == Proof::refuted);
}

TEST_CASE("counts needed are where the verdict turns", "[statistics]") {
  const ShareTest test(0.9, 0.025, 0.025, 5);
  for (std::size_t look = 0; look < 5; ++look) {
    for (const std::uint64_t trials : {1ULL, 24ULL, 100ULL, 399ULL}) {
      const auto needed = test.needed(look, trials);
      const auto refuted = test.refuted_below(look, trials);
      INFO("look " << look << ", trials " << trials);
      if (needed <= trials) CHECK(test.at(look, needed, trials) == Proof::shown);
      if (needed > 0) CHECK(test.at(look, needed - 1, trials) != Proof::shown);
      CHECK(test.at(look, refuted, trials) != Proof::refuted);
      if (refuted > 0) CHECK(test.at(look, refuted - 1, trials) == Proof::refuted);
    }
  }
}

TEST_CASE("nothing shows a sure thing, one failure refutes it, anything shows at least nothing", "[statistics]") {
  const ShareTest sure(1.0, 0.05, 0.05, 1);
  CHECK(sure.needed(0, 1000) == 1001);
  CHECK(sure.at(0, 999, 1000) == Proof::refuted);
  CHECK(ShareTest(0.0, 0.05, 0.05, 1).at(0, 0, 1000) == Proof::shown);
}

TEST_CASE("the chance to show a claim", "[statistics]") {
  CHECK(chance_to_show(0.99, 0.9, 0.05, 29) == Approx(std::pow(0.99, 29)));
  CHECK(chance_to_show(1.0, 0.9, 0.05, 28) == 0.0);
  CHECK(chance_to_show(1.0, 0.9, 0.05, 29) == 1.0);
  CHECK(chance_to_show(0.9, 0.9, 0.05, 500) < 0.05);
  CHECK(chance_to_show(0.95, 0.9, 0.05, 400) > chance_to_show(0.95, 0.9, 0.05, 100));
}

TEST_CASE("costs compared by paired differences", "[statistics]") {
  Moments dearer, alike, one;
  for (const double x : {10.0, 11.0, 12.0, 9.0}) dearer.add(x);
  for (const double x : {-0.1, 0.1, 0.05, -0.05}) alike.add(x);
  one.add(5.0);
  CHECK(compare_costs(dearer, 0.05, 1.0) == Costs::second_cheaper);
  CHECK(compare_costs(dearer, 0.05, 100.0) == Costs::alike);
  CHECK(compare_costs(alike, 0.05, 1.0) == Costs::alike);
  CHECK(compare_costs(alike, 0.05, 0.0) == Costs::open);
  CHECK(compare_costs(one, 0.05, 1.0) == Costs::open);
  Moments cheaper;
  for (const double x : {-10.0, -11.0, -12.0}) cheaper.add(x);
  CHECK(compare_costs(cheaper, 0.05, 1.0) == Costs::first_cheaper);
  CHECK_THROWS_AS(compare_costs(one, 0.05, -1.0), std::logic_error);
}
