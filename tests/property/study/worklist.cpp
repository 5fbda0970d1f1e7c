// The worklist against books of its own, and against the line it was taken from.

#include "sim/study/worklist.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "sim/replication/fortune.hpp"
#include "sim/study/line_today.hpp"
#include "sim/study/weather_advice.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::study;
using Kind = Task::Kind;
using std::chrono::sys_days;

namespace {

constexpr sys_days start{std::chrono::year(2026) / 3 / 1};

/// Sizes with room to spare, so that a full line serves all that is wanted.
Scenario farm() {
  Scenario f = test::quiet_farm();
  f.line.trays_per_batch = 3;
  f.groups[0].count = 7;
  f.rack.trays_per_tier = 15;
  return f;
}

Plan plan_of(const Scenario& scenario, const Today& today, int days, const Forecast& forecast = {}) {
  const Scenario s = from_day(scenario, today.at.day, days);
  Opening opening = opening_of(s, today, forecast, sys_days(scenario.run.start));
  opening.usual_luck = true;
  return make_plan(without_luck(s), opening);
}

/// Follows the tasks one by one with nothing but what they say.
void keep_books(const Plan& plan, const Worklist& list) {
  const Opening& opening = *plan.opening;
  std::map<std::pair<int, int>, int> on_rack, in_soak;
  std::vector<double> store(plan.scenario.grains.size());
  for (const auto& sown : opening.sown) on_rack[{sown.day, sown.session}] += sown.trays;
  for (const auto& wet : opening.wet) in_soak[{wet.day, wet.session}] += wet.trays;
  for (std::size_t g = 0; g < store.size(); ++g) {
    store[g] = plan.scenario.grains[g].on_hand.value();
    if (g < opening.kept.size() && opening.kept[g]) {
      store[g] = 0.0;
      for (const auto& kept : *opening.kept[g]) store[g] += kept.kilograms;
    }
  }
  std::vector<double> ordered(store.size());
  for (const auto& order : opening.ordered) ordered[static_cast<std::size_t>(order.grain)] += order.kilograms;
  double cut = 0.0;
  std::int64_t before = opening.now;
  for (const Task& task : list.tasks) {
    INFO("minute " << task.minute << " kind " << static_cast<int>(task.kind));
    CHECK(task.minute >= before);
    before = task.minute;
    const std::pair key{task.day, task.session};
    const auto g = static_cast<std::size_t>(std::max(0, task.which));
    int standing = 0;
    for (const auto& [batch, trays] : on_rack) standing += trays;
    switch (task.kind) {
      case Kind::soak:
        CHECK(task.kilograms == Approx(task.trays * plan.grain_per_tray));
        store[g] -= task.kilograms;
        CHECK(store[g] > -1e-9);
        in_soak[key] += task.trays;
        break;
      case Kind::sow:
        CHECK(in_soak[key] >= task.trays);
        in_soak[key] -= task.trays;
        on_rack[key] += task.trays;
        CHECK(standing + task.trays <= plan.positions);
        break;
      case Kind::harvest:
        cut += task.kilograms;
        [[fallthrough]];
      case Kind::throw_out:
        on_rack[key] -= task.trays;
        CHECK(on_rack[key] >= 0);
        break;
      case Kind::feed:
        cut -= task.kilograms;
        CHECK(cut > -1e-6);
        CHECK(task.kilograms <= task.wanted + 1e-9);
        break;
      case Kind::move: CHECK(task.trays == standing); break;
      case Kind::order: ordered[g] += task.kilograms; break;
      case Kind::receive:
        ordered[g] -= task.kilograms;
        CHECK(ordered[g] > -1e-9);
        store[g] += task.kilograms;
        break;
      case Kind::lay_trial: case Kind::count_trial: case Kind::discard:
        store[g] -= task.kilograms;
        CHECK(store[g] > -1e-9);
        break;
      case Kind::pour_out: in_soak[key] -= task.trays; break;
      case Kind::wash: break;
    }
  }
  int standing = 0;
  for (const auto& [batch, trays] : on_rack) standing += trays;
  CHECK(standing == list.outcome.trays_on_rack);
  double left = 0.0;
  for (const double kilograms : store) left += kilograms;
  CHECK(left == Approx(list.outcome.grain_end));
}

/// What stands in the barn at the beginning of a day of a worklist, as a keeper would write it down.
Today written_down(const Plan& plan, const Worklist& list, int day) {
  const Scenario& s = plan.scenario;
  Today today = empty_today(sys_days(s.run.start) + std::chrono::days(day));
  const auto when = [&](std::int64_t minute) {
    const auto on = minute >= 0 ? minute / minutes_per_day : -((-minute + minutes_per_day - 1) / minutes_per_day);
    return When{sys_days(s.run.start) + std::chrono::days(on), static_cast<int>(minute - on * minutes_per_day)};
  };
  const std::int64_t now = minutes_per_day * day;
  std::map<std::pair<int, int>, Today::Batch> batches;
  std::vector<double> store;
  for (const GrainSupply& grain : s.grains) store.push_back(grain.on_hand.value());
  std::map<std::pair<int, int>, Today::Soaking> soaking;
  for (const auto& task : list.tasks) {
    if (task.minute >= now) {
      if (task.kind == Kind::receive) break;
      continue;
    }
    const std::pair key{task.day, task.session};
    const auto g = static_cast<std::size_t>(std::max(0, task.which));
    if (task.kind == Kind::soak) soaking[key] = {when(task.minute), task.trays, s.grains[g].name}, store[g] -= task.kilograms;
    if (task.kind == Kind::receive) store[g] += task.kilograms;
    if (task.kind == Kind::lay_trial || task.kind == Kind::count_trial) store[g] -= task.kilograms;
    if (task.kind == Kind::sow) batches[key] = {when(task.minute), task.session, task.trays, s.grains[g].name, {}, {}}, soaking.erase(key);
    if (task.kind == Kind::harvest || task.kind == Kind::throw_out) batches[key].trays -= task.trays;
  }
  for (const auto& [key, batch] : batches)
    if (batch.trays > 0) today.batches.push_back(batch);
  for (const auto& [key, tub] : soaking) today.soaking.push_back(tub);
  for (std::size_t g = 0; g < store.size(); ++g) today.store.push_back({s.grains[g].name, Kilograms(store[g]), {}, today.at});
  return today;
}

}  // namespace

