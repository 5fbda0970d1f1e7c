// What the keeper does and leaves undone: buckets, minutes, short days, missed rounds, and how each is counted.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

Outcome played(const Scenario& farm, std::uint32_t replication = 0) {
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  return replicator.run(5, replication);
}

double ceiling(const Scenario& farm) { return make_plan(farm).route.daily_ceiling; }

// Meals told as short: what was served [kg], mornings and evenings apart.
struct Meals : Journal {
  std::vector<double> morning, evening;
  void tell(std::int64_t minutes, const std::string& sentence) override {
    double served = 0.0, wanted = 0.0;
    if (std::sscanf(sentence.c_str(), "fed %lf kg of %lf kg wanted", &served, &wanted) != 2) return;
    (minutes % minutes_per_day < 720 ? morning : evening).push_back(served / wanted);
  }
};

}  // namespace

TEST_CASE("only what finds a free bucket is soaked, as the route's ceiling has it") {
  Scenario farm = test::quiet_farm();
  CHECK(played(farm).unsoaked_trays == 0);
  farm.keeper.soak_buckets = 1;
  farm.keeper.trays_per_bucket = 2.0;
  const Outcome o = played(farm);
  CHECK(o.unsoaked_trays == 2 * 365);  // one of three, twice a day
  CHECK(o.trays_sown == 4 * 365);
  CHECK(ceiling(farm) == Approx(4.0));
}

TEST_CASE("a batch waits for the round that empties a bucket, if that leaves it three quarters of its soak") {
  Scenario farm = test::quiet_farm();
  farm.keeper.soak_buckets = 1;
  farm.keeper.trays_per_bucket = 3.0;
  farm.line.soak = Hours(12.0);  // the evening's grain would go in at 06:00; the bucket is free at 07:00
  CHECK(played(farm).unsoaked_trays == 0);
  CHECK(ceiling(farm) == Approx(6.0));
  farm.line.soak = Hours(20.0);  // every other batch finds the bucket taken
  const Outcome o = played(farm);
  CHECK(o.trays_sown == near(3 * 365, 3));
  CHECK(ceiling(farm) == Approx(3.0));
}

TEST_CASE("short of time a keeper first leaves the washing, then the moving, the sowing and last the harvest") {
  Scenario farm = test::quiet_farm();
  // Most minutes a day at which each is still left undone.
  double wash = 0.0, move = 0.0, sow = 0.0, harvest = 0.0, least_fill = 0.0;
  for (double minutes = 20.0; minutes <= 110.0; minutes += 5.0) {
    farm.keeper.minutes_per_day = minutes;
    const Outcome o = played(farm);
    if (o.unwashed_trays > 0) wash = minutes;
    if (o.unmoved_days > 0) move = minutes;
    if (o.untimely_trays > 0) sow = minutes;
    if (o.hurried_harvests > 0) harvest = minutes;
    INFO(minutes << " minutes a day");
    CHECK(o.fill_rate >= least_fill - 0.02);  // whole trays: a minute more may move a cut from one meal to the next
    least_fill = std::max(least_fill, o.fill_rate);
    // Feeding and walking are done in any case, 4 meals of a group and 4 min of walking; what is above them stays within the day.
    CHECK(60.0 * o.labour / o.days <= std::max(minutes, 4 * 3.0 + 2 * 5.0 + 4.4));
    CHECK((o.overloaded_days > 0.0) == (o.unwashed_trays + o.unmoved_days + o.untimely_trays + o.hurried_harvests > 0));
  }
  INFO("wash " << wash << " move " << move << " sow " << sow << " harvest " << harvest);
  CHECK(wash >= move);
  CHECK(move >= sow);
  CHECK(sow >= harvest);
  CHECK(harvest > 0.0);
  CHECK(wash < 110.0);
  CHECK(least_fill > 0.9);
}

