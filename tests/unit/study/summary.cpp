#include "sim/study/summary.hpp"
#include "sim/study/limits.hpp"

#include <array>
#include <cmath>
#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

Outcome year(double fill_rate, double cost = 1000.0, double days = 365.0) {
  Outcome outcome;
  outcome.days = days;
  outcome.fill_rate = fill_rate;
  outcome.cost_total = cost;
  return outcome;
}

}  // namespace

TEST_CASE("a year succeeds when every stated limit holds, at the limit too") {
  Target target;
  target.fill_rate = 0.97;
  CHECK(succeeds(year(0.97), target));
  CHECK_FALSE(succeeds(year(0.9699), target));

  Outcome outcome = year(0.99);
  outcome.short_days = 10;
  outcome.spoiled_fed = 2;
  CHECK(succeeds(outcome, target));  // limits not stated do not count
  target.short_days = 10.0;
  target.spoiled_fed = 2.0;
  target.yearly_cost = 1000.0;
  CHECK(succeeds(outcome, target));
  target.short_days = 9.0;
  target.spoiled_fed = 1.0;
  target.yearly_cost = 999.0;
  CHECK(broken_limits(outcome, target) == std::vector<std::string>{"short days", "spoiled mats fed", "yearly cost"});
}

TEST_CASE("limits a year are scaled to the length of the run") {
  Target target;
  target.short_days = 10.0;
  target.yearly_cost = 500.0;
  Outcome outcome = year(1.0, 1000.0, 730.0);
  outcome.short_days = 20;
  CHECK(succeeds(outcome, target));
  outcome.short_days = 21;
  CHECK(broken_limits(outcome, target) == std::vector<std::string>{"short days"});
}

TEST_CASE("estimate: mean, spread and t interval of 1, 2, 3, 4") {
  Summary summary{Target{}};
  for (const double cost : {1.0, 2.0, 3.0, 4.0}) summary.add(year(1.0, cost));
  const Estimate cost = summary.estimate("cost_total");
  CHECK(cost.mean == Approx(2.5));
  CHECK(cost.sd == Approx(std::sqrt(5.0 / 3.0)));
  // Student's t, 3 degrees of freedom, 0.975: 3.182446 (any table)
  CHECK(cost.high - cost.mean == Approx(3.182446 * std::sqrt(5.0 / 3.0) / 2.0).epsilon(1e-6));
  CHECK(cost.mean - cost.low == Approx(cost.high - cost.mean));
  CHECK(cost.least == 1.0);
  CHECK(cost.most == 4.0);
}

TEST_CASE("estimates keep their digits when the spread is tiny beside the mean") {
  Summary summary{Target{}};
  for (int i = 0; i < 1000; ++i) summary.add(year(1.0, 1e9 + (i % 2)));
  CHECK(summary.estimate("cost_total").sd == Approx(std::sqrt(0.25 * 1000.0 / 999.0)).epsilon(1e-9));
}

TEST_CASE("ratio is a ratio of sums, with the delta method's spread") {
  Summary summary{Target{}};
  const std::array<std::array<double, 2>, 3> pairs{{{2.0, 1.0}, {3.0, 2.0}, {7.0, 3.0}}};
  for (const auto& [money, kilograms] : pairs) {
    Outcome outcome = year(1.0, money);
    outcome.served = kilograms;
    summary.add(outcome);
  }
  const Estimate ratio = summary.ratio("cost_total", "served");
  CHECK(ratio.mean == Approx(2.0));  // 12 / 6, not the mean of 2, 1.5 and 2.333
  // money - 2 kilograms: 0, -1, 1; variance 1; over mean kilograms 2
  CHECK(ratio.sd == Approx(0.5));
  CHECK(ratio.high - ratio.mean == Approx(4.302653 * 0.5 / std::sqrt(3.0)).epsilon(1e-6));  // t, 2 degrees of freedom
}

