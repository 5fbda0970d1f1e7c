// What luck makes of a worklist: the same as the outcomes of the same plays say.

#include "sim/study/worklist_luck.hpp"

#include <numeric>

#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/study/line_today.hpp"
#include "sim/study/worklist.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::study;
using std::chrono::sys_days;

namespace {

constexpr sys_days july14{std::chrono::year(2026) / 7 / 14};
constexpr std::uint32_t plays = 40;

/// A warm barn in which mats spoil, and a keeper who now and then does not come.
Scenario farm() {
  Scenario f = test::quiet_farm();
  f.climate.mean.mean = Celsius(30.0);
  f.spoilage = spoilage::Parameters{};
  f.keeper.miss_chance = 0.02;
  return from_day(f, july14, 24);
}

Opening opening(const Scenario& f) { return opening_of(f, usual_today(f, july14, 0, 0), {}, july14); }

}  // namespace

TEST_CASE("luck: means over the plays are those of their outcomes") {
  const Scenario f = farm();
  const Plan plan = make_plan(f, opening(f));
  const Luck luck = luck_of(plan, {.random_seed = 5, .replications = plays, .threads = 1});
  REQUIRE(luck.plays == plays);
  REQUIRE(luck.days.size() == 24);
  double wanted = 0.0, served = 0.0, spoiled = 0.0, cut = 0.0, shorts = 0.0;
  Replicator replicator(plan);
  for (std::uint32_t r = 0; r < plays; ++r) {
    const Outcome o = replicator.run(5, r);
    wanted += o.wanted / plays, served += o.served / plays, shorts += static_cast<double>(o.short_feedings) / plays;
    spoiled += static_cast<double>(o.spoiled_mould + o.spoiled_sour) / plays, cut += static_cast<double>(o.trays_fed) / plays;
  }
  const Luck::Day all = luck.sum(24);
  CHECK(all.wanted == Approx(wanted));
  CHECK(all.served == Approx(served));
  CHECK(all.shorts == Approx(shorts));
  CHECK(all.cut == Approx(cut));
  CHECK(spoiled > 5.0);
  CHECK(all.spoiled == Approx(spoiled).epsilon(0.05));  // some that are past their time are found spoiled only when thrown out
  CHECK(luck.sum(3).wanted == Approx(luck.days[0].wanted + luck.days[1].wanted + luck.days[2].wanted));
  CHECK(luck.sum(100).wanted == Approx(wanted));
  const Luck two = luck_of(plan, {.random_seed = 5, .replications = plays, .threads = 2});
  CHECK(two.sum(24).served == all.served);
}

TEST_CASE("luck: heat that spoils fewer than half the mats is no part of the list, and is told") {
  const Scenario f = farm();
  Opening even = opening(f);
  even.usual_luck = true;
  const Worklist list = work(make_plan(without_luck(f), even));
  const Luck luck = luck_of(make_plan(f, opening(f)), {.random_seed = 5, .replications = plays});
  double fed = 0.0;
  for (const DailyRow& row : list.days) fed += static_cast<double>(row.served);
  CHECK(luck.sum(24).served < fed - 5.0);
  // Each feeding of the list is known to the plays, and what it gets on the mean is no more than is wanted.
  for (const Task& task : list.tasks) {
    if (task.kind != Task::Kind::feed) continue;
    const auto meal = luck.meals.find({task.minute, task.which});
    REQUIRE(meal != luck.meals.end());
    CHECK(meal->second.given <= task.wanted * 1.0 + 1e-6);
    CHECK(meal->second.shorts <= plays);
  }
}

TEST_CASE("a line that keeps its days has in soak what a long soak asks for, and is neither ahead nor behind") {
  Scenario f = test::quiet_farm();
  f.keeper.morning = Hours(7.0);
  f.line.batches_per_day = 1;
  for (const auto& [soak, batches] : {std::pair{6.0, 0}, {12.0, 1}, {33.0, 2}, {60.0, 3}}) {
    INFO("soaked for " << soak << " h");
    f.line.soak = Hours(soak);
    const Today on_time = usual_today(f, july14, 0, 0);
    CHECK(on_time.soaking.size() == static_cast<std::size_t>(batches));
    CHECK(batches_ahead(f, on_time) == near(0.0, 1e-9));
    CHECK(batches_ahead(f, usual_today(f, july14, 2, 0)) == Approx(-2.0));
    const Opening due = opening_of(f, on_time, {}, july14);
    for (std::size_t i = 0; i < due.wet.size(); ++i) CHECK(due.wet[i].day == static_cast<int>(i));
  }
}

TEST_CASE("a list that sows as wanted reckons with the mats that the season spoils, as the plays with luck do") {
  Scenario f = farm();
  CHECK(usual_sound(f, opening(f)) == 1.0);  // every tray is sown, whatever is wanted
  f.line.sow = SowRule::as_wanted;
  f.line.trays_per_batch = 30;
  f.rack.trays_per_tier = 200;
  f.keeper.minutes_per_day = 1400.0;
  f.keeper.soak_buckets = 100;
  f.grains[0].store.bin = f.grains[0].on_hand = Kilograms(10000.0);
  Opening o = opening_of(f, empty_today(july14), {}, july14);
  o.sound = usual_sound(f, o);
  CHECK(o.sound > 0.25);
  CHECK(o.sound < 0.95);
  Opening naive = o;
  naive.sound = 1.0;
  const auto sum = [](const std::vector<int>& trays) { return std::accumulate(trays.begin(), trays.end(), 0); };
  const int usual = sum(usual_trays(f, o, 0, 9)), too_few = sum(usual_trays(f, naive, 0, 9));
  CHECK(usual > too_few);
  CHECK(usual == Approx(too_few / o.sound).epsilon(0.1));
  // The list itself sows them.
  o.usual_luck = true;
  const Worklist list = work(make_plan(without_luck(f), o));
  int sown = 0;
  for (const Task& task : list.tasks)
    if (task.kind == Task::Kind::sow && task.minute < 10 * minutes_per_day) sown += task.trays;
  CHECK(sown == Approx(usual).epsilon(0.1));
}
