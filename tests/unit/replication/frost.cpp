// A run that opens with an empty rack: what the room is then.

#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

DailyRow first_day(const Scenario& farm, const Opening& opening) {
  const Plan plan = make_plan(without_luck(farm), opening);
  Replicator replicator(plan);
  replicator.run(1, 0);
  return replicator.daily().front();
}

}  // namespace

TEST_CASE("whether grain can be put to soak is asked of the room as it is then") {
  Scenario farm = test::quiet_farm(60);
  farm.climate.mean.mean = Celsius(2.0);
  farm.climate.range_mean = Kelvins(10.0);
  farm.room.heat_capacity = HeatCapacity(300.0);
  farm.room.air_changes = 20.0;
  farm.line.batches_per_day = 1;
  farm.keeper.morning = Hours(14.0);
  for (Group& animals : farm.groups) animals.feedings = 1;
  farm.run.rack_full_at_start = false;
  const auto played = [&](double soak) {
    farm.line.soak = Hours(soak);
    const Plan plan = make_plan(farm);
    Replicator replicator(plan);
    return replicator.run(1, 0);
  };
  // The room is above freezing at midnight and from nine to the round at two in the afternoon, and below it at four in the morning.
  const Outcome night = played(10.0), evening = played(18.0);
  CHECK(night.room_min < -1.0);
  CHECK(night.trays_sown == 0);
  CHECK(night.frost_unsown == 60 * farm.line.trays_per_batch);
  CHECK(evening.frost_unsown == 0);
  CHECK(evening.trays_sown > 0);
}

TEST_CASE("a run that opens with an empty rack opens in the room that its heater and the usual weather have made") {
  Scenario farm = test::quiet_farm();
  farm.climate.mean.mean = Celsius(-8.0);
  farm.room.heat_capacity = HeatCapacity(60000.0);  // a time constant of about a week
  farm.room.heater_set = Celsius(15.0);
  farm.run.length = days(10);
  Opening opening;
  opening.usual_luck = true;
  opening.weather = {{0, -15.0, -25.0}};
  farm.room.heater = Watts(4000.0);
  CHECK(first_day(farm, opening).room_min > 13.0F);
  farm.room.heater = Watts(0.0);
  const DailyRow cold = first_day(farm, opening);
  CHECK(cold.room_max < 0.0F);
  CHECK(cold.room_min > -25.0F);
}