TEST_CASE("the price of a kilogram is money over kilograms of all years, reserve feed left out") {
  Summary summary{Target{}};
  const std::array<std::array<double, 3>, 3> years{{{2.5, 0.5, 1.0}, {3.25, 0.25, 2.0}, {8.0, 1.0, 3.0}}};
  for (const auto& [money, reserve, kilograms] : years) {
    Outcome outcome = year(1.0, money);
    outcome.cost.reserve = reserve;
    outcome.served = kilograms;
    outcome.fodder_dry_matter = kilograms / 8.0;
    outcome.cost_per_kg_fresh = (money - reserve) / kilograms;
    summary.add(outcome);
  }
  // The same pairs as above: 12 / 6, not the mean of 2, 1.5 and 2.333; the spread is that of these three.
  const Estimate fresh = summary.estimate("cost_per_kg_fresh");
  CHECK(fresh.mean == Approx(2.0));
  CHECK(fresh.high - fresh.mean == Approx(4.302653 * 0.5 / std::sqrt(3.0)).epsilon(1e-6));
  CHECK(fresh.least == Approx(1.5));
  CHECK(fresh.most == Approx(7.0 / 3.0));
  CHECK(fresh.sd == Approx(std::sqrt(((2.0 - 35.0 / 18.0) * (2.0 - 35.0 / 18.0) + (1.5 - 35.0 / 18.0) * (1.5 - 35.0 / 18.0) + (42.0 / 18.0 - 35.0 / 18.0) * (42.0 / 18.0 - 35.0 / 18.0)) / 2.0)));
  CHECK(summary.estimate("cost_per_kg_dry_matter").mean == Approx(16.0));
}

TEST_CASE("the price of grain fed dry is money over kilograms of all years: a year without grain has no say in it") {
  Summary summary{Target{}};
  // 3 for 6 kg, nothing at all, 4 for 8 kg and 9 for 10 kg: 16 / 24, where the mean of the quotients is 0.475.
  for (const auto& [price, kilograms] : {std::array{0.5, 6.0}, std::array{0.0, 0.0}, std::array{0.5, 8.0}, std::array{0.9, 10.0}}) {
    Outcome outcome = year(1.0, 1.0);
    outcome.dry_grain_per_kg_dry_matter = price;
    outcome.grain_dry_matter = kilograms;
    summary.add(outcome);
  }
  const Estimate grain = summary.estimate("dry_grain_per_kg_dry_matter");
  CHECK(grain.mean == Approx(16.0 / 24.0));
  // Spread of money less price times kilograms, -1, 0, -4/3 and 7/3, over the mean of 6 kg.
  CHECK(grain.high - grain.mean == Approx(3.182446 * std::sqrt((1.0 + 16.0 / 9.0 + 49.0 / 9.0) / 3.0) / 6.0 / 2.0).epsilon(1e-6));
  CHECK(grain.least == 0.0);
  CHECK(grain.most == Approx(0.9));
}

TEST_CASE("success has a score interval") {
  Target target;
  target.fill_rate = 0.9;
  Summary summary(target);
  for (int i = 0; i < 10; ++i) summary.add(year(i < 8 ? 0.95 : 0.5));
  const Estimate success = summary.success();
  CHECK(success.mean == Approx(0.8));
  // Wilson, 8 of 10: SciPy 1.10.1, binomtest(8, 10).proportion_ci(method="wilson")
  CHECK(success.low == Approx(0.4901625).epsilon(1e-6));
  CHECK(success.high == Approx(0.9433178).epsilon(1e-6));
}

TEST_CASE("seasons are shares of all short days") {
  Summary summary{Target{}};
  Outcome outcome = year(1.0);
  outcome.short_days_by_season = {1, 0, 5, 0};
  summary.add(outcome);
  outcome.short_days_by_season = {0, 2, 0, 0};
  summary.add(outcome);
  const auto seasons = summary.short_day_seasons();
  CHECK(seasons[0] == Approx(0.125));
  CHECK(seasons[1] == Approx(0.25));
  CHECK(seasons[2] == Approx(0.625));
  CHECK(seasons[3] == 0.0);
}

TEST_CASE("an unknown column is our fault, nothing added gives nothing") {
  Summary summary{Target{}};
  CHECK_THROWS_AS(summary.estimate("fill_rat"), std::logic_error);
  CHECK(summary.estimate("fill_rate").mean == 0.0);
  CHECK(summary.short_day_seasons() == std::array<double, 4>{});
}

TEST_CASE("one year says nothing of the spread") {
  Summary summary{Target{}};
  summary.add(year(0.9));
  CHECK(std::isinf(summary.estimate("fill_rate").high));
}
