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
