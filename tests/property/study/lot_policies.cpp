// A trial is chosen where lots differ much, and not where they are alike; what it is worth is a paired difference.

#include "sim/study/lot_policies.hpp"

#include "sim/scenario/read.hpp"
#include "sim/study/size.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using study::LotMeasure;

namespace {

Scenario one_grain() {
  Scenario farm = test::small_farm();
  farm.grains.resize(1);
  farm.line.grains = {"barley"};
  farm.grains[0].store.reorder_point = Kilograms(80.0);
  farm.grains[0].store.order_up_to = Kilograms(280.0);
  farm.grains[0].policy.accept = 0.8;
  farm.prices.reserve_per_kg = 0.6;
  farm.run.replications = 100;
  farm.target.unripe_fed = 1.0;  // the choice is one of money alone
  return farm;
}

/// Cheap grain of which a third of the lots is poor.
Scenario poor_and_mixed() {
  Scenario farm = one_grain();
  farm.grains[0].grade.germination_mean = 0.78;
  farm.grains[0].grade.germination_rho = 0.15;
  farm.grains[0].price_per_kg = 0.25;
  farm.grains[0].policy.refused_worth = 0.9;
  return farm;
}

/// Good grain, lot by lot, and a keeper whose hour has its price.
Scenario good_and_alike() {
  Scenario farm = one_grain();
  farm.grains[0].grade.germination_mean = 0.95;
  farm.grains[0].grade.germination_rho = 0.0001;
  farm.grains[0].policy.trial_minutes = 60.0;
  farm.prices.labour_per_hour = 12.0;
  return farm;
}

std::string chosen_trial(Scenario farm) {
  farm.target.fill_rate = 0.5;  // every design meets it: the choice is one of money
  farm.choose.choices = {{"grain.barley.trial", {"0", "100"}}};
  farm.choose.indifference = 0.005;
  study::SizeRequest request;
  request.advice = false;
  const study::SizeResult result = study::size(farm, request);
  REQUIRE(result.chosen >= 0);
  return result.candidates[static_cast<std::size_t>(result.chosen)].values[0];
}

const study::Estimate& of(const std::array<study::Estimate, study::lot_measures>& all, LotMeasure m) { return all[static_cast<std::size_t>(m)]; }

}  // namespace

TEST_CASE("sizing chooses a trial for poor and mixed lots, and none for good and like ones") {
  CHECK(chosen_trial(poor_and_mixed()) == "100");
  CHECK(chosen_trial(good_and_alike()) == "0");
}

TEST_CASE("a grade is chosen by what it is worth") {
  Scenario farm = one_grain();
  farm.target.fill_rate = 0.5;
  farm.choose.choices = {{"grain.barley.grade", {"feed", "bulk", "seed"}}};
  study::SizeRequest request;
  request.advice = false;
  // At four times the price seed is not the cheapest; where all grades cost alike, and what the rack lacks is bought dear, it is.
  study::SizeResult result = study::size(farm, request);
  REQUIRE(result.chosen >= 0);
  CHECK(result.candidates[static_cast<std::size_t>(result.chosen)].values[0] != "seed");
  CHECK_FALSE(set_key(farm, "grain.barley.price_multiple", "1").has_value());
  farm.prices.reserve_per_kg = 1.5;
  result = study::size(farm, request);
  REQUIRE(result.chosen >= 0);
  CHECK(result.candidates[static_cast<std::size_t>(result.chosen)].values[0] == "seed");
}

TEST_CASE("what a trial is worth: money and short days where lots are mixed, its own cost where they are alike") {
  study::PairRequest request;
  request.replications = 100;
  const study::LotPolicies mixed = study::lot_policies(poor_and_mixed(), 0, request);
  CHECK(mixed.replications == 100);
  CHECK(of(mixed.more[0], LotMeasure::money).high < 0.0);
  CHECK(of(mixed.more[0], LotMeasure::short_days).high < 0.0);
  CHECK(of(mixed.each[1], LotMeasure::refused).mean > 1.0);
  CHECK(of(mixed.each[0], LotMeasure::refused).mean == 0.0);
  // Differences are those of the means, and kept less none is the sum of the two others.
  for (std::size_t m = 0; m < study::lot_measures; ++m) {
    CHECK(mixed.more[0][m].mean == near(mixed.each[1][m].mean - mixed.each[0][m].mean, 1e-9));
    CHECK(mixed.more[1][m].mean == near(mixed.more[0][m].mean + mixed.more[2][m].mean, 1e-9));
  }
  const study::LotPolicies alike = study::lot_policies(good_and_alike(), 0, request);
  CHECK(of(alike.more[0], LotMeasure::money).low > 0.0);
  CHECK(of(alike.each[1], LotMeasure::refused).mean == 0.0);
}

TEST_CASE("the answer does not depend on threads, and standard figures are told from stated ones") {
  Scenario farm = poor_and_mixed();
  study::PairRequest request;
  request.replications = 20;
  request.threads = 1;
  const study::LotPolicies one = study::lot_policies(farm, 0, request);
  request.threads = 3;
  const study::LotPolicies three = study::lot_policies(farm, 0, request);
  for (std::size_t m = 0; m < study::lot_measures; ++m) CHECK(one.more[1][m].mean == three.more[1][m].mean);
  CHECK(one.ways.usual_trial);
  CHECK(one.ways.usual_kept);
  CHECK(one.ways.trial.trial == 100);
  CHECK(one.ways.trial.keep_back.value() == 0.0);
  CHECK(one.ways.kept.keep_back.value() > 0.0);
  farm.grains[0].policy.trial = 50;
  farm.grains[0].policy.keep_back = Kilograms(30.0);
  const study::LotWays ways = study::lot_ways_of(farm, 0);
  CHECK_FALSE(ways.usual_trial);
  CHECK_FALSE(ways.usual_kept);
  CHECK(ways.kept.trial == 50);
  CHECK(ways.kept.keep_back.value() == 30.0);
}
