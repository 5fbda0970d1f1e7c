// Grain in the keeper's worklist: what is there, what is ordered, until when it lasts and when to order at the latest.
#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/replication/fortune.hpp"
#include "sim/study/line_today.hpp"
#include "sim/study/worklist.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::study;
using Kind = Task::Kind;

namespace {

constexpr std::chrono::sys_days july14{std::chrono::year(2026) / 7 / 14};

struct Fortnight {
  Plan plan;
  Worklist list;
  std::vector<GrainOutlook> grains;
};

Fortnight fortnight(Scenario farm, const Today& today) {
  const Scenario s = from_day(farm, today.at.day, 14);
  Opening opening = opening_of(s, today, {}, std::chrono::sys_days(s.run.start));
  opening.usual_luck = true;
  Fortnight f{make_plan(without_luck(s), opening), {}, {}};
  f.list = work(f.plan);
  f.grains = grain_outlook(f.plan, f.list, s.grains);
  return f;
}

/// Mornings barley, evenings wheat; nothing is reordered within the fortnight.
Scenario farm() {
  Scenario f = test::quiet_farm();
  for (GrainSupply& grain : f.grains) {
    grain.store.reorder_point = Kilograms(0.0);
    grain.on_hand = Kilograms(400.0);
    grain.store.delivery = days(3);
    grain.delivery_sd = days(1);
  }
  return f;
}

Today with_grain(double barley_kg) {
  Today today = empty_today(july14);
  today.store = {{"barley", Kilograms(barley_kg), {}, {july14, {}}}};
  return today;
}

}  // namespace

TEST_CASE("worklist: what the keeper has weighed counts, not what the scenario says, other grains are as it says") {
  const Fortnight f = fortnight(farm(), with_grain(200.0));
  CHECK(f.grains[0].at_hand == 200.0);
  CHECK(f.grains[1].at_hand == 400.0);
  CHECK(f.grains[0].on_the_way == 0.0);
  REQUIRE(f.grains[0].lasts_days.has_value());
  CHECK(*f.grains[0].lasts_days == Approx(200.0 / f.grains[0].per_day).epsilon(0.1));
  CHECK(*f.grains[0].order_within_days == Approx(*f.grains[0].lasts_days - 3.0 - 2.0));
}

TEST_CASE("worklist: an order on its way comes on its day, is counted, and makes the grain last") {
  Today today = with_grain(8.0);
  const Fortnight without = fortnight(farm(), today);
  today.orders = {{"barley", Kilograms(100.0), {july14 + std::chrono::days(2), 600}}};
  const Fortnight with = fortnight(farm(), today);
  CHECK(with.grains[0].on_the_way == 100.0);
  CHECK(with.grains[1].on_the_way == 0.0);
  REQUIRE(without.grains[0].lasts_days.has_value());
  REQUIRE(with.grains[0].lasts_days.has_value());
  CHECK(*without.grains[0].lasts_days < 14.0);
  CHECK(*with.grains[0].lasts_days > *without.grains[0].lasts_days);
  const auto comes = std::find_if(with.list.tasks.begin(), with.list.tasks.end(), [](const Task& t) { return t.kind == Kind::receive; });
  REQUIRE(comes != with.list.tasks.end());
  CHECK(comes->kilograms == 100.0);
  CHECK(comes->which == 0);
  CHECK(comes->minute / 1440 == 2);
  const auto soaked = [](const Fortnight& f) {
    double sum = 0.0;
    for (const Task& t : f.list.tasks) sum += t.kind == Kind::soak && t.which == 0 ? t.kilograms : 0.0;
    return sum;
  };
  CHECK(soaked(with) > soaked(without));
}