TEST_CASE("trays of mats thrown out are washed once, and their time is taken once") {
  Scenario farm = test::quiet_farm();
  farm.run.length = days(60);
  farm.spoilage.mould_rate = 0.05;
  farm.keeper.notice_spoiled = 1.0;
  farm.keeper.minutes_per_day = 600.0;
  const Outcome ample = played(farm);
  REQUIRE(ample.spoiled_mould > 50);
  CHECK(ample.unwashed_trays == 0);
  // A keeper who never has less time than the busiest day took leaves nothing.
  farm.keeper.evening_minutes.reset();
  farm.line.batches_per_day = 1;  // all in the morning round but feeding
  for (Group& animals : farm.groups) animals.feedings = 1;
  farm.keeper.minutes_per_day = 600.0;
  const Plan once = make_plan(farm);
  Replicator morning(once);
  const Outcome whole = morning.run(5, 0);
  double busiest = 0.0;
  for (const DailyRow& row : morning.daily()) busiest = std::max(busiest, static_cast<double>(row.labour));
  farm.keeper.minutes_per_day = busiest + 0.01;
  const Outcome tight = played(farm);
  CHECK(tight.unwashed_trays == 0);
  CHECK(tight.overloaded_days == 0.0);
  CHECK(tight.fingerprint == whole.fingerprint);
}

TEST_CASE("a washing place takes no more trays than it is said to") {
  Scenario farm = test::quiet_farm();
  farm.keeper.wash_trays_per_day = 4.0;
  const Outcome o = played(farm);
  CHECK(o.unwashed_trays > 300);
  CHECK(o.overloaded_days == 0.0);
  CHECK(ceiling(farm) == Approx(4.0));
}

TEST_CASE("a day that is short is shared between its two meals") {
  Scenario farm = test::quiet_farm();
  for (Group& group : farm.groups) group.feedings = 2;
  farm.groups[0].count = 18;
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  Meals meals;
  replicator.run(5, 0, &meals);
  REQUIRE(meals.morning.size() > 200);
  REQUIRE(meals.evening.size() > 200);
  const auto mean = [](const std::vector<double>& all) {
    double sum = 0.0;
    for (const double one : all) sum += one;
    return sum / static_cast<double>(all.size());
  };
  CHECK(mean(meals.morning) == Approx(mean(meals.evening)).epsilon(0.15));
}

TEST_CASE("reserve feed is bought for the rounds that are kept, and for no other") {
  Scenario farm = test::small_farm();
  farm.keeper.miss_chance = 0.2;
  farm.groups[0].count = 30;
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  const Outcome o = replicator.run(5, 0);
  Fortune fortune;
  fortune.draw(plan, 5, 0);
  double kept = 0.0, all = 0.0;
  for (int day = 0; day < plan.horizon_days; ++day) {
    for (int session = 0; session < 2; ++session) {
      for (std::size_t g = 0; g < farm.groups.size(); ++g) {
        const double share = farm.groups[g].feedings > 1 ? 0.5 : 1.0 - session;
        all += share * fortune.wanted(g, day);
        kept += fortune.missed(day, session) ? 0.0 : share * fortune.wanted(g, day);
      }
    }
  }
  REQUIRE(o.missed_rounds > 50);
  CHECK(o.wanted == Approx(all));
  CHECK(o.reserve_feed == Approx((kept - o.served) * plan.standard_dry_matter / farm.feed.hay.dry_matter));
}

TEST_CASE("protein and energy are those of what is eaten") {
  Scenario farm = test::quiet_farm();
  farm.groups = {test::group("hens", "laying-hen", 20, 0.03, 1)};  // a fifth of a mat a day
  const Outcome o = played(farm);
  REQUIRE(o.leftover > 2.0 * o.served);
  // Grain protein of 11 to 13 % rises by what respiration takes, a quarter of the dry matter at most.
  CHECK(o.protein / o.fodder_dry_matter > 0.10);
  CHECK(o.protein / o.fodder_dry_matter < 0.18);
  CHECK(o.energy_feed / o.fodder_dry_matter < farm.feed.grain.energy_mj_per_kg_dm);
  CHECK(o.energy_feed / o.fodder_dry_matter > 0.7 * farm.feed.grain.energy_mj_per_kg_dm);
}

