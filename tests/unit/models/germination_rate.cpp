#include <cmath>
#include <stdexcept>

#include "models/germination/germination.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

germination::Parameters straight() {
  germination::Parameters p;
  p.base = Celsius(2.0);
  p.toe = Kelvins(0.0);
  p.theta = 50.0;
  p.decline = Celsius(30.0);
  p.ceiling = Celsius(40.0);
  return p;
}

}  // namespace

TEST_CASE("without a rounded foot the rate is a straight line that bends at the decline") {
  CHECK(germination::rate(straight(), Celsius(12.0)) == Approx(0.2));
  CHECK(germination::rate(straight(), Celsius(30.0)) == Approx(0.56));
  CHECK(germination::rate(straight(), Celsius(35.0)) == Approx(0.66 * 0.5));
  CHECK(germination::rate(straight(), Celsius(1.0)) == 0.0);
  CHECK(germination::rate(straight(), Celsius(40.0)) == 0.0);
}

TEST_CASE("a rounded foot lies above the line and joins it far above the base") {
  germination::Parameters rounded = straight();
  rounded.toe = Kelvins(1.0);
  CHECK(germination::rate(rounded, Celsius(2.0)) == Approx(std::log(2.0) / 50.0));
  CHECK(germination::rate(rounded, Celsius(25.0)) ==
        Approx(germination::rate(straight(), Celsius(25.0))).epsilon(1e-6));
}

TEST_CASE("frozen grain stands still") {
  const auto p = *germination::preset("barley");
  CHECK(germination::rate(p, Celsius(-2.0)) == 0.0);
  CHECK(germination::rate(p, Celsius(-30.0)) == 0.0);
  CHECK(germination::rate(p, Celsius(0.5)) > 0.0);
}

TEST_CASE("half have germinated at one median") {
  const auto p = *germination::preset("barley");
  CHECK(germination::share_germinated(p, 1.0) == Approx(0.5));
  CHECK(germination::share_germinated(p, 0.0) == 0.0);
  CHECK(germination::share_germinated(p, -0.3) == 0.0);
  CHECK(germination::share_germinated(p, 50.0) == near(1.0, 1e-9));
  const auto constant = germination::at_constant(p, Celsius(20.0), days(1.0), 0.8);
  const auto at_median = germination::at_constant(p, Celsius(20.0), constant.median_time, 0.8);
  CHECK(at_median.germinated == Approx(0.5 * constant.final_fraction));
}

TEST_CASE("a fluctuating room accumulates rate") {
  // Twelve hours at 10 and twelve at 20 degC, two days: the same progress as the mean rate for two days.
  const auto p = *germination::preset("barley");
  const double by_halves =
      2.0 * (0.5 * germination::rate(p, Celsius(10.0)) + 0.5 * germination::rate(p, Celsius(20.0)));
  const double mean_rate = 0.5 * (germination::rate(p, Celsius(10.0)) + germination::rate(p, Celsius(20.0)));
  CHECK(germination::share_germinated(p, by_halves) == Approx(germination::share_germinated(p, 2.0 * mean_rate)));
}

TEST_CASE("a fraction above one is our fault") {
  CHECK_THROWS_AS(germination::at_constant(*germination::preset("barley"), Celsius(20.0), days(1.0), 1.1),
                  std::logic_error);
}
