#include <algorithm>
#include <stdexcept>

#include "models/soak/uptake.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("no time in water changes no moisture") {
  const auto p = *soak::preset("barley");
  CHECK(soak::moisture_after(p, Celsius(20.0), 0.13, Hours(0.0)) == Approx(0.13).epsilon(1e-12));
}

TEST_CASE("uptake stops at its ceiling, wherever it starts, and nears it without a kink") {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    INFO(species);
    const auto p = *soak::preset(species);
    const double ceiling = std::max(p.surface_moisture, p.ceiling_moisture), full = ceiling / (1.0 + ceiling);
    CHECK(soak::moisture_after(p, Celsius(30.0), 0.12, Hours(2000.0)) == Approx(full).epsilon(1e-6));
    double before = 0.12, pace = 1.0;
    for (int hour = 1; hour < 300; ++hour) {
      const double now = soak::moisture_after(p, Celsius(20.0), 0.12, Hours(hour));
      CHECK(now >= before);
      CHECK(now <= full * (1.0 + 1e-12));
      CHECK(now - before <= pace + 1e-12);
      pace = now - before;
      before = now;
    }
    CHECK(soak::moisture_after(p, Celsius(30.0), 0.48, Hours(5.0)) ==
          Approx(0.48).epsilon(1e-12));  // wetter than full: kept
    CHECK(full > p.full_moisture);       // or no soak could ever be long enough
  }
}

TEST_CASE("a soak of no length gives nothing and costs the most") {
  const auto p = *soak::preset("barley");
  const soak::Effect none = soak::effect(p, Celsius(20.0), 0.12, Hours(0.0));
  CHECK(none.head_start == 0.0);
  CHECK(none.stress == 0.0);
  CHECK(none.survival == 1.0);
  CHECK(none.delay == Approx(18.0));
}

TEST_CASE("grain drier than a usual store's is held back no longer than any that is sown dry") {
  const auto p = *soak::preset("barley");
  CHECK(soak::effect(p, Celsius(20.0), 0.05, Hours(0.0)).delay == soak::effect(p, Celsius(20.0), 0.12, Hours(0.0)).delay);
}

TEST_CASE("water without air begins to harm by little, and harms more the longer") {
  const auto p = *soak::preset("barley");
  double before = 0.0;
  int harmless = 0;
  for (double hours = 0.0; hours < 60.0; hours += 0.25) {
    const double stress = soak::effect(p, Celsius(20.0), 0.12, Hours(hours)).stress;
    CHECK(stress >= before);
    CHECK(stress - before < 0.02);
    harmless += stress == 0.0 ? 1 : 0;
    before = stress;
  }
  CHECK(harmless > 20);
  CHECK(before > 0.3);
}

TEST_CASE("no dip removes nothing") {
  CHECK(soak::dip_effect({}).inoculum_left == 1.0);
  CHECK(soak::dip_effect({}).germination_kept == 1.0);
  CHECK(soak::dip_effect({0.6, Hours(0.0)}).inoculum_left == 1.0);
}

TEST_CASE("a reckless dip kills the grain") { CHECK(soak::dip_effect({5.0, Hours(2.0)}).germination_kept < 0.1); }

TEST_CASE("negative times are our fault") {
  const auto p = *soak::preset("wheat");
  CHECK_THROWS_AS(soak::moisture_after(p, Celsius(20.0), 0.12, Hours(-1.0)), std::logic_error);
  CHECK_THROWS_AS(soak::effect(p, Celsius(20.0), 0.12, Hours(-1.0)), std::logic_error);
  CHECK_THROWS_AS(soak::dip_effect({-0.1, Hours(0.1)}), std::logic_error);
}
