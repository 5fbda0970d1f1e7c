// Frost in the room: water stands still, mats die and are not fed, books close (asserted in every run).

#include <algorithm>
#include <string>
#include <vector>

#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

constexpr int snap_day = 100, snap_days = 5;

// Mild all the year but for one snap that makes it so much colder.
Scenario snapped(Scenario farm, double colder) {
  farm.room.heat_capacity = HeatCapacity(4000.0);
  HardTime snap;
  snap.name = "snap";
  snap.kind = HardTimeKind::cold_snap;
  snap.first_day = snap_day;
  snap.length = days(snap_days);
  snap.change = Kelvins(colder);
  farm.hard_times = {snap};
  return farm;
}

struct Played { Outcome outcome; std::vector<DailyRow> rows; };

Played played(const Scenario& farm, std::uint32_t replication = 0) {
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  Played all{replicator.run(7, replication), {}};
  all.rows.assign(replicator.daily().begin(), replicator.daily().end());
  return all;
}

struct Told : Journal {
  std::vector<std::string> sentences;
  void tell(std::int64_t, const std::string& sentence) override { sentences.push_back(sentence); }
  [[nodiscard]] bool heard(const std::string& part) const {
    for (const std::string& sentence : sentences)
      if (sentence.find(part) != std::string::npos) return true;
    return false;
  }
};

}  // namespace

TEST_CASE("a hard frost kills the mats on the rack: they are thrown out, none is fed, until new ones have grown") {
  const Scenario farm = snapped(test::quiet_farm(), 40.0);
  const Played cold = played(farm), calm = played(snapped(test::quiet_farm(), 0.001));
  const int standing = static_cast<int>(calm.rows[snap_day].trays);
  CHECK(calm.outcome.frost_killed == 0);
  CHECK(calm.outcome.frozen_hours == 0.0);
  CHECK(cold.outcome.room_min < -10.0);
  CHECK(cold.outcome.frost_killed >= standing / 2);  // those sown last had not sprouted
  CHECK(cold.outcome.frost_killed < standing);
  CHECK(cold.outcome.frost_unsown > 0);
  CHECK(cold.outcome.spoiled_fed == 0);
  CHECK(cold.outcome.frozen_hours > 72.0);
  CHECK(cold.outcome.frozen_hours < 24.0 * (snap_days + 1));
  for (int day = snap_day + 2; day < snap_day + snap_days + 4; ++day) CHECK(cold.rows[static_cast<std::size_t>(day)].served == 0.0F);
  CHECK(cold.rows[snap_day + 40].served == Approx(calm.rows[snap_day + 40].served));
  // The pump stands for as long as the room is frozen, and no longer.
  CHECK(cold.outcome.energy_pump == Approx(calm.outcome.energy_pump * (1.0 - cold.outcome.frozen_hours / (24.0 * cold.outcome.days))).epsilon(1e-9));
  const Plan plan = make_plan(farm);
  Told told;
  Replicator(plan).run(7, 0, &told);
  for (const char* part : {"below freezing: no water runs", "killed by frost and thrown out", "fewer will be sown", "has thawed"}) CHECK(told.heard(part));
}

TEST_CASE("in a barn with nights of -20 degC and no heat nothing is sown, watered or fed") {
  Scenario barn = test::quiet_farm();
  barn.climate.mean.mean = Celsius(-12.0);
  barn.climate.range_mean = Kelvins(16.0);
  const Played winter = played(barn);
  CHECK(winter.outcome.trays_sown == 0);
  CHECK(winter.outcome.served == 0.0);
  CHECK(winter.outcome.frost_unsown == 6 * 365);
  CHECK(winter.outcome.energy_pump == 0.0);
  CHECK(winter.outcome.frozen_hours == Approx(24.0 * 365));
}

// Mats that died leave others to be cut in their place on later days, which weigh otherwise by a little: by less than one mat in all.
TEST_CASE("a frost that kills never adds fodder, whatever the luck") {
  constexpr double mat_kg = 5.0;
  int killed = 0;
  for (std::uint32_t replication = 0; replication < 8; ++replication) {
    double before = 1e9, never_killed = 1e9;
    for (const double kill : {-30.0, -6.0, -3.0, -1.0, 0.0}) {
      Scenario farm = snapped(test::small_farm(), 28.0);
      farm.frost.kill = Celsius(kill);
      const Outcome o = played(farm, replication).outcome;
      CHECK(o.served <= before + mat_kg);
      CHECK((kill > -30.0 || o.frost_killed == 0));
      before = std::min(before, o.served);
      if (kill == -30.0) never_killed = o.served;
      if (kill == 0.0 && o.frost_killed > 0) CHECK(o.served < never_killed);
      killed += o.frost_killed;
    }
  }
  CHECK(killed > 0);
}

TEST_CASE("in the same weather more heat never means more hours of frost, and enough of it none and no dead mats") {
  double before = 1e9;
  Outcome last;
  for (const double watts : {0.0, 300.0, 1000.0, 2500.0, 6000.0}) {
    Scenario farm = snapped(test::small_farm(), 35.0);
    farm.room.heater = Watts(watts);
    last = played(farm).outcome;
    CHECK(last.frozen_hours <= before);
    before = last.frozen_hours;
  }
  CHECK(last.frozen_hours == 0.0);
  CHECK(last.frost_killed == 0);
  CHECK(last.frost_unsown == 0);
}

TEST_CASE("the more of a tray must have sprouted for frost to kill it, the fewer die") {
  int before = 1000000;
  for (const double share : {0.0, 0.1, 0.5, 0.9}) {
    Scenario farm = snapped(test::quiet_farm(), 40.0);
    farm.frost.sprouted = share;
    const int killed = played(farm).outcome.frost_killed;
    CHECK(killed <= before);
    before = killed;
  }
}