TEST_CASE("worklist: its books close task by task, from an empty rack, a usual one, and ones behind or ahead") {
  const Scenario f = farm();
  for (const Today& today : {empty_today(start), usual_today(f, start, 0, 0), usual_today(f, start, 3, 0), usual_today(f, start, 0, 2)}) {
    const Plan plan = plan_of(f, today, 30);
    const Worklist list = work(plan);
    CHECK(list.tasks.size() > 100);
    keep_books(plan, list);
  }
}

TEST_CASE("worklist: a lot that is tried before it is sown is laid out when it comes and counted when its days are over") {
  Scenario f = farm();
  for (GrainSupply& grain : f.grains) {
    grain.on_hand = Kilograms(40.0);
    grain.policy.trial = 50;
    grain.policy.accept = 0.8;
  }
  const Plan plan = plan_of(f, usual_today(f, start, 0, 0), 60);
  const Worklist list = work(plan);
  keep_books(plan, list);
  std::map<int, std::vector<std::int64_t>> came, laid, counted;
  for (const Task& task : list.tasks) {
    if (task.kind == Kind::receive) came[task.which].push_back(task.minute);
    if (task.kind == Kind::lay_trial) {
      CHECK(task.kilograms > 0.0);
      CHECK(task.kilograms < 0.01);  // fifty kernels
      CHECK(task.hours == Approx(f.grains[static_cast<std::size_t>(task.which)].policy.trial_time.value()));
      laid[task.which].push_back(task.minute + std::llround(60.0 * task.hours));
    }
    if (task.kind == Kind::count_trial) counted[task.which].push_back(task.minute);
  }
  REQUIRE_FALSE(came.empty());
  for (const auto& [grain, minutes] : came) CHECK(laid[grain].size() == minutes.size());
  REQUIRE_FALSE(counted.empty());
  for (const auto& [grain, minutes] : counted)
    for (const std::int64_t minute : minutes) CHECK(std::count(laid[grain].begin(), laid[grain].end(), minute) == 1);
}

