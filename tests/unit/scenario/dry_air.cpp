// What dry air draws from mats, by hand, and what a tier needs for it.
#include "sim/scenario/dry_air.hpp"

#include "models/climate/climate.hpp"
#include "models/room/moist_air.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/watering.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Scenario with(std::vector<std::string> settings) {
  // The same weather all year.
  for (const char* still : {"climate.amplitude=0 K", "climate.range_mean=1 K", "climate.range_amplitude=0 K", "climate.dew_depression_amplitude=0 K", "room.air_changes=4"}) settings.emplace_back(still);
  const Reading reading = read_scenario(sample::small, settings);
  for (const Problem& problem : reading.problems) FAIL(problem.key << " " << problem.value << ": " << problem.why);
  return *reading.scenario;
}

}  // namespace

TEST_CASE("dry air draws from mats what the room's law says") {
  const Scenario s = with({"climate.mean=27 degC", "climate.dew_depression_mean=20 K"});
  const double area = 3.0, vent = 1.2 * 4.0 * s.room.floor_area.value() * s.room.height.value(), film = 11.0 * area;  // [kg/h]
  const double dryness = room::saturation_humidity_ratio(Celsius(27.0)) - climate::humidity_ratio_at_dew_point(Celsius(7.0));
  const DryAir air = dry_air(s, SquareMetres(area));
  CHECK(air.usual == Approx(24.0 * vent * film / (vent + film) * dryness / area).epsilon(1e-6));
  CHECK(air.driest == Approx(air.usual).epsilon(1e-9));
}

TEST_CASE("the driest month is that of summer, and of the hours in which doors stand open") {
  Scenario s = with({"climate.mean=18 degC", "climate.dew_depression_mean=10 K"});
  const double still = dry_air(s, SquareMetres(3.0)).driest;
  s.climate.mean.amplitude = Kelvins(8.0);
  const DryAir seasons = dry_air(s, SquareMetres(3.0));
  CHECK(seasons.driest > 1.3 * still);
  CHECK(seasons.usual < seasons.driest);
  // A heater dries, a cooler does the contrary.
  s.room.heater = Watts(3000.0);
  s.room.heater_set = Celsius(24.0);
  CHECK(dry_air(s, SquareMetres(3.0)).usual > 1.2 * seasons.usual);
  s.room.heater = Watts(0.0);
  s.room.cooler = Watts(3000.0);
  s.room.cooler_set = Celsius(20.0);
  CHECK(dry_air(s, SquareMetres(3.0)).driest < seasons.driest);
}

TEST_CASE("tiers need more where the air is dry, and never less than the species' own figure") {
  const auto needs = [](const char* depression) { return watering_of(with({"climate.mean=28 degC", std::string("climate.dew_depression_mean=") + depression})).tiers.front(); };
  const TierWater damp = needs("1 K"), mild = needs("4 K"), dry = needs("25 K");
  CHECK(damp.need == Approx(mild.need));
  CHECK(dry.need > 1.1 * damp.need);
  CHECK(dry.usual > 1.1 * damp.usual);
}
