// How a record's days stray, at the ends of what is fitted.
#include <cmath>

#include "models/climate/record_strays.hpp"
#include "tests/catch.hpp"
#include "tests/normal_draws.hpp"

using namespace rackwright;
using namespace rackwright::climate;

TEST_CASE("a range that hardly strays has its small spread, and not none") {
  const std::size_t days = 10 * 365;
  test::NormalDraws luck(5);
  DaySeries mean(days), range(days);
  for (std::size_t i = 0; i < days; ++i) mean[i] = 3.0 * luck(), range[i] = 0.2 * luck();
  Parameters p;
  fit_range(mean, range, p);
  CHECK(p.range_sd.value() == Approx(0.2).epsilon(0.05));
  CHECK(p.range_follow == near(0.0, 0.01));
}

TEST_CASE("of a record that is all slow no more than half of the variance is taken for slow") {
  const std::size_t days = 40 * 365;
  test::NormalDraws luck(6);
  DaySeries mean(days);
  constexpr double memory = 0.97;
  mean[0] = luck();
  for (std::size_t i = 1; i < days; ++i) mean[i] = memory * mean[i - 1] + std::sqrt(1.0 - memory * memory) * luck();
  Parameters p;
  p.anomaly_memory = memory;
  fit_slow(mean, p);
  CHECK(p.slow_share == 0.5);
  // The correlation sixty days apart, 0.16, is known to 0.07 from so many days: the memory to some 0.011.
  CHECK(p.slow_memory == near(memory, 0.033));
}
