// What is booked of grain and trays, and what the keeper's day has room for.

#include <chrono>
#include <vector>

#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

Outcome played(const Scenario& farm, Journal* journal = nullptr) {
  const Plan plan = make_plan(farm);
  return Replicator(plan).run(3, 1, journal);
}

struct Notes : Journal {
  std::vector<Happening> all;
  void tell(std::int64_t, const std::string&) override {}
  void note(std::int64_t minute, const Happening& happening) override { if (minute >= 0) all.push_back(happening); }
  [[nodiscard]] int trays(Happening::Kind kind) const {
    int sum = 0;
    for (const Happening& h : all) sum += h.kind == kind ? h.trays : 0;
    return sum;
  }
};

/// One batch a day in places for just that, two meals a day.
Scenario tight() {
  Scenario farm = test::quiet_farm(120);
  farm.rack.tiers = 4;
  farm.rack.trays_per_tier = 8;
  farm.line.batches_per_day = 1;
  farm.line.trays_per_batch = 4;
  farm.line.grains = {"barley"};
  farm.groups.resize(1);
  return farm;
}

}  // namespace

TEST_CASE("a ripe mat whose place is wanted in the morning is cut for the evening, not composted") {
  Scenario farm = tight();
  Scenario roomy = farm;
  roomy.rack.trays_per_tier = 10;
  const Outcome open = played(roomy);
  farm.groups[0].ration = roomy.groups[0].ration = Kilograms(1.2);
  const Outcome just = played(farm), spare = played(roomy);
  CHECK(open.trays_fed > 0);
  CHECK(just.fill_rate == near(spare.fill_rate, 0.01));
  CHECK(just.fill_rate > 0.98);
  // Nothing is cut beyond what the evening wants: half a mat a day at most is left over.
  CHECK(just.leftover <= spare.leftover + 0.6 * just.days * just.fodder_fresh / just.trays_fed);
}

TEST_CASE("a litter of less than one is born to so many fewer females") {
  Scenario farm = test::quiet_farm(365);
  farm.groups.resize(1);
  farm.groups[0].count = 4000;  // many, so that chance does not matter
  farm.groups[0].breeding.first_birth_day = 20.0;
  farm.groups[0].breeding.conception = 1.0;
  farm.groups[0].breeding.litter_sd = 0.0;
  const auto young = [&](double litter) {
    farm.groups[0].litter = litter;
    return played(farm).wanted;
  };
  const double none = young(0.0), fifth = young(0.2) - none, one = young(1.0) - none;
  CHECK(one > 0.0);
  CHECK(fifth == Approx(0.2 * one).epsilon(0.1));
  farm.groups[0].breeding.conception = 0.0;
  CHECK(young(1.0) == none);
}

TEST_CASE("the store holds what it is said to hold when the run starts, whatever ran in before") {
  for (const double kilograms : {0.0, 40.0, 400.0}) {
    for (const int on_rack : {7, 9}) {
      Scenario farm = test::quiet_farm(60);
      farm.line.days_on_rack = on_rack;
      for (GrainSupply& grain : farm.grains) grain.on_hand = Kilograms(kilograms);
      CHECK(played(farm).grain_start == 2.0 * kilograms);
    }
  }
}

TEST_CASE("designs that stand for other days sow the same first lots") {
  const auto first_lot = [](int on_rack) {
    Scenario farm = test::quiet_farm(20);
    farm.line.days_on_rack = on_rack;
    farm.run.start = std::chrono::year_month_day{std::chrono::year(2026), std::chrono::month(7), std::chrono::day(14)};
    farm.grains[0].harvest_spread = 1.5;
    Notes notes;
    played(farm, &notes);
    for (const Happening& h : notes.all)
      if (h.kind == Happening::Kind::sown && h.which == 0) return h.amount;
    return -1.0;
  };
  CHECK(first_lot(8) > 0.0);
  CHECK(first_lot(8) == Approx(first_lot(9)).epsilon(1e-9));
}

TEST_CASE("protein by one's own analysis is the protein fed") {
  Scenario farm = test::quiet_farm(30);
  const double usual = played(farm).protein;
  farm.feed.grain_protein = 0.10;
  const double poor = played(farm).protein;
  farm.feed.grain_protein = 0.15;
  CHECK(usual > 0.0);
  CHECK(played(farm).protein == Approx(1.5 * poor));
}

TEST_CASE("grain keeps the price at which it was ordered") {
  Scenario farm = test::quiet_farm(60);
  for (GrainSupply& grain : farm.grains) grain.on_hand = Kilograms(400.0);
  const double calm = played(farm).cost.grain;
  farm.hard_times = {test::hard_time(HardTimeKind::price_jump, 0.0, 60.0)};
  farm.hard_times[0].share = 1.0;
  CHECK(played(farm).lots == 0);
  CHECK(played(farm).cost.grain == calm);  // bought before
  for (GrainSupply& grain : farm.grains) {
    grain.on_hand = Kilograms(0.0);
    grain.store.delivery = Hours(0.0);
  }
  const Outcome dear = played(farm);
  farm.hard_times.clear();
  const Outcome cheap = played(farm);
  CHECK(dear.grain_used == cheap.grain_used);
  CHECK(dear.cost.grain == Approx(2.0 * cheap.cost.grain));
}