TEST_CASE("worklist: where grain runs out what is not soaked is told at its time and of its grain, and the order is overdue") {
  const Fortnight f = fortnight(farm(), with_grain(2.0));
  int barley = 0;
  for (const Task& t : f.list.tasks) {
    if (t.kind != Kind::soak) continue;
    CAPTURE(t.minute, t.which, t.trays, t.undone);
    CHECK(t.trays + t.undone == 3);
    if (t.which == 1) CHECK(t.undone == 0);
    barley += t.which == 0 ? 1 : 0;
  }
  CHECK(barley >= 13);  // every morning's batch, soaked or not
  REQUIRE(f.grains[0].lasts_days.has_value());
  CHECK(*f.grains[0].lasts_days < 3.0);
  CHECK(*f.grains[0].order_within_days < 0.0);
  const Fortnight full = fortnight(farm(), with_grain(200.0));
  CHECK(f.grains[0].per_day == Approx(full.grains[0].per_day));  // what is wanted, whether there is any or not
}

TEST_CASE("worklist: an empty store lasts until the next soaking, and is told") {
  const Fortnight f = fortnight(farm(), with_grain(0.0));
  REQUIRE(f.grains[0].lasts_days.has_value());
  CHECK(*f.grains[0].lasts_days < 1.5);
  CHECK(*f.grains[0].order_within_days < 0.0);
}

TEST_CASE("worklist: grain that lacks nothing but a bucket is not run out") {
  Scenario few = farm();
  few.keeper.soak_buckets = 1;
  few.keeper.trays_per_bucket = 2.0;
  const Fortnight f = fortnight(few, with_grain(200.0));
  int undone = 0;
  for (const Task& t : f.list.tasks) undone += t.kind == Kind::soak ? t.undone : 0;
  CHECK(undone > 0);
  CHECK(*f.grains[0].lasts_days > 14.0);
}

TEST_CASE("worklist: grain that is not sown lasts for ever and needs no order") {
  Scenario f = farm();
  f.line.grains = {"barley"};
  const Fortnight all = fortnight(f, with_grain(200.0));
  CHECK(all.grains[1].per_day == 0.0);
  CHECK_FALSE(all.grains[1].lasts_days.has_value());
  CHECK_FALSE(all.grains[1].order_within_days.has_value());
}

TEST_CASE("worklist: a trial of every lot asks for the order that much earlier") {
  const Fortnight usual = fortnight(farm(), with_grain(200.0));
  Scenario tried = farm();
  tried.grains[0].policy.trial = 200;
  tried.grains[0].policy.trial_time = days(2);
  const Fortnight with = fortnight(tried, with_grain(200.0));
  CHECK(*with.grains[0].order_within_days == near(*usual.grains[0].order_within_days - 2.0, 0.3));
}

TEST_CASE("worklist: what finds no place on the rack or no time is told as not sown, where it should have been") {
  Scenario cramped = farm();
  cramped.rack.trays_per_tier = 3;  // 12 places for 48 trays
  const Fortnight full = fortnight(cramped, with_grain(200.0));
  int undone = 0;
  for (const Task& t : full.list.tasks)
    if (t.kind == Kind::sow && t.undone > 0) {
      undone += t.undone;
      CHECK(t.trays == 0);
      CHECK(t.minute >= 0);
    }
  CHECK(undone > 0);
  Scenario hurried = farm();
  hurried.keeper.minutes_per_day = 12.0;
  const Fortnight short_of_time = fortnight(hurried, with_grain(200.0));
  CHECK(std::any_of(short_of_time.list.tasks.begin(), short_of_time.list.tasks.end(), [](const Task& t) { return t.kind == Kind::sow && t.undone > 0; }));
  const Fortnight usual = fortnight(farm(), with_grain(200.0));
  CHECK(std::none_of(usual.list.tasks.begin(), usual.list.tasks.end(), [](const Task& t) { return t.kind == Kind::sow && t.undone > 0; }));
}

