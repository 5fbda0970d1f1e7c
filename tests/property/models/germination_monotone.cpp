// Germination: bounded, never undone by time, faster when warmer up to the decline.

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
