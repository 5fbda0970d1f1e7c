// Handling against the lifting manual's example and common practice.
#include "models/route/stations.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::route;

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
