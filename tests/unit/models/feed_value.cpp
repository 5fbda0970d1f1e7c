#include <stdexcept>

#include "models/feed/value.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {
const feed::GrainValue grain{0.12, 13.0};
}

TEST_CASE("grain fed dry gives its dry matter, protein and energy", "[feed]") {
  const auto n = feed::dry_grain(Kilograms(10), 0.89, grain);
  CHECK(n.dry_matter == Approx(8.9));
  CHECK(n.crude_protein == Approx(1.068));
  CHECK(n.energy_mj == Approx(115.7));
}

TEST_CASE("the mat loses dry matter and energy, protein only with the leachate", "[feed]") {
  const auto n = feed::mat(Kilograms(10), 0.89, 0.20, 0.25, grain, 0.96);
  CHECK(n.dry_matter == Approx(7.12));
  CHECK(n.crude_protein == Approx(1.068 * 0.95));
  CHECK(n.energy_mj == Approx(115.7 * 0.8 * 0.96));
}

TEST_CASE("the hay that carries so much energy", "[feed]") {
  CHECK(feed::hay_of_equal_energy(74.8, {0.88, 8.5}).value() == Approx(10.0));
}

TEST_CASE("share of the diet", "[feed]") {
  CHECK(feed::diet_share(Kilograms(0.4), Kilograms(2.0)) == Approx(0.2));
  CHECK(feed::diet_share(Kilograms(0.4), Kilograms(0.0)) == 0.0);
}

TEST_CASE("feed values refuse shares that are none", "[feed]") {
  CHECK_THROWS_AS(feed::dry_grain(Kilograms(-1), 0.89, grain), std::logic_error);
  CHECK_THROWS_AS(feed::dry_grain(Kilograms(1), 1.1, grain), std::logic_error);
  CHECK_THROWS_AS(feed::mat(Kilograms(1), 0.89, -0.1, 0.2, grain, 0.96), std::logic_error);
  CHECK_THROWS_AS(feed::mat(Kilograms(1), 0.89, 0.2, 1.2, grain, 0.96), std::logic_error);
  CHECK_THROWS_AS(feed::mat(Kilograms(1), 0.89, 0.2, 0.2, grain, -0.01), std::logic_error);
  CHECK_THROWS_AS(feed::mat(Kilograms(1), 0.89, 0.2, 0.2, grain, 1.01), std::logic_error);
  CHECK_THROWS_AS(feed::hay_of_equal_energy(1.0, {0.0, 8.5}), std::logic_error);
}
