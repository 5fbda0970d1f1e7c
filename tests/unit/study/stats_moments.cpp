#include <cmath>
#include <limits>

#include "sim/study/moments.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

TEST_CASE("moments of a few values", "[statistics]") {
  Moments m;
  for (const double x : {2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0}) m.add(x);
  CHECK(m.count() == 8);
  CHECK(m.mean() == Approx(5.0));
  CHECK(m.variance() == Approx(32.0 / 7.0));
  CHECK(m.standard_error() == Approx(std::sqrt(32.0 / 7.0 / 8.0)));
  CHECK(m.least() == 2.0);
  CHECK(m.most() == 9.0);
}

TEST_CASE("moments of none and of one", "[statistics]") {
  Moments m;
  CHECK((m.count() == 0 && m.mean() == 0.0 && m.variance() == 0.0 && m.least() == 0.0 && m.most() == 0.0));
  m.add(-3.0);
  CHECK((m.mean() == -3.0 && m.variance() == 0.0 && m.least() == -3.0 && m.most() == -3.0));
  CHECK(std::isinf(m.standard_error()));
}

TEST_CASE("merging with an empty one changes nothing, either way round", "[statistics]") {
  Moments m, empty, other;
  m.add(1.5);
  m.add(2.5);
  m.merge(empty);
  CHECK((m.count() == 2 && m.mean() == 2.0));
  other.merge(m);
  CHECK((other.count() == 2 && other.mean() == 2.0 && other.variance() == m.variance()));
  CHECK((other.least() == 1.5 && other.most() == 2.5));
}

TEST_CASE("a number that is none does not pass unseen", "[statistics]") {
  Moments m;
  m.add(1.0);
  m.add(std::numeric_limits<double>::quiet_NaN());
  CHECK(std::isnan(m.mean()));
}

TEST_CASE("a ratio of sums is not a mean of ratios", "[statistics]") {
  RatioMoments r;
  r.add(1.0, 1.0);   // 1 each
  r.add(1.0, 10.0);  // 0.1 each
  CHECK(r.ratio() == Approx(2.0 / 11.0));
  CHECK(r.covariance() == near(0.0, 1e-15));
}

TEST_CASE("a ratio's standard error by hand", "[statistics]") {
  RatioMoments r;
  r.add(2.0, 1.0);
  r.add(3.0, 2.0);
  r.add(7.0, 3.0);
  // means 4 and 2, ratio 2; above - 2 below: 0, -1, 1, variance 1; standard error sqrt(1/3)/2
  CHECK(r.ratio() == Approx(2.0));
  CHECK(r.covariance() == Approx(2.5));
  CHECK(r.standard_error() == Approx(std::sqrt(1.0 / 3.0) / 2.0));
}

TEST_CASE("a ratio without a sum below, or of one pair, says nothing about its error", "[statistics]") {
  RatioMoments r;
  r.add(2.0, 0.0);
  CHECK(r.ratio() == 0.0);
  CHECK(std::isinf(r.standard_error()));
  r.add(3.0, 0.0);
  CHECK(std::isinf(r.standard_error()));
}
