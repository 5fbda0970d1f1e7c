// Days that are known ahead: they are as they are, and the others move with them as far as the anomaly remembers.
#include <cmath>

#include "sim/replication/fortune.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

double mean_of(const climate::Day& day) { return 0.5 * (day.maximum + day.minimum); }

// By how much a known day, `by` warmer than it would have been, moves the others.
template <class Check>
void moved(const Scenario& farm, double by, const Check& check) {
  Opening opening;
  Fortune without, with;
  without.draw(make_plan(farm, opening), 3, 0);
  const climate::Day was = without.weather(20);
  opening.weather = {{20, was.maximum + by, was.minimum + by}};
  const Plan plan = make_plan(farm, opening);
  with.draw(plan, 3, 0);
  CHECK(with.weather(20).maximum == was.maximum + by);
  for (int after = 1; after <= 8; ++after) {
    INFO(after << " days after");
    const double later = mean_of(with.weather(20 + after)) - mean_of(without.weather(20 + after));
    const double earlier = mean_of(with.weather(20 - after)) - mean_of(without.weather(20 - after));
    check(plan, after, later, earlier);
  }
}

Scenario restless() {
  Scenario farm = test::small_farm();
  farm.climate.anomaly_sd = Kelvins(3.0);
  return farm;
}

}  // namespace

TEST_CASE("a known day moves the days about it by the memory of a day") {
  const Scenario farm = restless();
  moved(farm, 4.0, [&](const Plan&, int after, double later, double earlier) {
    CHECK(later == Approx(4.0 * std::pow(farm.climate.anomaly_memory, after)));
    CHECK(earlier == Approx(later));
  });
}

TEST_CASE("with a memory of two days and seasons of spread it moves them by the correlation, in their own spread") {
  Scenario farm = restless();
  farm.climate.anomaly_two_days = -0.2;
  farm.climate.anomaly_season = 0.5;
  farm.climate.anomaly_season_peak = 40.0;
  const double memory = farm.climate.anomaly_memory;
  double before = 1.0, now = memory;  // Yule and Walker's correlations, one day after another
  moved(farm, 4.0, [&](const Plan& plan, int after, double later, double earlier) {
    const auto spread = [&](int day) { return plan.days[static_cast<std::size_t>((plan.first_day_of_year + day - 1) % 365 + 1)].normal.spread; };
    CHECK(later == Approx(4.0 * now * spread(20 + after) / spread(20)));
    CHECK(earlier == Approx(4.0 * now * spread(20 - after) / spread(20)));
    const double next = memory * 1.2 * now - 0.2 * before;
    before = now;
    now = next;
  });
}
