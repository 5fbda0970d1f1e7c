#include "models/grain/lot.hpp"

#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("a trial's posterior adds counts to its prior") {
  const auto posterior = grain::trial_posterior(45, 50, 2.0, 3.0);
  CHECK(posterior.mean == Approx(47.0 / 55.0).epsilon(1e-12));
  CHECK(posterior.low < posterior.mean);
  CHECK(posterior.high > posterior.mean);
}

TEST_CASE("a flat prior and one kernel give the limits worked by hand") {
  // Beta(2, 1) has distribution x^2: quantiles sqrt(0.025), sqrt(0.975).
  const auto posterior = grain::trial_posterior(1, 1, 1.0, 1.0);
  CHECK(posterior.low == near(0.15811388, 1e-7));
  CHECK(posterior.high == near(0.98742088, 1e-7));
}

TEST_CASE("impossible counts are our fault") {
  CHECK_THROWS_AS(grain::trial_posterior(11, 10, 1.0, 1.0), std::logic_error);
  CHECK_THROWS_AS(grain::trial_posterior(0, 0, 1.0, 1.0), std::logic_error);
  CHECK_THROWS_AS(grain::trial_posterior(1, 2, 0.0, 1.0), std::logic_error);
}

TEST_CASE("the tolerance table has no rows at its ends") {
  for (const double mean : {-1.0, 0.0, 1.0, 99.6, 100.0, 101.0}) {
    INFO("mean " << mean);
    const bool row = grain::tolerated_range(mean, 4) > 0.0;
    CHECK(row == false);
  }
  CHECK(grain::tolerated_range(98.6, 4) == grain::tolerated_range(99.0, 4));  // means are rounded first
  CHECK(grain::tolerated_range(60.0, 2) < 0.0);
  CHECK_THROWS_AS(grain::tolerated_range(90.0, 3), std::logic_error);
}
