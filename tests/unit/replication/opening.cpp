// A run that opens with what stands in the barn: its tank, its store, and the calendar of any run.

#include <chrono>

#include "models/grain/viability.hpp"
#include "sim/replication/grain_store.hpp"
#include "sim/replication/rack_state.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

Opening full_rack(const Scenario& farm) {
  Opening opening;
  opening.now = 9 * 60;
  for (int day = -farm.line.days_on_rack; day < 0; ++day) {
    for (int session = 0; session < farm.line.batches_per_day; ++session)
      opening.sown.push_back({.day = day, .session = session, .trays = farm.line.trays_per_batch, .grain = session});
  }
  return opening;
}

/// Germinable share of the only lot of the first grain, `days_old` at the opening; `after` a week more.
struct Stored { double now = 0.0, after = 0.0; };
Stored stored(const Scenario& farm, std::int64_t days_old, std::optional<double> stated) {
  Opening opening;
  opening.now = 9 * 60;
  opening.kept.resize(farm.grains.size());
  opening.kept[0] = {{0, 50.0, stated, -days_old * minutes_per_day}};
  const Plan plan = make_plan(farm, opening);
  Fortune fortune;
  fortune.draw(plan, 1, 0);
  GrainStore store(plan), later(plan);
  store.start(fortune);
  later.start(fortune);
  later.age(1.0, Celsius(19.0), opening.now + 7 * minutes_per_day);
  later.reckon();
  return {store.withdraw(0, 1.0).lot.germinable, later.withdraw(0, 1.0).lot.germinable};
}

}  // namespace

TEST_CASE("mats that stand on a rack whose tank is filled by hand open as wet as with a float valve") {
  Scenario farm = test::quiet_farm(20);
  farm.water.tank_litres = 2000.0;
  const auto played = [&](TopUp top_up) {
    farm.water.top_up = top_up;
    const Plan plan = make_plan(farm, full_rack(farm));
    Replicator replicator(plan);
    return replicator.run(1, 0);
  };
  const Outcome valve = played(TopUp::float_valve), hand = played(TopUp::by_hand);
  CHECK(valve.fill_rate > 0.99);
  CHECK(hand.tank_empties == 0);
  CHECK(hand.dry_hours == 0.0);
  CHECK(hand.served == valve.served);
  CHECK(hand.mat_growth_days == valve.mat_growth_days);
  // One too small for a day between fillings still runs dry on the days that are played.
  farm.water.tank_litres = 60.0;
  CHECK(played(TopUp::by_hand).tank_empties > 0);
}

TEST_CASE("a lot that came long ago has aged since, one whose germination is stated as of today has not") {
  Scenario farm = test::quiet_farm();
  const GrainSupply& supply = farm.grains[0];
  const double sigma = grain::sigma_days(*grain::viability_constants("barley"), 100.0 * supply.moisture, Celsius(19.0));
  const auto aged = [&](double from, double days_long) { return grain::viability_after(from, days_long / sigma); };
  const double fresh = stored(farm, 0, {}).now;
  const Stored old = stored(farm, 200, {});
  CHECK(old.now == Approx(aged(fresh, 200.0)).epsilon(1e-9));
  CHECK(old.now < fresh - 0.03);
  CHECK(old.after == Approx(aged(fresh, 207.0)).epsilon(1e-9));
  const Stored stated = stored(farm, 200, 0.9);
  CHECK(stated.now == 0.9);
  CHECK(stated.after == Approx(aged(0.9, 7.0)).epsilon(1e-9));
}

TEST_CASE("a mat that has passed both thresholds is called by the one it passed by the larger ratio") {
  Tray tray;
  tray.exact = true;
  tray.mould_luck = 0.9;  // threshold 2.303
  tray.sour_luck = 0.1;   // threshold 0.105
  tray.mould_rate = 2.0;
  tray.mould_at = tray.mould_threshold() / tray.mould_rate;
  tray.sour_at = tray.sour_threshold();
  CHECK(tray.mould_hazard(tray.mould_at) == Approx(2.302585));
  CHECK(tray.sour_hazard(tray.sour_at) == Approx(0.1053605));
  CHECK_FALSE(tray.mouldy_first(1.25, 0.2));   // 2.5 of 2.303, 0.2 of 0.105
  CHECK(tray.mouldy_first(2.5, 0.2));          // 5.0 of 2.303
  // Taken over sound: what it had met before counts for neither.
  tray.mould_at += 3.0;
  tray.sour_at += 1.0;
  CHECK_FALSE(tray.mouldy_first(4.25, 1.2));
  CHECK(tray.mouldy_first(5.5, 1.2));
}

TEST_CASE("the days of a run are those of the calendar, in a leap year too") {
  using std::chrono::year;
  Scenario farm = test::small_farm();
  const auto plan_from = [&](std::chrono::year_month_day start) {
    farm.run.start = start;
    return make_plan(farm);
  };
  for (const int y : {2027, 2028}) {
    CHECK(plan_from(year(y) / 3 / 1).day_of_year(0) == 60);
    CHECK(plan_from(year(y) / 7 / 1).day_of_year(0) == 182);
    const Plan last = plan_from(year(y) / 12 / 31);
    CHECK(last.day_of_year(0) == 365);
    CHECK(last.day_of_year(1) == 1);
    CHECK(last.day_of_year(-365) == 365);
    CHECK(last.day_of_year(-4000) == 15);
  }
  CHECK(plan_from(year(2028) / 2 / 29).day_of_year(0) == 60);
}