TEST_CASE("worklist: a usual rack misses no feeding, and every group is named in every feeding of its own") {
  const Scenario f = farm();
  const Plan plan = plan_of(f, usual_today(f, start, 0, 0), 30);
  const Worklist list = work(plan);
  CHECK(list.outcome.short_feedings == 0);
  std::map<std::pair<std::int64_t, int>, int> fed;
  for (const Task& task : list.tasks) {
    if (task.kind != Kind::feed) continue;
    CHECK(task.kilograms == Approx(task.wanted));
    ++fed[{task.minute, task.which}];
  }
  std::size_t expected = 0;
  for (const Group& group : f.groups) expected += 30 * static_cast<std::size_t>(group.feedings);
  CHECK(fed.size() == expected);
  for (const auto& [key, times] : fed) CHECK(times == 1);
}

TEST_CASE("worklist: a state written down in the middle goes on as the line itself would have") {
  const Scenario f = farm();
  const Plan whole = plan_of(f, usual_today(f, start, 0, 0), 40);
  const Worklist list = work(whole);
  constexpr int cut = 12;
  const Plan later = plan_of(f, written_down(whole, list, cut), 40 - cut);
  const Worklist rest = work(later);
  std::vector<Task> expected;
  for (Task task : list.tasks) {
    if (task.minute < minutes_per_day * cut) continue;
    task.minute -= minutes_per_day * cut;
    task.day -= cut;
    expected.push_back(task);
  }
  REQUIRE(rest.tasks.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    INFO("task " << i << " at " << expected[i].minute << " kind " << static_cast<int>(expected[i].kind));
    CHECK(rest.tasks[i].kind == expected[i].kind);
    CHECK(rest.tasks[i].minute == expected[i].minute);
    CHECK(rest.tasks[i].trays == expected[i].trays);
    // A state does not tell of mats that are eaten, which warmed the room meanwhile: the oldest differ by a little.
    CHECK(rest.tasks[i].kilograms == Approx(expected[i].kilograms).epsilon(0.02));
  }
}

TEST_CASE("worklist: a state's distance from schedule is counted in batches") {
  const Scenario f = farm();
  CHECK(batches_ahead(f, usual_today(f, start, 0, 0)) == near(0.0, 1e-9));
  CHECK(batches_ahead(f, usual_today(f, start, 0, 2)) == Approx(2.0));
  CHECK(batches_ahead(f, usual_today(f, start, 3, 0)) == Approx(-3.0));
  CHECK(batches_ahead(f, empty_today(start)) < -15.0);
}

TEST_CASE("worklist: advice comes with heat and with cold, and its figures are those of the runs it speaks of") {
  Scenario f = farm();
  f.spoilage = spoilage::Parameters{};
  const Today today = usual_today(f, start, 0, 0);
  const auto advice = [&](double maximum, double minimum, bool any = true) {
    Forecast forecast;
    for (int day = 0; day < 10 && any; ++day) forecast.push_back({start + std::chrono::days(day), maximum, minimum});
    const Plan plan = plan_of(f, today, 30, forecast);
    return std::pair(weather_advice(plan.scenario, *plan.opening, 7), plan);
  };
  CHECK_FALSE(advice(0.0, 0.0, false).first.heat);
  const auto usual = advice(21.0, 17.0).first;
  CHECK_FALSE(usual.heat);
  CHECK_FALSE(usual.cold);
  const auto [hot, plan] = advice(38.0, 24.0);
  REQUIRE(hot.heat);
  CHECK_FALSE(hot.cold);
  REQUIRE_FALSE(hot.heat->batches.empty());
  CHECK(hot.heat->risk > hot.heat->usual + worth_a_word);
  for (const auto& step : {hot.heat->soak, hot.heat->charge, hot.heat->both})
    if (step) CHECK(step->risk < hot.heat->risk);
  REQUIRE(hot.heat->charge);
  // Played as advised, the chance is what was said.
  Opening opening = *plan.opening;
  for (const auto& [day, session] : hot.heat->batches)
    opening.course.sowings.push_back({day, session, f.line.trays_per_batch, hot.heat->charge->value / f.line.sowing_density.value(), {}});
  const Worklist again = work(make_plan(plan.scenario, opening));
  double risk = 0.0;
  int trays = 0;
  for (const auto& key : hot.heat->batches) risk += again.batches.at(key).risk * again.batches.at(key).left, trays += again.batches.at(key).left;
  CHECK(risk / trays == Approx(hot.heat->charge->risk).epsilon(1e-9));
  const auto cold = advice(6.0, -4.0).first;
  REQUIRE(cold.cold);
  CHECK(cold.cold->late > cold.cold->usual_late + worth_a_wait_days);
  CHECK_FALSE(cold.heat);
}

