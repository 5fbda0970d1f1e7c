// The room's heat closes and its air obeys its bounds, for any input.
#include <algorithm>
#include <cmath>
#include <random>

#include "models/room/heat_balance.hpp"
#include "models/room/moist_air.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::room;

namespace {

// Raw generator output is the same on every platform.
class Draw {
 public:
  explicit Draw(unsigned seed) : engine_(seed) {}
  double between(double low, double high) { return low + (high - low) * (static_cast<double>(engine_()) / 4294967296.0); }

 private:
  std::mt19937 engine_;
};

Parameters any_room(Draw& draw) {
  Parameters p;
  p.shell_area = SquareMetres(draw.between(10.0, 120.0));
  p.shell = Transmittance(draw.between(0.3, 6.0));
  p.air_changes = draw.between(0.1, 5.0);
  p.heat_capacity = HeatCapacity(draw.between(500.0, 20000.0));
  p.solar_aperture = SquareMetres(draw.between(0.0, 5.0));
  p.shade = draw.between(0.0, 1.0);
  p.heater = Watts(draw.between(0.0, 3000.0));
  p.cooler = Watts(draw.between(0.0, 3000.0));
  p.wet_area = SquareMetres(draw.between(0.0, 15.0));
  return p;
}

// Mean temperature over the hour when the total of constant gains is `watts`: the integral of the exponential.
double hourly_mean(double start, double end, double outdoor, double watts, double conductance, double capacity_kj) {
  const double equilibrium = outdoor + watts / conductance;
  const double rate = 3.6 * conductance / capacity_kj;
  return equilibrium + (start - end) / rate;
}

}  // namespace

TEST_CASE("heat in less heat out is the heat stored, with heater, cooler, sun and evaporation") {
  Draw draw(20240301);
  int heated = 0, cooled = 0;
  for (int i = 0; i < 5000; ++i) {
    const Parameters p = any_room(draw);
    const Step step = prepare(p);
    const double start = draw.between(-5.0, 40.0), outdoor = draw.between(-15.0, 45.0);
    const double saturated = saturation_humidity_ratio(Celsius(start));
    const double outdoor_ratio = draw.between(0.0, saturation_humidity_ratio(Celsius(outdoor)));
    const double gain = draw.between(0.0, 1500.0), sun = draw.between(0.0, 1000.0);
    const Hour hour = advance(step, start, outdoor, outdoor_ratio, saturated, gain, sun);
    heated += hour.heater_wh > 0.0;
    cooled += hour.cooler_wh > 0.0;

    const double watts = gain + sun * p.solar_aperture.value() * (1.0 - p.shade) + hour.heater_wh -
                         hour.cooler_wh * p.cooler_efficiency - hour.evaporated * 2.45e6 / 3600.0;
    const double mean =
        hourly_mean(start, hour.temperature, outdoor, watts, step.conductance, p.heat_capacity.value());
    const double stored = p.heat_capacity.value() * (hour.temperature - start) / 3.6;  // Wh
    const double lost = step.conductance * (mean - outdoor);
    const double scale = std::abs(watts) + std::abs(lost) + p.heat_capacity.value() * 60.0 / 3.6;
    INFO("room " << i << ": start " << start << " outdoor " << outdoor << " stored " << stored << " watts " << watts);
    REQUIRE(watts - lost - stored == near(0.0, 1e-11 * scale));
    REQUIRE((hour.heater_wh == 0.0 || hour.cooler_wh == 0.0));
    REQUIRE(hour.heater_wh <= p.heater.value());
  }
  CHECK(heated > 500);
  CHECK(cooled > 500);
}

TEST_CASE("the exact hour agrees with small Euler steps of the differential equation") {
  Draw draw(7);
  for (int i = 0; i < 50; ++i) {
    Parameters p = any_room(draw);
    p.heater = p.cooler = Watts(0.0);
    p.wet_area = SquareMetres(0.0);
    const Step step = prepare(p);
    const double start = draw.between(0.0, 30.0), outdoor = draw.between(-10.0, 40.0), gain = draw.between(0.0, 2000.0);
    double temperature = start;
    constexpr int steps = 36000;
    for (int s = 0; s < steps; ++s) {
      const double watts = step.conductance * (outdoor - temperature) + gain;
      temperature += watts * (3600.0 / steps) / (p.heat_capacity.value() * 1000.0);
    }
    REQUIRE(advance(step, start, outdoor, 0.005, 0.01, gain, 0.0).temperature == near(temperature, 2e-3));
  }
}

