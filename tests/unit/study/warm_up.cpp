#include "sim/study/warm_up.hpp"

#include <cmath>
#include <vector>

#include <boost/random/normal_distribution.hpp>

#include "sim/random/philox_stream.hpp"
#include "sim/replication/plan.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

/// AR(1) about 10 with memory phi, begun `off` away from its mean: the transient off * phi^t is known.
std::vector<double> ar1(std::uint32_t seed, std::size_t n, double phi, double off) {
  random::Stream luck(random::make_key(seed, 0), random::Purpose::test, 0);
  boost::random::normal_distribution<double> normal;
  std::vector<double> values;
  double x = off;
  for (std::size_t t = 0; t < n; ++t, x = phi * x + normal(luck)) values.push_back(10.0 + x);
  return values;
}

}  // namespace

TEST_CASE("MSER-5 cuts an AR(1)'s known transient and little more, and nothing where there is none") {
  // Memory 0.9, begun 30 deviations off: 30 * 0.9^t is below one deviation of the process (2.3) from t = 25 on, and above
  // five of them until t = 9. Over 200 seeds, the mean cut; fixed seeds, no chance of a false alarm.
  double mean_cut = 0.0, none = 0.0, bias = 0.0;
  for (std::uint32_t seed = 0; seed < 200; ++seed) {
    const auto values = ar1(seed, 1000, 0.9, 30.0);
    const Cut cut = mser5(values);
    CHECK(cut.told);
    CHECK(cut.values % 5 == 0);
    CHECK(cut.values >= 10);
    mean_cut += static_cast<double>(cut.values) / 200.0;
    double mean = 0.0;
    for (std::size_t t = cut.values; t < values.size(); ++t) mean += values[t] / static_cast<double>(values.size() - cut.values);
    bias += (mean - 10.0) / 200.0;
    none += static_cast<double>(mser5(ar1(1000 + seed, 1000, 0.9, 0.0)).values) / 200.0;
  }
  CHECK(mean_cut > 15.0);
  CHECK(mean_cut < 100.0);
  CHECK(none < 60.0);
  CHECK(std::abs(bias) < 0.1);  // uncut it is 30 / (1 - 0.9) / 1000 = 0.3
}

TEST_CASE("MSER-5 cuts a step where it is and says when the series is too short") {
  std::vector<double> step(200, 1.0);
  for (std::size_t t = 0; t < 40; ++t) step[t] = 0.0;
  CHECK(mser5(step).values == 40);
  CHECK(mser5(std::vector<double>(200, 1.0)).values == 0);
  std::vector<double> ramp;
  for (int t = 0; t < 200; ++t) ramp.push_back(t);
  CHECK_FALSE(mser5(ramp).told);
  CHECK_FALSE(mser5(std::vector<double>(10, 1.0)).told);
}

TEST_CASE("a line that starts empty is given its days on the rack, and not much more, to settle") {
  const Scenario farm = test::goat_farm();
  const int found = steady_warm_up(farm, 8);
  CHECK(found >= farm.line.days_on_rack);
  CHECK(found <= 60);
  CHECK(steady_warm_up(farm, 8) == found);
}

TEST_CASE("a line that does not come to rest is told to have its run-in set by hand") {
  Scenario farm = test::goat_farm();
  const double a_day = make_plan(farm).grain_per_tray * farm.line.trays_per_batch * farm.line.batches_per_day;
  farm.grains.front().on_hand = Kilograms(90.0 * a_day);  // then there is none for the rest of the pilot run
  farm.grains.front().store.reorder_point = Kilograms(0.0);
  farm.grains.front().store.delivery = days(200.0);
  CHECK_THROWS_WITH(steady_warm_up(farm, 4),
                    "no steady state was found within 60 days: the line does not settle in so long; set run.warm_up_length by hand");
}

TEST_CASE("the run-in is that of the line as it is, whatever hard times or measured seasons come later") {
  Scenario farm = test::goat_farm();
  const int usual = steady_warm_up(farm, 8);
  HardTime hard;
  hard.name = "dead pump";
  hard.kind = HardTimeKind::pump_stop;
  hard.first_day = 20;
  hard.length = days(200);
  farm.hard_times = {hard};
  CHECK(steady_warm_up(farm, 8) == usual);
}

TEST_CASE("a steady pilot has no seasons of any kind") {
  Scenario farm = test::goat_farm();
  farm.run.warm_up = WarmUp::automatic;
  const int plain = steady_warm_up(farm, 4);
  farm.climate.mean.second = Kelvins(4.0);
  farm.climate.range_half_year = Kelvins(6.0);
  farm.climate.dew_depression_amplitude = Kelvins(8.0);
  farm.climate.anomaly_season = 0.4;
  CHECK(steady_warm_up(farm, 4) == plain);
}
