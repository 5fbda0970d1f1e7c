// Spoilage: every bad thing raises its hazard; factors are bounded with one top.

#include "models/spoilage/hazard.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("every fault of a tray raises its hazard") {
  const spoilage::Parameters p;
  const spoilage::Tray usual;
  for (double step = 0.02; step <= 0.5; step += 0.04) {
    INFO("step " << step);
    const auto worse = [&](auto change) {
      spoilage::Tray less = usual, more = usual;
      change(less, step);
      change(more, step + 0.04);
      return spoilage::mould_multiplier(p, more) + spoilage::sour_multiplier(p, more) >
             spoilage::mould_multiplier(p, less) + spoilage::sour_multiplier(p, less);
    };
    CHECK(worse([](spoilage::Tray& tray, double k) { tray.inoculum = 10.0 * k; }));
    CHECK(worse([](spoilage::Tray& tray, double k) { tray.dead_fraction = k; }));
    CHECK(worse([](spoilage::Tray& tray, double k) { tray.density = KilogramsPerSquareMetre(15.0 * k); }));
    CHECK(worse([](spoilage::Tray& tray, double k) { tray.relative_humidity = 0.4 + k; }));
    CHECK(worse([](spoilage::Tray& tray, double k) { tray.soak_stress = k; }));
    CHECK(worse([](spoilage::Tray& tray, double k) { tray.undrained = k; }));
  }
}

TEST_CASE("growth factors lie between 0 and 1 with one top at the best temperature") {
  const spoilage::Parameters p;
  for (const auto& cardinal : {p.mould, p.sour, spoilage::Cardinal{Celsius(-3.0), Celsius(24.0), Celsius(34.0)}}) {
    for (double t = -10.0; t <= 60.0; t += 0.25) {
      INFO(t << " degC, best " << cardinal.best.value());
      const double here = spoilage::growth_factor(cardinal, Celsius(t)),
                   warmer = spoilage::growth_factor(cardinal, Celsius(t + 0.25));
      CHECK(here >= 0.0);
      CHECK(here <= 1.0);
      if (t + 0.25 <= cardinal.best.value()) CHECK(warmer >= here);
      if (t >= cardinal.best.value()) CHECK(warmer <= here);
    }
  }
}
