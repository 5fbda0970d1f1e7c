#include "models/room/heat_balance.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::room;

namespace {

Parameters plain() {
  Parameters p;
  p.solar_aperture = SquareMetres(0.0);
  return p;
}

Hour run(const Step& step, double start, double outdoor, double watts, int hours) {
  Hour hour;
  hour.temperature = start;
  for (int i = 0; i < hours; ++i) hour = advance(step, hour.temperature, outdoor, 0.005, 0.01, watts, 0.0);
  return hour;
}

}  // namespace

TEST_CASE("walls colder than the dew point take water, and the balances of water and heat close") {
  Parameters p;
  p.shell = Transmittance(6.0);
  p.wet_area = SquareMetres(8.0);
  const Step step = prepare(p);
  const double outdoor = 0.003, saturated = 0.0147, ratio = step.outdoor_share * outdoor + (1.0 - step.outdoor_share) * saturated;
  const Walls walls = on_walls(step, ratio, 0.006, true);
  const double now = ratio - walls.lowered;
  CHECK(walls.condensed == Approx(step.wall_film * (now - 0.006)));
  CHECK(step.vapour_vent * (outdoor - now) + step.vapour_film * (saturated - now) == Approx(walls.condensed));
  CHECK(walls.drawn == Approx(step.vapour_film * walls.lowered));
  CHECK(walls.watts == Approx(latent_watts_per_kg_h * (walls.condensed * (1.0 - 6.0 / 7.7) - walls.drawn)));
  CHECK(now > 0.006);
  CHECK(on_walls(step, ratio, ratio, true).condensed == 0.0);
  p.air_changes = 0.0;
  p.wet_area = SquareMetres(0.0);
  CHECK(on_walls(prepare(p), 0.01, 0.006, true).condensed == 0.0);  // nothing brings water: nothing goes on condensing
}

TEST_CASE("prepare adds shell and air change") {
  const Step step = prepare(plain());
  const double expected = 1.8 * 50.0 + 0.33 * 1.0 * 12.0 * 2.4;
  CHECK(step.conductance == Approx(expected));
  CHECK(step.decay == Approx(std::exp(-expected * 3600.0 / 4.0e6)));
  CHECK(step.vapour_vent == Approx(1.2 * 28.8));
}

TEST_CASE("insulation adds its resistance to the wall's, and none changes nothing") {
  CHECK(insulated(Transmittance(1.8), Metres(0.0), 0.037).value() == 1.8);
  CHECK(1.0 / insulated(Transmittance(1.8), Metres(0.05), 0.037).value() == Approx(1.0 / 1.8 + 0.05 / 0.037));
  CHECK(insulated(Transmittance(0.0), Metres(0.05), 0.037).value() == 0.0);
  CHECK_THROWS_AS(insulated(Transmittance(1.8), Metres(-0.01), 0.037), std::logic_error);
  CHECK_THROWS_AS(insulated(Transmittance(1.8), Metres(0.01), 0.0), std::logic_error);
  Parameters bare, clad;
  bare.shell = insulated(bare.shell, Metres(0.08), 0.06);
  clad.insulation = Metres(0.08);
  clad.insulation_conductivity = 0.06;
  CHECK(prepare(clad).conductance == prepare(bare).conductance);
  CHECK(prepare(clad).wall_fall == prepare(bare).wall_fall);
}

TEST_CASE("an unheated room cools by the exponential of its time constant") {
  const Step step = prepare(plain());
  const Hour after = run(step, 20.0, 5.0, 0.0, 10);
  CHECK(after.temperature == Approx(5.0 + 15.0 * std::exp(-10.0 * 3600.0 * step.conductance / 4.0e6)));
}

TEST_CASE("the heater holds its set point when it can, and runs flat out when it cannot") {
  Parameters p = plain();
  p.heater = Watts(3000.0);
  const Step strong = prepare(p);
  const Hour held = run(strong, 16.0, 0.0, 0.0, 5);
  CHECK(held.temperature == Approx(16.0));
  CHECK(held.heater_wh == Approx(strong.conductance * 16.0));
  CHECK(held.heater_wh < 3000.0);

  p.heater = Watts(500.0);
  const Hour cold = run(prepare(p), 16.0, 0.0, 0.0, 500);
  CHECK(cold.heater_wh == Approx(500.0));
  CHECK(cold.temperature == Approx(500.0 / strong.conductance));
}

