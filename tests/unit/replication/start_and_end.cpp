// What happens at the edges: before the run-in, across the first day, and in the very minute the run ends.

#include <algorithm>
#include <cstdio>
#include <string>

#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

Scenario with(Scenario farm, HardTimeKind kind, double first_day, double length_days) {
  farm.hard_times.push_back(test::hard_time(kind, first_day, length_days));
  return farm;
}

Outcome played(const Scenario& farm) { return Replicator(make_plan(farm)).run(3, 1); }

/// Batches put to soak, by the hour told.
struct Soaks : Journal {
  int soaked = 0, empty_barn = 0;
  void tell(std::int64_t, const std::string& sentence) override { empty_barn += sentence.starts_with("nobody was there"); }
  void note(std::int64_t minute, const Happening& happening) override { soaked += minute >= 0 && happening.kind == Happening::Kind::soaked; }
};

}  // namespace

TEST_CASE("a pump that stopped before the line was filled is as dead as one that stopped after") {
  const Scenario farm = test::quiet_farm(60);
  const Outcome before = played(with(farm, HardTimeKind::pump_stop, -40, 60)), after = played(with(farm, HardTimeKind::pump_stop, -5, 25));
  CHECK(after.dry_hours > 1000.0);
  CHECK(before.dry_hours == Approx(after.dry_hours).epsilon(0.1));
  CHECK(before.fill_rate <= after.fill_rate);
  CHECK(before.fill_rate < 0.9);
  CHECK(played(with(farm, HardTimeKind::pump_stop, -40, 20)).dry_hours == 0.0);  // mended long before
}

TEST_CASE("a pump dead since before the first day uses neither power nor water") {
  const Scenario farm = test::quiet_farm(20);
  const Outcome across = played(with(farm, HardTimeKind::pump_stop, -0.5, 21)), within = played(with(farm, HardTimeKind::pump_stop, 0, 21));
  CHECK(within.energy_pump == near(0.0, 1e-9));
  CHECK(across.energy_pump == near(0.0, 1e-9));
  CHECK(across.water_used == Approx(within.water_used).epsilon(0.03));
}

TEST_CASE("what a battery bridges is pumped and paid for, what it does not is not") {
  Scenario farm = test::quiet_farm(20);
  const Outcome calm = played(farm);
  const Scenario cut = with(farm, HardTimeKind::power_cut, 5, 10);
  CHECK(played(cut).energy_pump == Approx(0.5 * calm.energy_pump).epsilon(1e-6));
  Scenario bridged = cut;
  bridged.water.battery = Hours(2000.0);
  CHECK(played(bridged).energy_pump == Approx(calm.energy_pump));
  CHECK(played(bridged).water_used == Approx(calm.water_used).epsilon(1e-6));
  bridged.water.battery = Hours(120.0);  // half of it
  CHECK(played(bridged).energy_pump == Approx(0.75 * calm.energy_pump).epsilon(1e-6));
}

TEST_CASE("nobody puts grain to soak in an empty barn, and whoever is there does, whatever the round it is for") {
  Scenario farm = test::quiet_farm(20);
  farm.line.batches_per_day = 1;
  farm.line.grains = {"barley"};
  farm.line.soak = Hours(10.0);
  farm.keeper.morning = Hours(7.0);
  const Plan calm = make_plan(farm);
  const auto soaks = [](const Plan& plan) {
    Soaks journal;
    Replicator(plan).run(3, 1, &journal);
    return journal;
  };
  const int usual = soaks(calm).soaked;
  // Soaked at 21:00 for 07:00. Away from day 5 08:00 to day 7 06:00: two evenings, of the 5th and the 6th.
  const auto absent = [&](double day, double at, double hours) {
    Scenario gone = with(farm, HardTimeKind::keeper_away, day, hours / 24.0);
    gone.hard_times.back().at = Hours(at);
    return soaks(make_plan(gone));
  };
  CHECK(absent(5, 8, 46).soaked == usual - 2);
  CHECK(absent(5, 8, 46).empty_barn == 2);
  CHECK(absent(5, 6, 2).soaked == usual);   // the morning round alone
  CHECK(absent(5, 20, 3).soaked == usual - 1);
}

TEST_CASE("what would begin in the minute the run ends belongs to the next day") {
  for (const double run_in : {0.0, 12.0}) {
    CAPTURE(run_in);
    Scenario farm = test::quiet_farm(10);
    farm.line.batches_per_day = 1;
    farm.line.grains = {"barley"};
    farm.run.warm_up_length = days(run_in);
    farm.keeper.morning = Hours(7.0);
    farm.line.soak = Hours(6.5);
    const double half_past = played(farm).grain_used;
    farm.line.soak = Hours(7.0);  // at midnight
    CHECK(played(farm).grain_used == Approx(half_past));
    farm.keeper.morning = Hours(1.0);
    const double one = played(farm).wanted;
    farm.keeper.morning = Hours(0.0);
    CHECK(played(farm).wanted == Approx(one));
    const Plan plan = make_plan(farm);
    Replicator replicator(plan);
    replicator.run(3, 1);
    REQUIRE(replicator.daily().size() == 10);
    for (const DailyRow& row : replicator.daily()) CHECK(static_cast<double>(row.wanted) == Approx(one / 10.0).epsilon(1e-5));
  }
}

TEST_CASE("sound mats that nobody needs cost no disposal") {
  Scenario farm = test::quiet_farm(60);
  for (Group& animals : farm.groups) animals.count = std::max(1, animals.count / 3);
  farm.prices.disposal_per_kg = 1.0;
  const Outcome o = played(farm);
  CHECK(o.spoiled_mould + o.spoiled_sour == 0);
  CHECK(o.composted_surplus + o.composted_overdue > 50);
  CHECK(o.cost.disposal == 0.0);
}
