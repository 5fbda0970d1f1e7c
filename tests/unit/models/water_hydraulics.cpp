#include "models/water/friction.hpp"
#include "models/water/hydraulics.hpp"

#include <cmath>
#include <stdexcept>

#include "models/water/demand.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::water;

TEST_CASE("pipe loss is nothing at rest, proportional to length, and steep in diameter") {
  const Metres d(0.016);
  CHECK(pipe_loss(LitresPerHour(0.0), d, Metres(10.0)).value() == 0.0);
  const double one = pipe_loss(LitresPerHour(300.0), d, Metres(10.0)).value();
  CHECK(pipe_loss(LitresPerHour(300.0), d, Metres(30.0)).value() == Approx(3.0 * one));
  CHECK(pipe_loss(LitresPerHour(300.0), Metres(0.032), Metres(10.0)).value() < one / 25.0);
  CHECK(hazen_williams_loss(LitresPerHour(300.0), d, Metres(10.0), 100.0).value() >
        2.0 * hazen_williams_loss(LitresPerHour(300.0), d, Metres(10.0)).value());
  CHECK_THROWS_AS(pipe_loss(LitresPerHour(-1.0), d, Metres(10.0)), std::logic_error);
  CHECK_THROWS_AS(pipe_loss(LitresPerHour(1.0), Metres(0.0), Metres(10.0)), std::logic_error);
}

TEST_CASE("friction has no step and the slope it says, from laminar to fully rough") {
  for (const double roughness : {0.0, 1.5e-6, 1e-4}) {
    const PipeFriction pipe(Metres(0.016), Metres(10.0), {Metres(roughness), Celsius(20.0)});
    double before = 0.0;
    for (double flow = 1.0; flow < 5000.0; flow *= 1.01) {
      const auto [head, slope] = pipe.at(flow);
      INFO("roughness " << roughness << " m, flow " << flow << " L/h");
      const double step = 1e-4 * flow;
      const double rise = (pipe.at(flow + step).head - pipe.at(flow - step).head) / (2.0 * step);
      // Where laminar flow ends the slope jumps; a hair's breadth about it is not looked at.
      const double reynolds = velocity(LitresPerHour(flow), Metres(0.016)) * 0.016 / kinematic_viscosity(Celsius(20.0));
      if (std::abs(reynolds - 2000.0) > 1.0 && std::abs(reynolds - 4000.0) > 1.0) CHECK(slope == Approx(rise).epsilon(1e-3));
      CHECK(head > before);
      CHECK(head >= pipe.laminar() * flow * (1.0 - 1e-12));
      before = head;
    }
  }
}

TEST_CASE("velocity and flow_at are each other's inverse") {
  const LitresPerHour flow = flow_at(1.5, Metres(0.02));
  CHECK(velocity(flow, Metres(0.02)) == Approx(1.5));
  CHECK(minor_loss(flow, Metres(0.02), 2.0).value() == Approx(2.0 * 1.5 * 1.5 / (2.0 * 9.80665)));
}

TEST_CASE("an emitter gives its reference flow at its reference head and nothing without head") {
  const Emitter emitter{LitresPerHour(53.0), Metres(1.0), 0.57};
  CHECK(emitter_flow(emitter, Metres(1.0)).value() == Approx(53.0));
  CHECK(emitter_flow(emitter, Metres(0.0)).value() == 0.0);
  CHECK(emitter_flow(emitter, Metres(-1.0)).value() == 0.0);
  CHECK(emitter_head(emitter, emitter_flow(emitter, Metres(2.7))).value() == Approx(2.7));
  const Emitter compensating{LitresPerHour(8.0), Metres(10.0), 0.0};
  CHECK(emitter_flow(compensating, Metres(25.0)).value() == Approx(8.0));
  CHECK_THROWS_AS(emitter_head(compensating, LitresPerHour(8.0)), std::logic_error);
}

TEST_CASE("an orifice gives twice as much under four times the head") {
  const Metres hole(0.004);
  CHECK(orifice_flow(hole, Metres(2.0)).value() == Approx(2.0 * orifice_flow(hole, Metres(0.5)).value()).epsilon(1e-12));
  CHECK(orifice_flow(hole, Metres(0.0)).value() == 0.0);
}

TEST_CASE("a pump's curve runs from shut-off to full flow") {
  const Pump pump{Metres(3.0), LitresPerHour(2000.0), Watts(40.0)};
  CHECK(pump_head(pump, LitresPerHour(0.0)).value() == Approx(3.0));
  CHECK(pump_head(pump, LitresPerHour(1000.0)).value() == Approx(2.25));
  CHECK(pump_head(pump, LitresPerHour(2000.0)).value() == near(0.0, 1e-12));
}

TEST_CASE("daily use: all fresh without a return, what is used and renewed with one") {
  Schedule schedule;
  schedule.cycles_per_day = 6.0;
  schedule.on_time = Hours(0.1);
  const Daily once = daily_use(schedule, LitresPerHour(500.0), Watts(40.0), 20.0, 5.0, 100.0);
  CHECK(once.pump_time.value() == Approx(0.6));
  CHECK(once.through_litres == Approx(300.0));
  CHECK(once.fresh_litres == Approx(300.0));
  CHECK(once.energy.value() == Approx(0.024));
  schedule.recirculating = true;
  schedule.renewals_per_week = 3.5;
  CHECK(daily_use(schedule, LitresPerHour(500.0), Watts(40.0), 20.0, 5.0, 100.0).fresh_litres == Approx(25.0 + 50.0));
  schedule.cycles_per_day = 1000.0;
  CHECK(daily_use(schedule, LitresPerHour(500.0), Watts(40.0), 20.0, 5.0, 100.0).pump_time.value() == Approx(24.0));
}

TEST_CASE("a short dry spell in a cool room is harmless, a dry day in the heat is not") {
  CHECK(dry_damage(Hours(0.0), Celsius(30.0)).sprouts_killed == 0.0);
  const DryDamage cool = dry_damage(Hours(3.0), Celsius(18.0));
  CHECK(cool.growth_lost_days < 0.03);
  CHECK(cool.sprouts_killed < 0.005);
  const DryDamage hot = dry_damage(Hours(24.0), Celsius(30.0));
  CHECK(hot.growth_lost_days > 0.9);
  CHECK(hot.growth_lost_days <= 1.0);
  CHECK(hot.sprouts_killed > 0.5);
  CHECK(hot.sprouts_killed < 1.0);
}
