#include "models/growth/mat.hpp"

#include <cmath>
#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;

namespace {
constexpr KilogramsPerSquareMetre usual(5.0);
}

TEST_CASE("growth runs at one at 20 degC and stops at the cardinal temperatures") {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    INFO(species);
    const auto p = *growth::preset(species);
    CHECK(growth::growth_rate(p, Celsius(20.0)) == Approx(1.0).epsilon(1e-12));
    CHECK(growth::growth_rate(p, p.base) == 0.0);
    CHECK(growth::growth_rate(p, p.ceiling) == 0.0);
    CHECK(growth::growth_rate(p, Celsius(p.ceiling.value() + 5.0)) == 0.0);
    CHECK(growth::growth_rate(p, p.optimum) > growth::growth_rate(p, Celsius(p.optimum.value() + 1.0)));
    CHECK(growth::growth_rate(p, p.optimum) > growth::growth_rate(p, Celsius(p.optimum.value() - 1.0)));
  }
}

TEST_CASE("the beta function has its published values when nothing bends it") {
  // beta(0, 27, 40) and beta(0, 30, 42) of Yin et al. 1995, worked by hand; here relative to 20 degC.
  growth::Parameters p;
  p.curvature = 1.0;
  p.base = Celsius(0.0);
  p.optimum = Celsius(27.0);
  p.ceiling = Celsius(40.0);
  CHECK(growth::growth_rate(p, Celsius(10.0)) == Approx(0.2933 / 0.8249).epsilon(1e-3));
  CHECK(growth::growth_rate(p, Celsius(35.0)) == Approx(0.6593 / 0.8249).epsilon(1e-3));
  p.optimum = Celsius(30.0);
  p.ceiling = Celsius(42.0);
  CHECK(growth::growth_rate(p, Celsius(36.0)) == Approx(0.7887 / 0.6653).epsilon(1e-3));
}

TEST_CASE("grain that never sprouts only soaks") {
  const auto p = *growth::preset("barley");
  const growth::Mat dead = growth::mat(p, 8.0, 0.0, usual, 0.89);
  CHECK(dead.dry_matter_loss == 0.0);
  CHECK(dead.height_cm == 0.0);
  CHECK(dead.heat_watts == 0.0);
  CHECK(dead.dry_matter == Approx(p.mat_dry_matter_start));
  CHECK(dead.fresh_ratio == Approx(0.89 / p.mat_dry_matter_start));
}

TEST_CASE("sprouted and soaked parts add by mass") {
  const auto p = *growth::preset("barley");
  const growth::Mat all = growth::mat(p, 7.0, 1.0, usual, 0.89), none = growth::mat(p, 7.0, 0.0, usual, 0.89);
  const growth::Mat mixed = growth::mat(p, 7.0, 0.6, usual, 0.89);
  CHECK(mixed.fresh_ratio == Approx(0.6 * all.fresh_ratio + 0.4 * none.fresh_ratio).epsilon(1e-12));
  CHECK(mixed.dry_matter * mixed.fresh_ratio ==
        Approx(0.6 * all.dry_matter * all.fresh_ratio + 0.4 * none.dry_matter * none.fresh_ratio).epsilon(1e-12));
}

TEST_CASE("yield per kilogram is level to the plateau density, then falls") {
  const auto p = *growth::preset("barley");
  const auto yield = [&p](double density) {
    return growth::mat(p, 7.0, 0.93, KilogramsPerSquareMetre(density), 0.89).fresh_ratio;
  };
  CHECK(yield(4.0) == yield(7.6));
  CHECK(yield(9.0) < yield(7.6));
  CHECK(yield(12.0) < yield(9.0));
  CHECK(12.0 * yield(12.0) > 9.0 * yield(9.0));  // a square metre still carries more, as soaked grain
}

TEST_CASE("a mat warms with its heat and not without") {
  CHECK(growth::mat_excess(0.0).value() == 0.0);
  CHECK(growth::mat_excess(21.0).value() == Approx(2.0));
  const auto p = *growth::preset("barley");
  const double peak = growth::heat_watts(p, 5.0, 0.93, 1.0) * 5.0;
  CHECK(growth::mat_excess(peak).value() > 1.0);
  CHECK(growth::mat_excess(peak).value() < 5.0);
}

TEST_CASE("feed value is whole until overdue") {
  const auto p = *growth::preset("barley");
  CHECK(growth::value_kept(p, p.overdue) == 1.0);
  CHECK(growth::value_kept(p, p.overdue + 1.0) == Approx(std::exp(-0.08)));
}

TEST_CASE("shares outside 0 to 1 are our fault") {
  const auto p = *growth::preset("barley");
  CHECK_THROWS_AS(growth::mat(p, 1.0, 1.2, usual, 0.89), std::logic_error);
  CHECK_THROWS_AS(growth::mat(p, 1.0, 0.5, usual, 0.0), std::logic_error);
}

TEST_CASE("a law so steep that it comes to nothing at 20 degC is fast beyond all bounds, and finite") {
  growth::Parameters p;
  p.base = Celsius(17.9);
  p.optimum = Celsius(59.99);
  p.ceiling = Celsius(60.0);
  const double fast = growth::growth_rate(p, p.optimum) / p.pace;
  CHECK(fast > 1e3);
  CHECK(fast <= 1e6);
}