TEST_CASE("left alone the room comes to the balance of gains and U A") {
  Draw draw(11);
  for (int i = 0; i < 200; ++i) {
    Parameters p = any_room(draw);
    p.heater = p.cooler = Watts(0.0);
    p.wet_area = SquareMetres(0.0);
    const Step step = prepare(p);
    const double outdoor = draw.between(-10.0, 40.0), gain = draw.between(0.0, 1000.0);
    double temperature = 20.0;
    for (int h = 0; h < 24 * 1500; ++h) temperature = advance(step, temperature, outdoor, 0.005, 0.01, gain, 0.0).temperature;
    const double conductance = p.shell.value() * p.shell_area.value() + 0.33 * p.air_changes * 12.0 * 2.4;
    REQUIRE(temperature == near(outdoor + gain / conductance, 1e-6));
  }
}

TEST_CASE("room humidity lies between outdoor air and saturation, and its vapour balance closes") {
  Draw draw(13);
  for (int i = 0; i < 2000; ++i) {
    const Step step = prepare(any_room(draw));
    const double saturated = draw.between(0.003, 0.04), outdoor = draw.between(0.0, 0.04);
    const Hour hour = advance(step, 20.0, 20.0, outdoor, saturated, 0.0, 0.0);
    REQUIRE(hour.humidity_ratio <= saturated * (1.0 + 1e-12));
    REQUIRE(hour.humidity_ratio >= std::min(outdoor, saturated) * (1.0 - 1e-12));
    if (outdoor < saturated)
      REQUIRE(hour.evaporated == near(step.vapour_vent * (hour.humidity_ratio - outdoor), 1e-12));
  }
}

TEST_CASE("warmer outdoors, more sun or more gain never make the room colder") {
  Draw draw(17);
  for (int i = 0; i < 1000; ++i) {
    const Step step = prepare(any_room(draw));
    const double t = draw.between(0.0, 35.0), o = draw.between(-10.0, 40.0), g = draw.between(0.0, 500.0), s = draw.between(0.0, 500.0);
    const double base = advance(step, t, o, 0.004, 0.012, g, s).temperature;
    REQUIRE(advance(step, t, o + 2.0, 0.004, 0.012, g, s).temperature >= base - 1e-9);
    REQUIRE(advance(step, t, o, 0.004, 0.012, g + 50.0, s).temperature >= base - 1e-9);
    REQUIRE(advance(step, t, o, 0.004, 0.012, g, s + 50.0).temperature >= base - 1e-9);
  }
}

TEST_CASE("saturation pressure rises, and dew point gives it back") {
  double before = 0.0;
  for (double t = -100.0; t <= 200.0; t += 0.25) {
    const Pascals pressure = saturation_pressure(Celsius(t));
    REQUIRE(pressure.value() > before);
    before = pressure.value();
    REQUIRE(dew_point(pressure).value() == near(t, 1e-6));
  }
}

TEST_CASE("dew point, wet bulb and temperature keep their order and go round, above and below freezing") {
  Draw draw(19);
  for (int i = 0; i < 2000; ++i) {
    const Celsius t(draw.between(-20.0, 45.0));
    const Pascals pressure(draw.between(70000.0, 105000.0));
    const MoistAir air = from_relative_humidity(t, draw.between(0.05, 1.0), pressure);
    const Celsius bulb = wet_bulb(t, air.humidity_ratio, pressure);
    INFO("t " << t.value() << " RH " << air.relative_humidity << " p " << pressure.value() << " wet bulb " << bulb.value());
    REQUIRE(bulb.value() <= t.value() + 1e-8);
    // The wet bulb is over ice from 0 degC, the dew point from 0.01 degC: within that hair the order may turn.
    REQUIRE(air.dew_point.value() <= bulb.value() + 0.02);
    const double back = wet_bulb_humidity_ratio(t, bulb, pressure);
    if (std::abs(bulb.value()) > 0.05) REQUIRE(back == near(air.humidity_ratio, 1e-10));
  }
}