TEST_CASE("worklist: what should be in soak by now and is not is put there at once while most of its soak is left, later not at all") {
  const auto first_evening = [](int minute) {
    Today today = with_grain(200.0);
    today.at.minute = minute;
    std::optional<Task> found;
    for (const Task& t : fortnight(farm(), today).list.tasks)
      if (!found && t.kind == Kind::soak && t.day == 0 && t.session == 1) found = t;
    return found;
  };
  const double evening = 60.0 * farm().keeper.evening.value(), soak = 60.0 * farm().line.soak.value();
  const int begins = static_cast<int>(evening - soak);
  REQUIRE(begins > 0);
  REQUIRE(first_evening(begins - 30).has_value());
  CHECK(first_evening(begins - 30)->minute == begins);
  REQUIRE(first_evening(begins + 30).has_value());
  CHECK(first_evening(begins + 30)->minute == begins + 30);
  CHECK(first_evening(begins + 30)->hours == Approx((soak - 30.0) / 60.0));
  CHECK_FALSE(first_evening(static_cast<int>(evening) - 30).has_value());
}

TEST_CASE("worklist: two tubs that soak become two batches, each at a round of its own") {
  Today today = with_grain(200.0);
  today.at.minute = 6 * 60;
  today.soaking = {{{july14 - std::chrono::days(1), 20 * 60}, 3, "barley"}, {{july14 - std::chrono::days(1), 20 * 60 + 30}, 2, "wheat"}};
  const Opening opening = opening_of(from_day(farm(), july14, 14), today, {}, july14);
  REQUIRE(opening.wet.size() == 2);
  CHECK((opening.wet[0].day != opening.wet[1].day || opening.wet[0].session != opening.wet[1].session));
  CHECK(opening.wet[0].grain == 0);
  CHECK(opening.wet[1].grain == 1);
  CHECK(opening.wet[0].trays == 3);
}

TEST_CASE("worklist: grain past its use-by is not counted on, and is the reason told where nothing is soaked for it") {
  Scenario f = farm();
  f.grains[0].store.use_by = days(30);
  Today today = with_grain(200.0);
  today.store[0].came = {july14 - std::chrono::days(26), {}};  // four more days
  const Fortnight late = fortnight(f, today);
  REQUIRE(late.grains[0].lasts_days.has_value());
  CHECK(*late.grains[0].lasts_days == near(4.0, 1.0));
  CHECK(late.grains[0].too_old_days == Approx(4.0));
  CHECK(late.grains[0].too_old == Approx(200.0 - late.grains[0].per_day * *late.grains[0].lasts_days).epsilon(0.05));
  CHECK(late.grains[1].too_old == 0.0);
  CHECK(*late.grains[0].order_within_days == Approx(*late.grains[0].lasts_days - 5.0));
  today.store[0].came = {july14 - std::chrono::days(60), {}};
  const Fortnight old = fortnight(f, today);
  CHECK(*old.grains[0].lasts_days < 1.5);
  CHECK(old.grains[0].too_old == 200.0);
  int told = 0;
  for (const Task& t : old.list.tasks) {
    if (t.kind != Kind::soak || t.which != 0 || t.undone == 0) continue;
    CHECK(has(t, Task::Why::too_old));
    CHECK_FALSE(has(t, Task::Why::grain));
    ++told;
  }
  CHECK(told >= 3);  // until the order comes, three days later
  const auto discarded = [](const Task& t) { return t.kind == Kind::discard && t.which == 0 && t.kilograms == 200.0; };
  CHECK(std::count_if(old.list.tasks.begin(), old.list.tasks.end(), discarded) == 1);
  // A lot that came yesterday lasts; one that runs out is told as too little.
  today.store[0].came = {july14 - std::chrono::days(1), {}};
  CHECK(fortnight(f, today).grains[0].too_old == Approx(std::max(0.0, 200.0 - 29.0 * fortnight(f, today).grains[0].per_day)).epsilon(0.05).margin(1.0));
  const Fortnight empty = fortnight(f, with_grain(2.0));
  CHECK(std::any_of(empty.list.tasks.begin(), empty.list.tasks.end(), [](const Task& t) { return t.kind == Kind::soak && has(t, Task::Why::grain); }));
  CHECK(std::none_of(empty.list.tasks.begin(), empty.list.tasks.end(), [](const Task& t) { return has(t, Task::Why::too_old); }));
}
