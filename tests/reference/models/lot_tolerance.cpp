// Germination-test statistics against the regulation's table and exact intervals.

#include "models/grain/lot.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("largest range between four replicates is the regulation's") {
  // US 7 CFR 201.55, "Maximum Tolerated Ranges Between 100-Seed Replicates", four replicates.
  struct Row {
    double mean, range;
  };
  const Row read[] = {{99, 5},  {98, 6},  {97, 7},  {96, 8},  {95, 9},  {94, 10}, {93, 10}, {92, 11},
                      {90, 12}, {89, 12}, {88, 13}, {86, 14}, {84, 14}, {83, 15}, {80, 16}, {77, 17},
                      {73, 17}, {72, 18}, {70, 18}, {2, 5},   {11, 12}, {21, 16}};
  for (const Row& row : read) {
    INFO("mean " << row.mean << " %");
    CHECK(grain::tolerated_range(row.mean, 4) == row.range);
  }
  // From memory of the same table.
  CHECK(grain::tolerated_range(60.0, 4) == 19.0);
  CHECK(grain::tolerated_range(51.0, 4) == 20.0);
  CHECK(grain::tolerated_range(50.0, 4) == 20.0);
}

TEST_CASE("largest range between two replicates is the regulation's") {
  // Same table, two replicates; read in a copy that runs the columns together.
  struct Row {
    double mean, range;
  };
  const Row read[] = {{97, 6}, {96, 6}, {95, 7},  {94, 8},  {93, 8}, {92, 9},
                      {91, 9}, {90, 9}, {89, 10}, {88, 10}, {87, 11}};
  for (const Row& row : read) {
    INFO("mean " << row.mean << " %");
    CHECK(grain::tolerated_range(row.mean, 2) == row.range);
  }
  CHECK(grain::tolerated_range(99.0, 2) < 0.0);  // no row
}

TEST_CASE("a trial's limits agree with exact binomial intervals") {
  // Clopper-Pearson 95 % limits of 400-kernel tests (computed; textbook): 320 -> 75.74 to 83.81, 360 -> 86.63 to 92.76,
  // 380 -> 92.38 to 96.92. A flat prior lies inside them by at most a quarter of a percent.
  struct Row {
    int germinated;
    double low, high;
  };
  for (const Row& row : {Row{320, 75.74, 83.81}, Row{360, 86.63, 92.76}, Row{380, 92.38, 96.92}}) {
    INFO(row.germinated << " of 400");
    const auto posterior = grain::trial_posterior(row.germinated, 400, 1.0, 1.0);
    CHECK(100.0 * posterior.low == Approx(row.low).margin(0.25));
    CHECK(100.0 * posterior.high == Approx(row.high).margin(0.25));
    CHECK(posterior.mean == Approx((row.germinated + 1.0) / 402.0).epsilon(1e-12));
  }
  // 59 kernels without a failure: failure below 5 % at 95 %, since 0.95^59 = 0.0485 (one-sided, so 0.9 two-sided).
  const auto clean = grain::trial_posterior(59, 59, 1.0, 1e-6);
  CHECK(clean.low > 0.93);
}