TEST_CASE("worklist: a line sown as wanted is on schedule with fewer trays, and says where nothing is to be soaked") {
  Scenario f = farm();
  f.line.sow = SowRule::as_wanted;
  f.groups[0].count = 3;
  const Today usual = usual_today(f, start, 0, 0);
  REQUIRE_FALSE(usual.batches.empty());
  for (const Today::Batch& batch : usual.batches) CHECK(batch.trays < f.line.trays_per_batch);
  CHECK(batches_ahead(f, usual) == near(0.0, 1e-9));
  CHECK(batches_ahead(f, usual_today(f, start, 2, 0)) == near(-2.0, 0.35));  // whole trays, so batches are not all alike
  // All animals leave on the tenth day: what is ripe from then on is not sown.
  for (Group& group : f.groups) group.stay.leaves = 10.0 + static_cast<double>((start - sys_days(f.run.start)).count());
  const Plan plan = plan_of(f, usual_today(f, start, 0, 0), 20);
  const Worklist list = work(plan);
  keep_books(plan, list);
  for (const Task& task : list.tasks) {
    CAPTURE(task.minute, static_cast<int>(task.kind), task.day);
    if (task.kind == Kind::feed) CHECK(task.minute < 10 * minutes_per_day);
    if (task.kind != Kind::soak) continue;
    const bool wanted = task.day + f.line.days_on_rack < 10;
    CHECK((task.trays > 0) == wanted);
    CHECK(has(task, Task::Why::not_wanted) == !wanted);
  }
  CHECK(batches_ahead(f, usual_today(f, start, 0, 0)) == near(0.0, 1e-9));
}

TEST_CASE("worklist: mats cut unripe are those that the simulator counts so, and are fed as they are cut") {
  Scenario cold = farm();
  cold.climate.mean.mean = Celsius(0.0);
  const Today today = usual_today(cold, sys_days(std::chrono::year(2027) / 1 / 10), 0, 0);
  bool some = false, none = false;
  for (const double heater : {300.0, 900.0, 1000.0, 6000.0}) {
    cold.room.heater = Watts(heater);
    const Plan plan = plan_of(cold, today, 30);
    const Worklist list = work(plan);
    INFO("heater " << heater << " W: " << list.outcome.unripe_fed << " of " << list.outcome.trays_fed << " fed unripe");
    int trays = 0, of_batches = 0;
    double cut = 0.0, fed = 0.0;
    for (const Task& task : list.tasks) {
      CHECK(task.unripe >= 0.0);
      CHECK(task.unripe <= task.kilograms + 1e-9);
      if (task.kind == Kind::harvest && task.unripe > 0.0) trays += task.trays, cut += task.unripe;
      if (task.kind == Kind::feed) fed += task.unripe;
    }
    for (const auto& [key, fate] : list.batches) {
      of_batches += fate.cut_unripe;
      CHECK((fate.cut_unripe > 0) == fate.first_unripe.has_value());
    }
    CHECK(trays == list.outcome.unripe_fed);
    CHECK(of_batches == list.outcome.unripe_fed);
    CHECK(fed <= cut + 1e-6);  // what a day leaves is thrown out
    if (trays > 0) CHECK(fed > 0.5 * cut);
    some = some || trays > 0;
    none = none || trays == 0;
  }
  CHECK(some);
  CHECK(none);
}

TEST_CASE("worklist: what a line that keeps its days has in soak is what its usual rack has in the bucket") {
  const Scenario f = farm();
  for (const int minute : {0, 360, 600, 1200, 1430}) {
    Today today = usual_today(f, start, 0, 0);
    int soaking = 0;
    for (const auto& tub : today.soaking) soaking += tub.trays;
    if (minute == 0) CHECK(usual_in_soak(f, today) == soaking);
    today.at.minute = minute;
    const int wet = usual_in_soak(f, today);
    Today dry = today;
    dry.soaking.clear();
    CHECK(batches_ahead(f, dry) == Approx(batches_ahead(f, today) - soaking / 3.0));
    CHECK((wet % 3 == 0 && wet >= 0 && wet <= 6));
  }
}
