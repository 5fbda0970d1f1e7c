#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "models/herd/animals.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using herd::GrowthCurve;

TEST_CASE("a growth curve opens at its start and ends at its mature weight", "[herd]") {
  const GrowthCurve curve{Kilograms(80.0), 0.01, Kilograms(4.0)};
  CHECK(herd::weight_at(curve, Hours(0)).value() == Approx(4.0).epsilon(1e-12));
  CHECK(herd::weight_at(curve, days(5000)).value() == Approx(80.0).epsilon(1e-12));
}

TEST_CASE("the largest gain falls at mature/e", "[herd]") {
  const GrowthCurve curve{Kilograms(80.0), 0.01, Kilograms(4.0)};
  const Hours age = herd::age_of_greatest_gain(curve);
  CHECK(in_days(age) == Approx(std::log(std::log(20.0)) / 0.01));
  CHECK(herd::weight_at(curve, age).value() == Approx(80.0 / std::numbers::e));
  CHECK(herd::gain_at(curve, age).value() == Approx(herd::greatest_gain(curve).value()));
}

TEST_CASE("a curve that starts heavy has its largest gain behind it", "[herd]") {
  CHECK(herd::age_of_greatest_gain({Kilograms(80.0), 0.01, Kilograms(60.0)}).value() < 0.0);
}

TEST_CASE("an animal that starts grown gains nothing", "[herd]") {
  const GrowthCurve grown{Kilograms(60.0), 0.01, Kilograms(60.0)};
  CHECK(herd::weight_at(grown, days(30)).value() == Approx(60.0));
  CHECK(herd::gain_at(grown, days(30)).value() == 0.0);
}

TEST_CASE("scaling a curve to another mature weight keeps the scaled rate and the start in proportion", "[herd]") {
  const GrowthCurve big{Kilograms(100.0), 0.0108, Kilograms(5.0)};
  const GrowthCurve small = herd::scaled_to(big, Kilograms(50.0));
  CHECK(small.mature.value() == 50.0);
  CHECK(small.start.value() == Approx(2.5));
  CHECK(small.rate_per_day > big.rate_per_day);
  CHECK(small.rate_per_day * std::pow(50.0, 0.27) == Approx(big.rate_per_day * std::pow(100.0, 0.27)));
}

TEST_CASE("growth refuses curves that are none", "[herd]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS_AS(herd::weight_at({Kilograms(3.0), 0.01, Kilograms(4.0)}, Hours(0)), std::logic_error);
  CHECK_THROWS_AS(herd::weight_at({Kilograms(60.0), 0.0, Kilograms(4.0)}, Hours(0)), std::logic_error);
  CHECK_THROWS_AS(herd::weight_at({Kilograms(60.0), 0.01, Kilograms(0.0)}, Hours(0)), std::logic_error);
  CHECK_THROWS_AS(herd::weight_at({Kilograms(nan), 0.01, Kilograms(4.0)}, Hours(0)), std::logic_error);
  CHECK_THROWS_AS(herd::gain_at({Kilograms(60.0), 0.01, Kilograms(4.0)}, Hours(-1)), std::logic_error);
}
