// Handling against the lifting manual's example and common practice.
#include "models/route/stations.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::route;

TEST_CASE("the lifting manual's example: 16.3 lb") {
  // NIOSH 94-110, US units, from memory: hands 23 in out and 15 in up, travel 48 in, fair grip, one lift now and then:
  // 51 x .44 x .89 x .86 x .95 = 16.3 lb. The manual rounds each multiplier to two places and uses 10 in and 51 lb where the
  // metric form has 25 cm and 23 kg (0.984 and 0.994 of them): tolerance 4 %.
  const double limit = lifting_limit(Metres(23 * 0.0254), Metres(15 * 0.0254), Metres(48 * 0.0254), Degrees(0.0), 0.2, 1).value();
  INFO("H 23 in, V 15 in, D 48 in, A 0, 0.2 lifts/min, fair: " << limit << " kg");
  CHECK(limit / 0.45359237 == Approx(16.3).epsilon(0.04));
}

TEST_CASE("the lifting equation's factors one by one, as that example prints them") {
  const auto limit = [](double h, double v, double d, int coupling) {
    return lifting_limit(Metres(h * 0.0254), Metres(v * 0.0254), Metres(d * 0.0254), Degrees(0.0), 0.2, coupling).value();
  };
  const double upright = 0.75 / 0.0254;  // hands at 75 cm: vertical factor 1
  CHECK(limit(5, upright, 5, 0) == Approx(23.0));
  CHECK(limit(23, upright, 5, 0) / 23.0 == Approx(0.44).margin(0.0125));  // 25/58.4 against 10/23
  CHECK(limit(5, 15, 5, 0) / 23.0 == Approx(0.89).margin(0.005));
  CHECK(limit(5, upright, 48, 0) / 23.0 == Approx(0.86).margin(0.005));
  CHECK(limit(5, 15, 5, 1) / limit(5, 15, 5, 0) == Approx(0.95));
}

TEST_CASE("frequency multipliers of the lifting manual") {
  // NIOSH 94-110 table 5, from memory: lifts a minute, hands at 75 cm or above, by duration.
  const struct { double lifts; LiftDuration duration; double multiplier; } rows[] = {
      {0.2, LiftDuration::up_to_1_hour, 1.00},   {1.0, LiftDuration::up_to_1_hour, 0.94},
      {5.0, LiftDuration::up_to_1_hour, 0.80},   {10.0, LiftDuration::up_to_1_hour, 0.45},
      {15.0, LiftDuration::up_to_1_hour, 0.28},  {0.2, LiftDuration::up_to_2_hours, 0.95},
      {5.0, LiftDuration::up_to_2_hours, 0.60},  {0.2, LiftDuration::up_to_8_hours, 0.85},
      {5.0, LiftDuration::up_to_8_hours, 0.35},  {9.0, LiftDuration::up_to_8_hours, 0.15}};
  for (const auto& row : rows) {
    INFO(row.lifts << " lifts a minute, duration class " << static_cast<int>(row.duration));
    CHECK(frequency_multiplier(row.lifts, Metres(0.75), row.duration) == Approx(row.multiplier));
  }
}

TEST_CASE("eight days on the rack with one harvest a day need eight positions per daily tray plus the soak") {
  // Common practice, no source.
  const Positions places = littles_law(1.0, days(8), Hours(12.0));
  CHECK(places.on_rack == Approx(8.0));
  CHECK(places.in_soak == Approx(0.5));
  LineShape shape;
  shape.keeper_minutes_per_day = 1000.0;
  shape.soak_buckets = 100;
  for (const Handling handling : {Handling::ladder, Handling::fixed}) {
    shape.positions = 32;
    const Plan enough = plan(usual_layout(shape, handling, {}), shape, handling, {});
    INFO("32 positions, 8 days, four trays a day wanted: ceiling " << enough.daily_ceiling);
    CHECK(enough.daily_ceiling == Approx(4.0));
    shape.positions = 31;
    CHECK(plan(usual_layout(shape, handling, {}), shape, handling, {}).daily_ceiling < 4.0);
  }
}
