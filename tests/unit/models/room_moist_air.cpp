#include "models/room/moist_air.hpp"

#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::room;

TEST_CASE("saturation pressure is refused outside its range") {
  CHECK_THROWS_AS(saturation_pressure(Celsius(-100.1)), std::logic_error);
  CHECK_THROWS_AS(saturation_pressure(Celsius(200.1)), std::logic_error);
  CHECK_NOTHROW(saturation_pressure(Celsius(-100.0)));
}

TEST_CASE("the ice and water branches meet at the triple point within a part in 10,000") {
  const double ice = saturation_pressure(Celsius(0.01 - 1e-9)).value();
  const double water = saturation_pressure(Celsius(0.01)).value();
  CHECK(water == Approx(ice).epsilon(1e-4));
  CHECK(water > ice);
}

TEST_CASE("dew point of saturated air is its temperature, outside the range it is the nearest end") {
  for (const double t : {-40.0, -0.5, 0.0, 0.01, 12.0, 35.0})
    CHECK(from_relative_humidity(Celsius(t), 1.0).dew_point.value() == near(t, 1e-6));
  CHECK(dew_point(Pascals(0.0)) == coldest);
  CHECK(dew_point(Pascals(1e9)) == hottest);
}

TEST_CASE("a wet bulb equal to the temperature means saturation") {
  for (const double t : {-10.0, 5.0, 30.0}) {
    const MoistAir air = from_wet_bulb(Celsius(t), Celsius(t));
    CHECK(air.relative_humidity == Approx(1.0).epsilon(1e-9));
    CHECK(air.humidity_ratio == Approx(saturation_humidity_ratio(Celsius(t))).epsilon(1e-12));
  }
}

TEST_CASE("impossible states break the contract") {
  CHECK_THROWS_AS(from_wet_bulb(Celsius(20.0), Celsius(20.5)), std::logic_error);
  CHECK(wet_bulb_humidity_ratio(Celsius(40.0), Celsius(5.0)) < 0.0);
  CHECK_THROWS_AS(from_wet_bulb(Celsius(40.0), Celsius(5.0)), std::logic_error);
  CHECK_THROWS_AS(from_relative_humidity(Celsius(20.0), 1.01), std::logic_error);
  CHECK_THROWS_AS(from_relative_humidity(Celsius(20.0), -0.01), std::logic_error);
  CHECK_THROWS_AS(saturation_humidity_ratio(Celsius(120.0)), std::logic_error);
}

TEST_CASE("thin air holds more water per kilogram of dry air and takes more room") {
  const MoistAir low = from_relative_humidity(Celsius(20.0), 0.5);
  const MoistAir high = from_relative_humidity(Celsius(20.0), 0.5, Pascals(80000.0));
  CHECK(high.humidity_ratio > low.humidity_ratio);
  CHECK(high.volume > low.volume);
  CHECK(high.dew_point.value() == near(low.dew_point.value(), 1e-8));
}

// Superheated but not steam: the wet bulb of hot, dry air lies far below the boiling point, and gives that air back.
TEST_CASE("the wet bulb of air above the boiling point is found below it") {
  const Pascals sea_level(101325.0);
  for (const double degrees : {101.0, 120.0, 150.0}) {
    const room::MoistAir air = room::from_relative_humidity(Celsius(degrees), 0.02, sea_level);
    const Celsius bulb = room::wet_bulb(Celsius(degrees), air.humidity_ratio, sea_level);
    CHECK(bulb < Celsius(100.0));
    CHECK(room::wet_bulb_humidity_ratio(Celsius(degrees), bulb, sea_level) == Approx(air.humidity_ratio).epsilon(1e-6));
  }
}
