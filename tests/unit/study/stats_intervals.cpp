#include <cmath>
#include <stdexcept>

#include "sim/study/intervals.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

TEST_CASE("shares at the ends have one-sided intervals", "[statistics]") {
  CHECK(clopper_pearson(0, 20).low == 0.0);
  CHECK(clopper_pearson(20, 20).high == 1.0);
  CHECK(clopper_pearson(0, 20).high == Approx(1.0 - std::pow(0.025, 1.0 / 20.0)));
  CHECK(clopper_pearson(20, 20).low == Approx(std::pow(0.025, 1.0 / 20.0)));
  CHECK(wilson(0, 20).low == 0.0);
  CHECK(wilson(20, 20).high == 1.0);
}

TEST_CASE("no trials, nothing known", "[statistics]") {
  CHECK((clopper_pearson(0, 0).low == 0.0 && clopper_pearson(0, 0).high == 1.0));
  CHECK((wilson(0, 0).low == 0.0 && wilson(0, 0).high == 1.0));
  CHECK((share_estimate(0, 0).low == 0.0 && share_estimate(0, 0).high == 1.0));
}

TEST_CASE("one value says nothing about a mean's error", "[statistics]") {
  Moments m;
  m.add(4.0);
  CHECK(std::isinf(mean_half_width(0.0, 1)));
  CHECK(std::isinf(mean_interval(m).high));
  CHECK(std::isinf(mean_lower_bound(m, 0.05)));
  CHECK(mean_estimate(m).mean == 4.0);
}

TEST_CASE("values all alike leave no doubt", "[statistics]") {
  Moments m;
  for (int i = 0; i < 5; ++i) m.add(0.25);
  CHECK((mean_interval(m).low == 0.25 && mean_interval(m).high == 0.25));
  CHECK(mean_lower_bound(m, 0.01) == 0.25);
}

TEST_CASE("one-sided bounds at half the error are the two-sided interval", "[statistics]") {
  Moments m;
  for (const double x : {1.0, 2.0, 4.0, 8.0}) m.add(x);
  CHECK(mean_lower_bound(m, 0.025) == Approx(mean_interval(m).low));
  CHECK(mean_upper_bound(m, 0.025) == Approx(mean_interval(m).high));
  CHECK(share_lower_bound(7, 9, 0.025) == Approx(clopper_pearson(7, 9).low));
  CHECK(share_upper_bound(7, 9, 0.025) == Approx(clopper_pearson(7, 9).high));
}

TEST_CASE("estimates hold what they came from", "[statistics]") {
  const auto share = share_estimate(30, 40);
  CHECK(share.mean == 0.75);
  CHECK(share.sd == Approx(std::sqrt(0.75 * 0.25)));
  CHECK((share.least == 0.0 && share.most == 1.0));
  CHECK(share_estimate(40, 40).least == 1.0);
  CHECK(share_estimate(0, 40).most == 0.0);
  RatioMoments r;
  r.add(2.0, 1.0);
  r.add(3.0, 2.0);
  r.add(7.0, 3.0);
  const auto ratio = ratio_estimate(r);
  CHECK(ratio.mean == Approx(2.0));
  CHECK(ratio.high - ratio.mean == Approx(t_quantile(0.975, 2.0) * r.standard_error()));
}

TEST_CASE("intervals refuse impossible counts and chances", "[statistics]") {
  CHECK_THROWS_AS(clopper_pearson(3, 2), std::logic_error);
  CHECK_THROWS_AS(clopper_pearson(1, 2, 1.0), std::logic_error);
  CHECK_THROWS_AS(wilson(3, 2), std::logic_error);
  CHECK_THROWS_AS(t_quantile(0.0, 5.0), std::logic_error);
  CHECK_THROWS_AS(mean_half_width(-1.0, 5), std::logic_error);
}
