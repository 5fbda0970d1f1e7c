// Animals that come and go, and sowing no more than they are to want.

#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

struct Played { Outcome outcome; std::vector<DailyRow> rows; };

Played play(const Scenario& farm) {
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  const Outcome outcome = replicator.run(7, 0);
  return {outcome, {replicator.daily().begin(), replicator.daily().end()}};
}

}  // namespace

TEST_CASE("a group wants fodder only while it is here, and is brought in anew when it comes") {
  Scenario farm = test::quiet_farm(180);
  farm.groups.resize(2);
  farm.groups[1] = test::group("lambs", "ewe", 10, 1.0, 1);
  farm.groups[1].demand_sd = farm.groups[1].yearly_death = 0.0;
  farm.groups[1].stay = {.arrives = 60.0, .leaves = 120.0};
  const Played plain = play(farm);
  const double goats = 9 * 1.5;
  CHECK(plain.rows[59].wanted == Approx(goats));
  CHECK(plain.rows[60].wanted == Approx(goats + 10.0));
  CHECK(plain.rows[119].wanted == Approx(goats + 10.0));
  CHECK(plain.rows[120].wanted == Approx(goats));
  CHECK(plain.outcome.wanted == Approx(180 * goats + 60 * 10.0));
  farm.groups[1].introduction = days(10);
  const Played slowly = play(farm);
  CHECK(slowly.rows[60].wanted < goats + 5.0);
  CHECK(slowly.rows[70].wanted == Approx(goats + 10.0));
  farm.groups[1].stay = {.arrives = 120.0, .leaves = 60.0};  // there, out at grass, back
  const Played grass = play(farm);
  CHECK(grass.rows[59].wanted == Approx(goats + 10.0));
  CHECK(grass.rows[60].wanted == Approx(goats));
  CHECK(grass.rows[130].wanted == Approx(goats + 10.0));
}

TEST_CASE("sown as wanted, a line feeds as well on less grain") {
  Scenario farm = test::quiet_farm(180);
  farm.groups[0].stay = {.arrives = 110.0, .leaves = 50.0};  // the goats are the most of it
  const Played all = play(farm);
  farm.line.sow = SowRule::as_wanted;
  farm.line.margin = 0.4;  // what rounding up every batch of three or fewer would add is not there
  const Played wanted = play(farm);
  CHECK(wanted.outcome.wanted == all.outcome.wanted);
  CHECK(wanted.outcome.fill_rate >= all.outcome.fill_rate - 0.005);
  CHECK(wanted.outcome.grain_used < 0.8 * all.outcome.grain_used);
  CHECK(wanted.outcome.unsown_trays == 0);
  const auto composted = [](const Outcome& o) { return o.composted_surplus + o.composted_overdue + o.composted_unripe; };
  CHECK(composted(all.outcome) > 100);
  CHECK(composted(wanted.outcome) < 0.6 * composted(all.outcome));
  // What is sown is what is to be wanted on the day it is ripe: mats stand there when the goats come back.
  CHECK(wanted.rows[109].ready_trays + wanted.rows[109].trays > wanted.rows[80].trays);
  CHECK(wanted.rows[110].served >= 0.95F * wanted.rows[110].wanted);
}

TEST_CASE("nothing is sown for animals that are all away") {
  Scenario farm = test::quiet_farm(180);
  for (Group& group : farm.groups) group.stay = {.leaves = 60.0};
  farm.line.sow = SowRule::as_wanted;
  const Played played = play(farm);
  CHECK(played.rows[100].trays == 0.0F);
  CHECK(played.rows[100].wanted == 0.0F);
  CHECK(played.outcome.fill_rate == near(1.0, 0.1));
}