TEST_CASE("grain past its use-by is not sown") {
  Scenario farm = test::quiet_farm(120);
  farm.grains.resize(1);
  farm.line.grains = {"barley", "barley"};
  farm.grains[0].store.delivery = Hours(1.0);
  farm.grains[0].delivery_sd = Hours(0.0);
  farm.grains[0].store.use_by = days(6);
  farm.grains[0].on_hand = Kilograms(400.0);
  const Outcome old = played(farm);
  CHECK(old.grain_aged_out > 200.0);
  CHECK(old.grain_bought > old.grain_used);
  farm.grains[0].store.use_by = days(300);
  CHECK(played(farm).grain_aged_out == 0.0);
}

TEST_CASE("a batch waits for a bucket however long its soak is") {
  Scenario farm = test::quiet_farm(60);
  farm.line.soak = Hours(66.0);
  farm.keeper.soak_buckets = 6;  // a batch in each: two a day for 66 h need six at most, for three quarters of it five
  farm.keeper.trays_per_bucket = farm.line.trays_per_batch;
  CHECK(played(farm).unsoaked_trays == 0);
  farm.keeper.soak_buckets = 5;
  CHECK(played(farm).unsoaked_trays == 0);
}

TEST_CASE("a stop no longer than the usual gap between waterings dries nothing") {
  Scenario farm = test::quiet_farm(40);
  farm.hard_times = {test::hard_time(HardTimeKind::pump_stop, 20.0, 30.0 / 24.0)};
  CHECK(played(farm).dry_hours > 0.0);
  farm.water.schedule.cycles_per_day = 0.5;
  CHECK(played(farm).dry_hours == 0.0);
}

TEST_CASE("a trial takes the keeper's time in the round after it") {
  Scenario farm = test::quiet_farm(60);
  farm.keeper.minutes_per_day = 200.0;
  for (GrainSupply& grain : farm.grains) {
    grain.on_hand = Kilograms(30.0);
    grain.policy.trial = 400;
    grain.policy.accept = 0.0;
    grain.policy.trial_minutes = 170.0;
  }
  const auto left = [](const Outcome& o) { return o.unwashed_trays + o.untimely_trays + o.hurried_harvests + o.unmoved_days; };
  const int whole = left(played(farm));
  farm.keeper.evening_minutes = 80.0;
  const Outcome tried = played(farm);
  for (GrainSupply& grain : farm.grains) grain.policy.trial_minutes = 0.0;
  const Outcome untroubled = played(farm);
  CHECK(tried.lots_tried > 0);
  CHECK(whole > 0);
  CHECK(left(tried) > left(untroubled));
}

TEST_CASE("no tray that was to be sown goes uncounted") {
  for (const HardTimeKind kind : {HardTimeKind::keeper_away, HardTimeKind::missed_rounds}) {
    Scenario farm = test::quiet_farm(100);
    const auto planned = [](const Outcome& o) {
      return o.trays_sown + o.blocked_sowings + o.unsown_trays + o.unsoaked_trays + o.frost_unsown + o.untimely_trays + o.unattended_trays;
    };
    const int calm = planned(played(farm));
    farm.hard_times = {test::hard_time(kind, 30.0, 9.0)};
    Notes notes;
    const Outcome gone = played(farm, &notes);
    CHECK(gone.unattended_trays > 0);
    CHECK(planned(gone) == calm);
    CHECK(notes.trays(Happening::Kind::nobody_soaked) + notes.trays(Happening::Kind::foul) == gone.unattended_trays);
  }
}

TEST_CASE("a herd asked for before the run starts is brought in from then") {
  Scenario farm = test::quiet_farm(60);
  farm.groups[0].introduction = days(10);
  Opening opening;
  opening.days_gone = -15;
  for (int day = -farm.line.days_on_rack; day < 0; ++day) opening.sown.push_back({.day = day, .trays = farm.line.trays_per_batch});
  const Plan plan = make_plan(farm, opening);
  Fortune fortune;
  fortune.draw(plan, 3, 1);
  CHECK(fortune.wanted(0, 0) > 0.0);
  CHECK(fortune.wanted(0, 0) < fortune.wanted(0, 9));
  CHECK(fortune.wanted(0, 10) == Approx(9 * 1.5));
}

