#include "models/room/stale_air.hpp"

#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("air is as outdoors where nothing breathes") {
  CHECK(room::carbon_dioxide(Watts(0.0), 1.0, CubicMetres(30.0)) == room::outdoor_carbon_dioxide);
  CHECK(room::carbon_dioxide(Watts(0.0), 0.0, CubicMetres(30.0)) == room::outdoor_carbon_dioxide);
}

TEST_CASE("what mats breathe out grows with their heat and falls with the air that comes in, whichever way it comes") {
  const auto beyond = [](double watts, double changes, double volume) { return room::carbon_dioxide(Watts(watts), changes, CubicMetres(volume)) - room::outdoor_carbon_dioxide; };
  const double once = beyond(100.0, 1.0, 30.0);
  CHECK(once > 0.0);
  CHECK(beyond(200.0, 1.0, 30.0) == Approx(2.0 * once));
  CHECK(beyond(100.0, 2.0, 30.0) == Approx(0.5 * once));
  CHECK(beyond(100.0, 1.0, 60.0) == Approx(0.5 * once));
}

TEST_CASE("mats breathe no more than there is oxygen") {
  CHECK(room::carbon_dioxide(Watts(100.0), 0.0, CubicMetres(30.0)) == 0.2095);
  CHECK(room::carbon_dioxide(Watts(1e6), 1.0, CubicMetres(30.0)) == 0.2095);
  double before = 0.0;
  for (double watts = 0.0; watts < 1e5; watts += 100.0) {
    const double share = room::carbon_dioxide(Watts(watts), 1.0, CubicMetres(30.0));
    CHECK(share >= before);
    CHECK(share <= 0.2095);
    before = share;
  }
}
