// Soaking: more time or warmth never dries grain; effects stay in bounds.

#include <algorithm>

#include "models/soak/uptake.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("moisture rises with time and with warmth, never past its ceiling") {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    const auto p = *soak::preset(species);
    const double ceiling = std::max(p.surface_moisture, p.ceiling_moisture), full = ceiling / (1.0 + ceiling);
    for (double t = 2.0; t <= 36.0; t += 2.0) {
      for (double hours = 0.0; hours <= 60.0; hours += 1.5) {
        INFO(species << " " << t << " degC " << hours << " h");
        const double now = soak::moisture_after(p, Celsius(t), 0.12, Hours(hours));
        CHECK(now >= 0.12 - 1e-12);
        CHECK(now <= full + 1e-12);
        CHECK(soak::moisture_after(p, Celsius(t), 0.12, Hours(hours + 0.5)) >= now - 1e-12);
        CHECK(soak::moisture_after(p, Celsius(t + 1.0), 0.12, Hours(hours)) >= now - 1e-12);
      }
    }
  }
}

TEST_CASE("stress rises and survival falls with hours and with warmth") {
  const auto p = *soak::preset("barley");
  for (double t = 2.0; t <= 36.0; t += 2.0) {
    for (double hours = 0.0; hours <= 72.0; hours += 3.0) {
      INFO(t << " degC " << hours << " h");
      const soak::Effect now = soak::effect(p, Celsius(t), 0.12, Hours(hours));
      const soak::Effect longer = soak::effect(p, Celsius(t), 0.12, Hours(hours + 1.0));
      const soak::Effect warmer = soak::effect(p, Celsius(t + 1.0), 0.12, Hours(hours));
      CHECK(now.stress >= 0.0);
      CHECK(now.stress <= 1.0);
      CHECK(now.survival > 0.0);
      CHECK(now.survival <= 1.0);
      CHECK(now.head_start >= 0.0);
      CHECK(now.head_start <= 20.0);  // what the oxygen of cold water, 1.6 times that at 20 degC, pays for
      CHECK(now.delay >= 0.0);
      CHECK(longer.stress >= now.stress);
      CHECK(longer.survival <= now.survival);
      CHECK(longer.head_start >= now.head_start);
      CHECK(warmer.stress >= now.stress);
    }
  }
}

TEST_CASE("a stronger or longer dip leaves fewer spores and less germination") {
  for (double strength = 0.0; strength <= 3.0; strength += 0.25) {
    for (double hours = 0.0; hours <= 1.0; hours += 0.1) {
      INFO(strength << " % " << hours << " h");
      const auto now = soak::dip_effect({strength, Hours(hours)});
      for (const auto& more :
           {soak::dip_effect({strength + 0.1, Hours(hours)}), soak::dip_effect({strength, Hours(hours + 0.05)})}) {
        CHECK(more.inoculum_left <= now.inoculum_left);
        CHECK(more.germination_kept <= now.germination_kept);
      }
      CHECK(now.inoculum_left > 0.0);
      CHECK(now.germination_kept > 0.0);
    }
  }
}
