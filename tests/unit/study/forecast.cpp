// Scores of forecasts: closed forms, limits, and a log foretold week by week.
#include <cmath>
#include <vector>

#include "sim/random/laws.hpp"
#include "sim/study/forecast.hpp"
#include "tests/catch.hpp"

#include "tests/logged.hpp"

using namespace rackwright;
using namespace rackwright::study;

TEST_CASE("the score of a sample goes to that of the law it is drawn from") {
  // 20,000 draws: the score's own error is below 0.01 sd; 0.05 is not met by luck once in 10^5 runs.
  random::Stream luck{random::make_key(3, 0), random::Purpose::test, 0, 0};
  for (const double y : {4.0, 5.5, 7.0}) {
    std::vector<double> sample(20000);
    for (double& x : sample) x = random::normal(luck, 5.0, 0.8);
    CHECK(crps_of_sample(sample, y) == near(crps_of_normal(5.0, 0.8, y), 0.02));
  }
}

TEST_CASE("scores of small samples by hand") {
  std::vector<double> two{3.0, 1.0};
  CHECK(crps_of_sample(two, 2.0) == Approx(1.0 - 1.0));       // E|X-y| 1, half of E|X-X'| 1
  CHECK(crps_of_sample(two, 5.0) == Approx(3.0 - 1.0));
  std::vector<double> same{2.0, 2.0, 2.0};
  CHECK(crps_of_sample(same, 2.5) == Approx(0.5));            // a sure forecast scores its distance
  CHECK(crps_of_normal(1.0, 0.0, 4.0) == 3.0);
  CHECK(crps_of_normal(0.0, 1.0, 0.0) == Approx((std::sqrt(2.0) - 1.0) / std::sqrt(3.14159265358979)));  // at the mean
}

TEST_CASE("a log made by the models is foretold better than by its mean, and about as surely as is said") {
  // 150 trays in a room that drifts; of about 110 weights 90 % lie inside, 80 to 98 % in all but one of a thousand runs.
  const test::LogPlan plan{.trays = 150};
  const auto made = test::made_up(Scenario{}, plan, 43, 0);
  const auto check = forecast_check(made.log, Scenario{}, true);
  REQUIRE(check);
  CHECK(check->weights > 80);
  CHECK(check->crps < 0.9 * check->naive_crps);
  CHECK(check->within_90 > 0.8);
  CHECK(check->within_90 < 0.99);
  CHECK(check->within_50 > 0.35);
  CHECK(check->within_50 < 0.65);
  int all = 0;
  for (const int fifth : check->fifths) all += fifth;
  CHECK(all == check->weights);
  CHECK(check->brier > 0.0);
  CHECK(check->expected_spoiled > 0.0);
  test::LogPlan few{.trays = 12};
  CHECK_FALSE(forecast_check(test::made_up(Scenario{}, few, 43, 1).log, Scenario{}, true));
}
