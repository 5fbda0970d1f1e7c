#include "models/spoilage/hazard.hpp"

#include <cmath>
#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("growth is full at the best temperature and none at the ends") {
  const spoilage::Parameters p;
  for (const auto& cardinal : {p.mould, p.sour}) {
    CHECK(spoilage::growth_factor(cardinal, cardinal.best) == Approx(1.0).epsilon(1e-12));
    CHECK(spoilage::growth_factor(cardinal, cardinal.least) == 0.0);
    CHECK(spoilage::growth_factor(cardinal, cardinal.most) == 0.0);
    CHECK(spoilage::growth_factor(cardinal, Celsius(-100.0)) == 0.0);
    CHECK(spoilage::growth_factor(cardinal, Celsius(500.0)) == 0.0);
  }
}

TEST_CASE("a power only sharpens the factor") {
  spoilage::Cardinal plain{Celsius(12.0), Celsius(42.0), Celsius(50.0)}, sharp = plain;
  sharp.power = 3.0;
  const double factor = spoilage::growth_factor(plain, Celsius(35.0));
  CHECK(spoilage::growth_factor(sharp, Celsius(35.0)) == Approx(factor * factor * factor));
}

TEST_CASE("the usual tray has the stated rates") {
  const spoilage::Parameters p;
  CHECK(spoilage::mould_multiplier(p, spoilage::Tray{}) == Approx(p.mould_rate));
  CHECK(spoilage::sour_multiplier(p, spoilage::Tray{}) == Approx(p.sour_rate));
}

TEST_CASE("a clean tray without spores grows no mould, however dense") {
  spoilage::Tray tray;
  tray.inoculum = 0.0;
  tray.density = KilogramsPerSquareMetre(9.0);
  CHECK(spoilage::mould_multiplier(spoilage::Parameters{}, tray) == 0.0);
}

TEST_CASE("an integrated hazard becomes a chance") {
  CHECK(spoilage::spoiled_probability(0.0) == 0.0);
  CHECK(spoilage::spoiled_probability(std::log(2.0)) == Approx(0.5));
  CHECK(spoilage::spoiled_probability(1e-12) == Approx(1e-12));
}

TEST_CASE("cardinal temperatures out of order, or with a pole, are our fault") {
  CHECK_THROWS_AS(spoilage::growth_factor({Celsius(5.0), Celsius(4.0), Celsius(30.0)}, Celsius(10.0)),
                  std::logic_error);
  CHECK_THROWS_AS(spoilage::growth_factor({Celsius(5.0), Celsius(17.0), Celsius(30.0)}, Celsius(10.0)),
                  std::logic_error);
}

// (Tmax - T)(T - Tmin) / (Topt - Tmin)^2: what the curve of Rosso et al. becomes, and comes to, in the exact middle.
TEST_CASE("a best temperature just in the middle gives a parabola") {
  const auto at = [](double best, double t) {
    return spoilage::growth_factor({Celsius(10.0), Celsius(best), Celsius(30.0), 1.0}, Celsius(t));
  };
  CHECK(at(20.0, 20.0) == Approx(1.0));
  CHECK(at(20.0, 15.0) == Approx(0.75));
  CHECK(at(20.0, 29.0) == Approx(0.19));
  for (const double t : {10.5, 14.0, 25.0, 29.5}) CHECK(at(20.0 + 1e-7, t) == Approx(at(20.0, t)).epsilon(1e-5));
}