TEST_CASE("mats past their best are counted overdue, fed or composted") {
  Scenario farm = test::quiet_farm();
  farm.line.days_on_rack = 12;  // at 19 degC well past the growth at which a mat is overdue
  farm.rack.trays_per_tier = 20;
  const Outcome o = played(farm);
  REQUIRE(o.composted_overdue > 0);
  CHECK(o.overdue_trays == o.trays_fed + o.composted_overdue);
  CHECK(o.composted_surplus + o.composted_unripe + o.unripe_fed == 0);
}

TEST_CASE("a mat that has just ripened in the cold is not composted while there is room for it") {
  // How far mats had grown, in parts of ripe, that were thrown out ripe.
  struct Thrown : Journal {
    double least = 1000.0;
    int trays = 0;
    void tell(std::int64_t, const std::string&) override {}
    void note(std::int64_t minute, const Happening& h) override {
      if (h.kind != Happening::Kind::risk || h.other < 1.0 || minute < 0) return;
      ++trays;
      least = std::min(least, h.other);
    }
  };
  Scenario farm = test::quiet_farm();
  farm.climate.mean.mean = Celsius(15.0);
  farm.rack.trays_per_tier = 30;
  farm.run.length = days(120);
  for (Group& animals : farm.groups) animals.count = animals.count * 3 / 4;
  const auto thrown = [&](int grace) {
    farm.line.grace_days = grace;
    const Plan plan = make_plan(farm);
    Thrown journal;
    Replicator(plan).run(5, 0, &journal);
    CHECK(journal.trays > 20);
    return journal.least;
  };
  // Ripe late, when a grace counted from their eighth day is nearly over.
  const double one = thrown(1), two = thrown(2);
  CHECK(one > 1.1);
  CHECK(two > one + 0.1);
}

TEST_CASE("unripe mats stay while there is room, fed unripe is counted") {
  Scenario farm = test::quiet_farm();
  farm.climate.mean.mean = Celsius(7.0);
  farm.room.heater = Watts(0.0);
  farm.groups[0].count = 3;  // not hungry: nothing needs to be fed unripe
  farm.rack.trays_per_tier = 40;
  const Outcome roomy = played(farm);
  farm.rack.trays_per_tier = 13;
  const Outcome crowded = played(farm);
  CHECK(crowded.composted_unripe > roomy.composted_unripe + 300);
  CHECK(roomy.mat_growth_days > crowded.mat_growth_days);
  farm.groups[0].count = 20;
  CHECK(played(farm).unripe_fed > 1000);
}

TEST_CASE("minutes of morning and evening apart: enough in each is enough, and neither can lend the other any") {
  Scenario farm = test::quiet_farm();  // two batches a day, so each round sows
  farm.keeper.minutes_per_day = 400.0;
  const Outcome free = played(farm);
  REQUIRE(free.overloaded_days == 0.0);
  farm.keeper.evening_minutes = 200.0;
  const Outcome apart = played(farm);
  CHECK(apart.served == free.served);
  CHECK(apart.trays_sown == free.trays_sown);
  CHECK(apart.overloaded_days == 0.0);
  // No time in the evening: its animals are fed all the same, and nothing is cut or sown then; mornings do as before.
  farm.keeper.evening_minutes = 0.0;
  const Outcome no_evening = played(farm);
  CHECK(no_evening.overloaded_days == 365.0);
  CHECK(no_evening.trays_sown == Approx(0.5 * free.trays_sown).epsilon(0.01));
  CHECK(no_evening.served < 0.8 * free.served);
  // All of it in the evening: the mornings move nothing.
  farm.keeper.evening_minutes = 400.0;
  const Outcome no_morning = played(farm);
  CHECK(no_morning.unmoved_days == 365);
  CHECK(no_morning.untimely_trays > 300);
}
