// Luck as it is on the whole, for worklists: what is to be expected instead of what is drawn.
#include <vector>

#include "sim/replication/fortune.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

TEST_CASE("births to be expected are those that are drawn, on the whole, spread over their season") {
  Scenario farm = test::quiet_farm();
  farm.groups[0].breeding.first_birth_day = 40.0;
  farm.groups[0].count = 40;  // the more, the fewer draws will do
  Opening opening;
  opening.usual_luck = true;
  const Plan drawn_plan = make_plan(farm), usual_plan = make_plan(farm, opening);
  Fortune usual;
  usual.draw(usual_plan, 1, 0);
  const double grown = usual.wanted(0, 0);
  const auto weaned = static_cast<int>(in_days(farm.groups[0].breeding.weaning));
  for (int day = 0; day < 40 + weaned; ++day) CHECK(usual.wanted(0, day) == Approx(grown));
  CHECK(usual.wanted(0, 40 + weaned + 12) > grown);

  constexpr int runs = 200;
  double expected = 0.0, drawn = 0.0;
  for (int day = 0; day <= drawn_plan.horizon_days; ++day) expected += usual.wanted(0, day) - grown;
  Fortune fortune;
  for (std::uint32_t run = 0; run < runs; ++run) {
    fortune.draw(drawn_plan, 7, run);
    for (int day = 0; day <= drawn_plan.horizon_days; ++day) drawn += (fortune.wanted(0, day) - grown) / runs;
  }
  // A litter's want has a spread of about a half, so 8000 of them tell the mean to 0.6 %: five times that is not passed in 10^6 seeds.
  CHECK(drawn == Approx(expected).epsilon(0.03));
}

TEST_CASE("young of births before the run stand there where there were any, and a later start sees the same") {
  Scenario farm = test::quiet_farm();
  herd::Breeding& breeding = farm.groups[0].breeding;
  breeding.first_birth_day = 200.0;
  breeding.sale = days(190);
  breeding.weaning = days(60);
  Opening opening;
  opening.usual_luck = true;
  const auto wanted = [&](int days_gone, int day) {
    opening.days_gone = days_gone;
    const Plan plan = make_plan(farm, opening);
    Fortune usual;
    usual.draw(plan, 1, 0);
    return usual.wanted(0, day);
  };
  const double grown = farm.groups[0].count * make_plan(farm).groups[0].ration;
  // Without earlier births nobody but the grown want anything until day 260, from whatever day it is looked at.
  for (const int gone : {0, 1, 13, 150}) CHECK(wanted(gone, 5) == Approx(grown));
  CHECK(wanted(0, 330) > 1.1 * grown);
  CHECK(wanted(300, 30) == Approx(wanted(0, 330)));
  // Born on day -165 to -155, they are sold on day 25 to 35.
  breeding.before = true;
  CHECK(wanted(0, 5) > 1.1 * grown);
  CHECK(wanted(0, 5) == Approx(wanted(365, 5)));
  CHECK(wanted(1, 4) == Approx(wanted(0, 5)));
  CHECK(wanted(0, 40) == Approx(grown));
  // The rack is filled for them, too, before the first day.
  CHECK(wanted(0, -1) == Approx(wanted(1, -2)));
  CHECK(wanted(0, -1) > 1.1 * grown);
  CHECK(wanted(0, -60) < wanted(0, -1));  // younger then
  const Plan plan = make_plan(farm);
  Fortune drawn;
  double mean = 0.0;
  for (std::uint32_t run = 0; run < 400; ++run) {
    drawn.draw(plan, 3, run);
    mean += drawn.wanted(0, -1) / 400;
  }
  // The young's want of a run has a spread of about a tenth of the whole: 400 of them tell the mean to 0.5 %.
  CHECK(mean == Approx(wanted(0, -1)).epsilon(0.025));
}

TEST_CASE("a herd that grows bears more, one that shrinks less") {
  Scenario farm = test::quiet_farm();
  herd::Breeding& breeding = farm.groups[0].breeding;
  breeding.first_birth_day = 10.0;
  breeding.conception = 1.0;
  breeding.every = days(365);
  farm.groups[0].count = 40;
  farm.run.length = days(365 * 3);
  const auto born = [&](double growth, int year) {
    farm.groups[0].growth = growth;
    const Plan plan = make_plan(farm);
    Fortune fortune;
    fortune.follow_herd(true);
    int sum = 0;
    for (std::uint32_t run = 0; run < 60; ++run) {
      fortune.draw(plan, 11, run);
      for (const HerdEvent& event : fortune.herd_events())
        if (event.kind == HerdEvent::Kind::born && event.day / 365 == year) sum += event.number;
    }
    return static_cast<double>(sum);
  };
  const double first = born(0.0, 0);
  CHECK(born(0.0, 2) == Approx(first).epsilon(0.05));
  // Season and growth: 40 (1 + g)^(740 / 365) dams in the third year.
  CHECK(born(0.5, 2) == Approx(first * 91.0 / 40.0).epsilon(0.05));
  CHECK(born(-0.5, 2) == Approx(first * 10.0 / 40.0).epsilon(0.1));
  CHECK(born(0.5, 0) == Approx(first).epsilon(0.06));
}
