// Germination: bounded, never undone by time, faster when warmer up to the decline.

#include <cmath>

#include "models/germination/germination.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("germination is bounded and monotone for every species") {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    const auto p = *germination::preset(species);
    for (double t = -15.0; t <= 50.0; t += 0.5) {
      INFO(species << " " << t << " degC");
      const double rate = germination::rate(p, Celsius(t)), warmer = germination::rate(p, Celsius(t + 0.5));
      CHECK(rate >= 0.0);
      if (t + 0.5 <= p.decline.value()) CHECK(warmer >= rate);
      const double fraction = germination::fraction(p, Celsius(t));
      CHECK(fraction >= 0.0);
      CHECK(fraction <= 1.0);
      CHECK(germination::fraction(p, Celsius(t + 0.5)) <= fraction);
      double before = 0.0;
      for (double day = 0.0; day <= 20.0; day += 1.0) {
        const double now = germination::at_constant(p, Celsius(t), days(day), 0.9).germinated;
        CHECK(now >= before);
        CHECK(now <= 0.9);
        before = now;
      }
    }
  }
}

TEST_CASE("in a steady room the integral form is the constant-temperature model, whatever the step") {
  for (const char* species : {"barley", "wheat", "maize"}) {
    const auto p = *germination::preset(species);
    for (const double t : {6.0, 14.0, 20.0, 29.0, 34.5}) {
      for (const int hours : {1, 6, 24}) {
        double progress = 0.0;
        for (int h = 0; h < 96; h += hours) progress += germination::rate(p, Celsius(t)) * hours / 24.0;
        const double by_integral = 0.9 * germination::fraction(p, Celsius(t)) * germination::share_germinated(p, progress);
        INFO(species << " " << t << " degC, steps of " << hours << " h");
        CHECK(by_integral == Approx(germination::at_constant(p, Celsius(t), days(4.0), 0.9).germinated).epsilon(1e-12));
      }
    }
  }
}

TEST_CASE("a room that swings about a mean comes to the steady one as the swing goes to nothing") {
  const auto p = *germination::preset("barley");
  const auto germinated_with = [&](double swing) {
    double progress = 0.0;
    for (int h = 0; h < 72; ++h) progress += germination::rate(p, Celsius(18.0 + (h % 24 < 12 ? swing : -swing))) / 24.0;
    return germination::share_germinated(p, progress);
  };
  const double steady = germination::at_constant(p, Celsius(18.0), days(3.0), 1.0).germinated /
                        germination::fraction(p, Celsius(18.0));
  double apart = 1.0;
  for (const double swing : {8.0, 4.0, 2.0, 1.0, 0.0}) {
    const double now = std::abs(germinated_with(swing) - steady);
    CHECK(now <= apart);
    apart = now;
  }
  CHECK(apart < 1e-12);
  // The foot is bent upwards, so a swing about a cool mean hastens.
  CHECK(germinated_with(8.0) > steady);
}
