// Seasons, harvests and trials of lots: their luck by their laws, shared by designs; grain and money come out even.

#include <cmath>

#include "models/grain/acceptance.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

constexpr double furthest = 3.89;  // sds: one false alarm in 10,000

/// One grain, sown morning and evening, all else quiet.
Scenario one_grain() {
  Scenario farm = test::quiet_farm();
  farm.grains.resize(1);
  farm.line.grains = {"barley"};
  farm.grains[0].store.reorder_point = Kilograms(40.0);
  farm.grains[0].store.order_up_to = Kilograms(240.0);
  farm.grains[0].on_hand = Kilograms(120.0);
  return farm;
}

double logit(double p) { return std::log(p / (1.0 - p)); }

}  // namespace

TEST_CASE("a grain is short as often as said, for the whole of its season, year by year") {
  Scenario farm = test::small_farm();
  farm.run.length = days(800);
  farm.grains[0].shortage = {.from = 335, .until = 59, .chance = 0.3, .delay = days(5)};  // over New Year
  const Plan plan = make_plan(farm);
  Fortune fortune;
  constexpr std::uint32_t runs = 3000;
  const int first = 335 - plan.first_day_of_year, last = 365 + 59 - plan.first_day_of_year;
  int one = 0, two = 0, both = 0;
  for (std::uint32_t r = 0; r < runs; ++r) {
    fortune.draw(plan, 3, r);
    const bool now = fortune.is_short(plan, 0, first), next = fortune.is_short(plan, 0, first + 365);
    one += now;
    two += next;
    both += now && next;
    if (r >= 50) continue;
    CHECK_FALSE(fortune.is_short(plan, 0, first - 1));
    CHECK_FALSE(fortune.is_short(plan, 0, last + 1));
    CHECK_FALSE(fortune.is_short(plan, 1, first));
    for (int day = first; day <= last; ++day) REQUIRE(fortune.is_short(plan, 0, day) == now);
    for (int day = first; day <= last; ++day) REQUIRE(fortune.is_short(plan, 0, day + 365) == next);
  }
  const auto near = [&](int count, double chance) { return std::abs(count - runs * chance) < furthest * std::sqrt(runs * chance * (1.0 - chance)); };
  CHECK(near(one, 0.3));
  CHECK(near(two, 0.3));
  CHECK(near(both, 0.09));
}

TEST_CASE("lots of one harvest share how it turned out, the next, from 1 July on, turns out by itself") {
  Scenario farm = test::small_farm();
  farm.grains[0].harvest_spread = 0.5;
  farm.grains[0].grade.germination_rho = 1e-4;
  const Plan plan = make_plan(farm);
  const int july = 182 - plan.first_day_of_year;
  Fortune fortune;
  constexpr std::uint32_t runs = 4000;
  double x = 0.0, xx = 0.0, xy = 0.0;
  for (std::uint32_t r = 0; r < runs; ++r) {
    fortune.draw(plan, 4, r);
    const double spring = logit(fortune.lot(plan, 0, 1, 1.0, {10, false}).germinable), eve = logit(fortune.lot(plan, 0, 2, 1.0, {july - 1, false}).germinable);
    const double summer = logit(fortune.lot(plan, 0, 3, 1.0, {july, false}).germinable);
    if (r < 50) CHECK(std::abs(spring - eve) < 0.3);  // lots themselves hardly differ
    const double from = logit(farm.grains[0].grade.germination_mean);
    x += (spring - from) / runs;
    xx += (spring - from) * (spring - from) / runs;
    xy += (spring - from) * (summer - from) / runs;
  }
  CHECK(std::abs(x) < furthest * 0.5 / std::sqrt(runs) + 0.005);
  CHECK(std::sqrt(xx) == Approx(0.5).epsilon(0.05));
  CHECK(std::abs(xy) < furthest * 0.25 / std::sqrt(runs));
}

TEST_CASE("a trial passes a lot as often as the beta-binomial has it") {
  const Scenario farm = test::small_farm();
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 5, 0);
  constexpr int lots = 20000;
  for (const int kernels : {50, 100, 400}) {
    const grain::TrialRule rule{kernels, 0.8};
    int passed = 0;
    for (std::uint32_t number = 0; number < lots; ++number)
      passed += fortune.sprouted(0, number, 0.82, kernels, grain::pooled_scatter(kernels, 0.02)) >= grain::least_sprouted(rule);
    const double chance = grain::chance_kept(0.82, rule, 0.02);
    INFO(kernels);
    CHECK(std::abs(passed - lots * chance) < furthest * std::sqrt(lots * chance * (1.0 - chance)));
  }
}

TEST_CASE("designs that buy and try otherwise share seasons, harvests and what a lot is") {
  Scenario first = one_grain();
  first.grains[0].harvest_spread = 0.4;
  first.grains[0].shortage = {.from = 100, .until = 200, .chance = 0.5, .delay = days(5)};
  Scenario second = first;
  second.grains[0].policy.trial = 200;
  second.grains[0].policy.keep_back = Kilograms(50.0);
  second.rack.tiers = 6;
  const Plan a = make_plan(first), b = make_plan(second);
  Fortune one, two;
  for (std::uint32_t r = 0; r < 40; ++r) {
    one.draw(a, 6, r);
    two.draw(b, 6, r);
    REQUIRE(one.is_short(a, 0, 60) == two.is_short(b, 0, 60));
    for (std::uint32_t n = 0; n < 5; ++n)
      REQUIRE(one.lot(a, 0, n, 1.0, {90, false}).germinable == two.lot(b, 0, n, 1.0, {90, false}).germinable);
  }
}