TEST_CASE("a feed is brought in from the day on which there is some, not while the rack is still empty") {
  Scenario farm = test::quiet_farm(60);
  farm.groups[0].introduction = days(10);
  farm.run.rack_full_at_start = false;
  // Soaked from the first evening on for the next morning; two a day, from the first morning on for the evening.
  farm.line.batches_per_day = 2;
  CHECK(first_due(farm, 0) == farm.line.days_on_rack);
  farm.line.batches_per_day = 1;
  const int due = first_due(farm, 0);
  CHECK(due == farm.line.days_on_rack + 1);
  CHECK(first_due(farm, 23 * 60) == due + 1);
  const double whole = 9 * 1.5;
  const auto wanted = [&](const Plan& plan, int day) {
    Fortune fortune;
    fortune.draw(plan, 3, 1);
    return fortune.wanted(0, day);
  };
  const auto brought_in = [&](const Plan& plan, int from) {
    for (const int day : {0, from}) CHECK(wanted(plan, day) == Approx(whole / 11.0));
    CHECK(wanted(plan, from + 4) == Approx(whole * 5.0 / 11.0));
    CHECK(wanted(plan, from + 10) == Approx(whole));
  };
  brought_in(make_plan(farm), due);
  // A list for an empty rack likewise, however long ago the scenario began.
  Opening opening;
  opening.days_gone = 300;
  brought_in(make_plan(farm, opening), due);
  // A rack on which the first batch stands for four days.
  opening.days_gone = 5;
  opening.sown.push_back({.day = -4, .trays = 1});
  brought_in(make_plan(farm, opening), farm.line.days_on_rack - 4);
  // One that gives every day, begun long ago.
  opening.days_gone = 300;
  for (int day = -farm.line.days_on_rack; day < 0; ++day) opening.sown.push_back({.day = day, .trays = 1});
  CHECK(wanted(make_plan(farm, opening), 0) == Approx(whole));
  // A gap of some days makes no new feed of it, one of a week does.
  opening.sown = {{.day = -2, .trays = 1}};
  CHECK(wanted(make_plan(farm, opening), 0) == Approx(whole));
  opening.sown = {{.day = 0, .trays = 1}};
  brought_in(make_plan(farm, opening), farm.line.days_on_rack);
  // A run-in that ends before the first mats are due, and one that does not.
  farm.run.warm_up_length = days(2);
  brought_in(make_plan(farm), due - 2);
  farm.run.warm_up_length = days(30);
  CHECK(wanted(make_plan(farm), 4) == Approx(whole * 5.0 / 11.0));
  opening.days_gone = 2;
  opening.sown = {{.day = -8, .trays = 1}};
  CHECK(wanted(make_plan(farm, opening), 2) == Approx(whole * 5.0 / 11.0));
  farm.run.warm_up_length.reset();
  // Animals that came while it was empty, as a list of a later day has them.
  opening.days_gone = due + 4;
  for (int day = -farm.line.days_on_rack; day < 0; ++day) opening.sown.push_back({.day = day, .trays = 1});
  farm.groups[0].stay = herd::later_start({.arrives = 2.0}, due + 4.0);
  CHECK(wanted(make_plan(farm, opening), 0) == Approx(whole * 5.0 / 11.0));
  // Animals that come while it is empty.
  farm.groups[0].stay = {.arrives = 3.0};
  CHECK(wanted(make_plan(farm), 2) == 0.0);
  CHECK(wanted(make_plan(farm), due) == Approx(whole / 11.0));
  // And once it is not.
  farm.groups[0].stay = {.arrives = 20.0};
  CHECK(wanted(make_plan(farm), 20) == Approx(whole / 11.0));
}

TEST_CASE("a herd that came shortly before the first day is still being brought in") {
  Scenario farm = test::quiet_farm(60);
  farm.groups[0].introduction = days(14);
  farm.groups[0].stay = herd::later_start({.arrives = 150.0}, 152.0);
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 3, 1);
  CHECK(fortune.wanted(0, 0) == Approx(9 * 1.5 * 3.0 / 15.0));
  CHECK(fortune.wanted(0, 12) == Approx(9 * 1.5));
}

TEST_CASE("an evening without animals takes none of the morning's time, and the morning cuts for it in its minutes") {
  Scenario farm = tight();
  farm.groups[0].feedings = 1;
  farm.groups.push_back(test::group("guests", "goat-milking", 40, 1.5, 2));
  farm.groups[1].stay = {.arrives = 110.0};
  farm.keeper.times.feed_per_group = 40.0;
  farm.keeper.minutes_per_day = 110.0;
  farm.run.length = days(100);  // they never come
  CHECK(played(farm).untimely_trays == 0);
  CHECK(played(farm).trays_sown > 300);
}

TEST_CASE("a larger litter is told as it is fed") {
  Scenario farm = test::quiet_farm(120);
  farm.groups[0].breeding.first_birth_day = 40.0;
  const auto born = [](const Scenario& s) {
    const Plan plan = make_plan(s);
    Fortune fortune;
    fortune.follow_herd(true);
    fortune.draw(plan, 3, 1);
    int sum = 0;
    for (const HerdEvent& event : fortune.herd_events()) sum += event.kind == HerdEvent::Kind::born ? event.number : 0;
    return sum;
  };
  const int usual = born(farm);
  farm.hard_times = {test::hard_time(HardTimeKind::larger_litter, 30.0, 60.0)};
  farm.hard_times[0].share = 1.0;
  CHECK(usual > 0);
  CHECK(born(farm) == 2 * usual);
}
