// What `check` says of water is what the simulator does with it.
#include <cmath>

#include "models/water/demand.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/scenario/watering_pipes.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

Outcome played(const Scenario& farm) {
  const Plan plan = make_plan(farm);
  return Replicator(plan).run(3, 1);
}

}  // namespace

TEST_CASE("a cascade in which upper tiers drink what lower ones lack grows less than one with plenty") {
  Scenario farm = test::quiet_farm();
  farm.water.feed = water::Feed::cascade;
  farm.keeper.handling = route::Handling::fixed;  // the same need on every tier
  const double plenty = played(farm).mat_growth_days;
  farm.water.schedule.on_time = Hours(0.01);
  const Watering water = watering_of(farm);
  const Plan plan = make_plan(farm);
  REQUIRE(plan.tier_water.size() == water.tiers.size());
  for (std::size_t tier = 0; tier < plan.tier_water.size(); ++tier) CHECK(plan.tier_water[tier] == water.tiers[tier].usual_share());
  // Each can use half of what falls on it and leaves the other half.
  for (std::size_t tier = 0; tier < 3; ++tier) CHECK(plan.tier_water[tier] == Approx(0.5 * plan.tier_water[tier + 1]));
  CHECK(played(farm).mat_growth_days < plenty);
}

TEST_CASE("a tank that check finds too small for the gap between rounds runs empty in the simulator, and one that suffices does not") {
  Scenario farm = test::quiet_farm();
  farm.water.top_up = TopUp::by_hand;
  const double a_day = water::daily_use(farm.water.schedule, watering_of(farm).solution.pump_flow, Watts(0.0), 0.0, 0.0, 0.0).through_litres;
  for (const double every : {2.0, 10.0, 14.0, 24.0, 30.0}) {
    farm.water.top_up_every = Hours(every);
    const double gap = fill_gap(farm, farm.water.top_up_every).value();
    INFO(every << " h, gap " << gap << " h");
    farm.water.tank_litres = a_day / 24.0 * (gap - 0.3);
    CHECK(runs_empty(farm, watering_of(farm)));
    CHECK(played(farm).tank_empties > 50);
    farm.water.tank_litres = a_day / 24.0 * (gap + 0.3);
    CHECK_FALSE(runs_empty(farm, watering_of(farm)));
    CHECK(played(farm).tank_empties == 0);
  }
}