TEST_CASE("grain and money come out even when lots are tried, refused, short and dear") {
  Scenario farm = test::small_farm();
  for (GrainSupply& grain : farm.grains) {
    grain.grade = grain::terms_of(grain::GradeName::feed).law;
    grain.harvest_spread = 0.5;
    grain.shortage = {.from = 120, .until = 240, .chance = 0.7, .delay = days(9), .dearer = 0.5, .instead = grain::GradeName::seed};
    grain.policy.trial = 200;
    grain.policy.accept = 0.85;
    grain.store.use_by = days(60);
  }
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  double refused = 0.0;
  for (std::uint32_t r = 0; r < 40; ++r) {
    const Outcome o = replicator.run(7, r);
    CHECK(std::abs(o.residuals.grain) <= 1e-7);
    CHECK(std::abs(o.residuals.money) <= 1e-7);
    CHECK(o.lots_refused <= o.lots_tried);
    refused += o.grain_refused;
  }
  CHECK(refused > 0.0);
}

TEST_CASE("grain money is what was used, what was laid out, and what a refused lot lost") {
  Scenario farm = one_grain();
  farm.grains[0].grade = grain::terms_of(grain::GradeName::feed).law;
  farm.grains[0].policy.trial = 200;
  farm.grains[0].policy.accept = 0.85;
  farm.grains[0].policy.refused_worth = 0.6;
  farm.grains[0].price_multiple = 2.0;
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  const double price = farm.grains[0].price();
  CHECK(price == 2.0 * farm.grains[0].price_per_kg);
  int refused = 0;
  for (std::uint32_t r = 0; r < 10; ++r) {
    const Outcome o = replicator.run(8, r);
    CHECK(o.cost.grain == Approx(price * (o.grain_used + o.grain_aged_out + o.grain_tried + 0.4 * o.grain_refused)).epsilon(1e-9));
    // 200 kernels of barley weigh some 9 g.
    CHECK(o.grain_tried == Approx(o.lots_tried * plan.lots[0].trial).epsilon(1e-9));
    refused += o.lots_refused;
  }
  CHECK(refused > 0);
}

TEST_CASE("an order placed while the grain is short comes later, dearer, and of the other grade") {
  Scenario farm = one_grain();
  const Outcome usual = Replicator(make_plan(farm)).run(9, 0);
  farm.grains[0].shortage = {.from = 1, .until = 365, .chance = 1.0, .dearer = 0.5};
  const Outcome dear = Replicator(make_plan(farm)).run(9, 0);
  CHECK(dear.grain_used == usual.grain_used);
  const double price = farm.grains[0].price_per_kg, start = farm.grains[0].on_hand.value();
  // What is in store at the start of the run-in was bought before.
  CHECK(dear.cost.grain < price * 1.5 * dear.grain_used);
  CHECK(dear.cost.grain >= price * (1.5 * dear.grain_used - 0.5 * start) - 1e-6);
  farm.grains[0].shortage.delay = days(40);
  CHECK(Replicator(make_plan(farm)).run(9, 0).unsown_trays > usual.unsown_trays);
  farm.grains[0].shortage = {.from = 1, .until = 365, .chance = 1.0, .instead = grain::GradeName::seed};
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 9, 0);
  CHECK(plan.lots[0].dear == Approx(4.0));
  CHECK(fortune.lot(plan, 0, 1, 1.0, {50, true}).inoculum == grain::terms_of(grain::GradeName::seed).law.inoculum);
  CHECK(fortune.lot(plan, 0, 1, 1.0, {50, false}).inoculum == 1.0);
}

TEST_CASE("grain kept back is sown while a new lot is tried") {
  Scenario farm = one_grain();
  farm.grains[0].store.reorder_point = Kilograms(15.0);
  farm.grains[0].policy.trial = 100;
  farm.grains[0].policy.accept = 0.0;
  double without = 0.0, with = 0.0;
  for (const double kept : {0.0, 120.0}) {
    farm.grains[0].policy.keep_back = Kilograms(kept);
    const Plan plan = make_plan(farm);
    Replicator replicator(plan);
    for (std::uint32_t r = 0; r < 10; ++r) (kept > 0.0 ? with : without) += replicator.run(10, r).grain_untried;
  }
  CHECK(without > 0.0);
  CHECK(with == 0.0);
}

TEST_CASE("without a trial nothing of the policy counts") {
  Scenario farm = one_grain();
  const Outcome plain = Replicator(make_plan(farm)).run(11, 0);
  farm.grains[0].policy.accept = 0.99;
  farm.grains[0].policy.keep_back = Kilograms(80.0);
  const Outcome idle = Replicator(make_plan(farm)).run(11, 0);
  CHECK(plain.fingerprint == idle.fingerprint);
  CHECK(plain.cost_total == idle.cost_total);
  CHECK(idle.lots_tried == 0);
}