TEST_CASE("the cooler holds its set point and pays by its efficiency") {
  Parameters p = plain();
  p.cooler = Watts(4000.0);
  p.cooler_efficiency = 2.0;
  const Step step = prepare(p);
  const Hour held = run(step, 26.0, 38.0, 0.0, 3);
  CHECK(held.temperature == Approx(26.0));
  CHECK(held.cooler_wh == Approx(step.conductance * 12.0 / 2.0));
  CHECK(held.heater_wh == 0.0);
}

TEST_CASE("crossed set points never run heater and cooler together") {
  Parameters p = plain();
  p.heater = Watts(2000.0);
  p.cooler = Watts(2000.0);
  p.heater_set = Celsius(22.0);
  p.cooler_set = Celsius(18.0);
  const Hour hour = run(prepare(p), 20.0, 15.0, 0.0, 4);
  CHECK(hour.heater_wh > 0.0);
  CHECK(hour.cooler_wh == 0.0);
}

TEST_CASE("a heater of no power has no set point: the cooler runs as without one") {
  Parameters p = plain();
  p.cooler = Watts(2000.0);
  p.cooler_set = Celsius(24.0);
  p.heater_set = Celsius(16.0);
  const Hour usual = run(prepare(p), 26.0, 34.0, 0.0, 4);
  p.heater_set = Celsius(34.0);
  const Hour high = run(prepare(p), 26.0, 34.0, 0.0, 4);
  CHECK(high.temperature == usual.temperature);
  CHECK(high.cooler_wh == usual.cooler_wh);
  CHECK(usual.cooler_wh > 100.0);
  CHECK(high.heater_wh == 0.0);
}

TEST_CASE("shade keeps its share of the sun out") {
  Parameters p = plain();
  p.solar_aperture = SquareMetres(2.0);
  const double open = advance(prepare(p), 20.0, 20.0, 0.005, 0.01, 0.0, 500.0).temperature;
  p.shade = 0.75;
  const double shaded = advance(prepare(p), 20.0, 20.0, 0.005, 0.01, 0.0, 500.0).temperature;
  CHECK(shaded - 20.0 == Approx(0.25 * (open - 20.0)));
}

TEST_CASE("outdoor air and sun alone take an hour a step towards both, in proportion to the sun") {
  Parameters room;
  room.solar_aperture = SquareMetres(2.0);
  room.shade = 0.5;
  const Step step = prepare(room);
  // A watt kept up for the hour ends it gain_to_kelvin higher; 1 m2 is left of the aperture.
  const double outdoors = 10.0 * step.ingress;
  CHECK(outdoor_part(step, 10.0, 0.0) == Approx(outdoors));
  CHECK(outdoor_part(step, 10.0, 300.0) - outdoors == Approx(300.0 * step.gain_to_kelvin));
  CHECK(outdoor_part(step, 10.0, 600.0) - outdoors == Approx(600.0 * step.gain_to_kelvin));
}

TEST_CASE("evaporation cools the room and wets its air, damp outdoor air evaporates nothing") {
  Parameters p = plain();
  p.wet_area = SquareMetres(5.0);
  const Step step = prepare(p);
  const Hour dry = advance(step, 20.0, 20.0, 0.005, 0.0147, 0.0, 0.0);
  CHECK(dry.evaporated > 0.0);
  CHECK(dry.temperature < 20.0);
  CHECK(dry.humidity_ratio > 0.005);
  CHECK(dry.humidity_ratio < 0.0147);
  const Hour damp = advance(step, 20.0, 20.0, 0.016, 0.0147, 0.0, 0.0);
  CHECK(damp.evaporated == 0.0);
  CHECK(damp.humidity_ratio == Approx(0.0147));
}

TEST_CASE("a sealed dry room takes the outdoor humidity, unsound rooms break the contract") {
  Parameters p = plain();
  p.air_changes = 0.0;
  CHECK(advance(prepare(p), 20.0, 20.0, 0.006, 0.0147, 0.0, 0.0).humidity_ratio == Approx(0.006));
  p.shell = Transmittance(0.0);
  CHECK_THROWS_AS(prepare(p), std::logic_error);
  p = plain();
  p.shade = 1.5;
  CHECK_THROWS_AS(prepare(p), std::logic_error);
}
