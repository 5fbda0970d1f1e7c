// Germination trials: what the regulation's table has no row for, and a trial without a failure. Its rows and the exact
// limits are in tests/reference/table.

#include "models/grain/lot.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("where the regulation prints no range there is none") {
  CHECK(grain::tolerated_range(99.0, 2) < 0.0);
}

TEST_CASE("59 kernels without a failure show less than five percent of failures") {
  // 0.95^59 = 0.0485 (one-sided, so 0.9 two-sided).
  CHECK(grain::trial_posterior(59, 59, 1.0, 1e-6).low > 0.93);
}
