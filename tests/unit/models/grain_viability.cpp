#include "models/grain/viability.hpp"

#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("probit undoes the normal distribution") {
  for (const double z : {-4.0, -1.0, -0.1, 0.0, 0.3, 2.0, 5.0}) {
    INFO("z " << z);
    CHECK(grain::probit(grain::normal_cdf(z)) == near(z, 1e-8));
  }
  CHECK_THROWS_AS(grain::probit(0.0), std::logic_error);
  CHECK_THROWS_AS(grain::probit(1.0), std::logic_error);
}

TEST_CASE("ageing by no time changes nothing, and a dead lot stays dead") {
  CHECK(grain::viability_after(0.9, 0.0) == Approx(0.9).epsilon(1e-12));
  CHECK(grain::viability_after(0.0, 1.0) == 0.0);
  CHECK(grain::viability_after(1.0, 0.0) == near(1.0, 1e-8));
  CHECK(grain::viability_after(1.0, 30.0) < 1e-9);
}

TEST_CASE("ageing adds up over different stores") {
  const double in_two_steps = grain::viability_after(grain::viability_after(0.95, 0.4), 0.7);
  CHECK(in_two_steps == Approx(grain::viability_after(0.95, 1.1)).epsilon(1e-10));
}

TEST_CASE("half are left after the half life") {
  const double sigma = 300.0;
  const double probits = in_days(grain::half_life(0.9, sigma)) / sigma;
  CHECK(grain::viability_after(0.9, probits) == Approx(0.5).epsilon(1e-10));
  CHECK(grain::half_life(0.4, sigma).value() == 0.0);  // already past it
}

TEST_CASE("ageing worked out beforehand is 1 / sigma") {
  for (const char* species : {"barley", "wheat", "maize"}) {
    const auto constants = *grain::viability_constants(species);
    for (const double moisture : {5.0, 12.0, 24.0}) {
      const grain::Ageing ageing(constants, moisture);
      for (const double celsius : {-20.0, -3.0, 0.0, 17.5, 40.0, 90.0})
        CHECK(ageing.per_day(Celsius(celsius)) * grain::sigma_days(constants, moisture, Celsius(celsius)) == Approx(1.0).epsilon(1e-12));
    }
  }
}
