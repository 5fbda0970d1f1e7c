#include "sim/study/doubt.hpp"

#include <cmath>

#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;

TEST_CASE("the share between pairs is Fisher's intraclass correlation") {
  // By hand: groups (1,2), (3,5), (6,7), (8,12): grand mean 5.5; mean square between 2 (4^2 + 1.5^2 + 1^2 + 4.5^2)/3 = 79/3,
  // within (1 + 4 + 1 + 16)/2/4 = 11/4; (79/3 - 11/4)/(79/3 + 11/4).
  const study::Between b = study::between_pairs({1, 3, 6, 8}, {2, 5, 7, 12});
  CHECK(b.share == Approx((79.0 / 3.0 - 2.75) / (79.0 / 3.0 + 2.75)));
  CHECK(b.low < b.share);
  CHECK(b.high > b.share);
  CHECK(study::between_pairs({1, 2, 3}, {1, 2, 3}).share == 1.0);
  CHECK(study::between_pairs({1, 1, 1}, {1, 1, 1}).share == 0.0);
}

TEST_CASE("its interval covers the true share about 95 times in 100") {
  // 1000 trials: 93.0 to 97.0 in all but one of 200 runs.
  random::Stream luck(random::make_key(5, 0), random::Purpose::test);
  for (const double truth : {0.3, 0.7}) {
    int covered = 0;
    for (int trial = 0; trial < 1000; ++trial) {
      std::vector<double> first, second;
      for (int group = 0; group < 40; ++group) {
        const double shared = std::sqrt(truth) * random::normal(luck);
        first.push_back(shared + std::sqrt(1.0 - truth) * random::normal(luck));
        second.push_back(shared + std::sqrt(1.0 - truth) * random::normal(luck));
      }
      const study::Between b = study::between_pairs(first, second);
      covered += b.low <= truth && truth <= b.high ? 1 : 0;
    }
    INFO("true share " << truth);
    CHECK(covered >= 930);
    CHECK(covered <= 970);
  }
}

TEST_CASE("luck and ignorance are told apart, the same on any number of threads") {
  Scenario farm = test::goat_farm();
  farm.run.length = days(90);
  const Plan plan = make_plan(farm);
  study::RunRequest request;
  request.threads = 1;
  const auto one = study::doubts(plan, request, 24);
  request.threads = 2;
  const auto two = study::doubts(plan, request, 24);
  REQUIRE(one.size() == two.size());
  REQUIRE(one.size() == 9);
  for (std::size_t i = 0; i < one.size(); ++i) {
    INFO(one[i].quantity);
    CHECK(one[i].share == two[i].share);
    CHECK(one[i].luck.mean == two[i].luck.mean);
    CHECK(one[i].share_low <= one[i].share);
    CHECK(one[i].share <= one[i].share_high);
  }
  // Every year of one farm grows at one pace and differs by weather; what is taken to be true of growth matters more.
  CHECK(one[4].quantity == "mat_growth_days");
  CHECK(one[4].share_low > 0.3);
  CHECK(one[0].both.mean != one[0].luck.mean);
  farm.run.ignorance = true;  // what a study draws is its own affair
  CHECK(study::doubts(make_plan(farm), request, 24).front().both.mean == one.front().both.mean);
  CHECK(study::doubt_pairs(8) == 0);
  CHECK(study::doubt_pairs(400) == 50);
}
