// Intervals and moments against other programs, certified data and closed forms.

#include <cmath>

#include "sim/study/intervals.hpp"
#include "sim/study/sequential.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

TEST_CASE("exact and score intervals of 8 in 10", "[reference][statistics]") {
  // statsmodels 0.13.5, proportion_confint, methods beta and wilson; printed digits.
  CHECK(clopper_pearson(8, 10).low == Approx(0.443905).margin(5e-7).epsilon(0));
  CHECK(clopper_pearson(8, 10).high == Approx(0.974789).margin(5e-7).epsilon(0));
  CHECK(wilson(8, 10).low == Approx(0.490162).margin(5e-7).epsilon(0));
  CHECK(wilson(8, 10).high == Approx(0.943318).margin(5e-7).epsilon(0));
}

TEST_CASE("exact intervals of a germination test of 400", "[reference][statistics]") {
  // Computed apart from our code, in percent, to printed digits.
  struct Row { unsigned good; double low, high; };
  for (const Row& row : {Row{320, 75.74, 83.81}, Row{360, 86.63, 92.76}, Row{380, 92.38, 96.92}}) {
    INFO(row.good << " of 400");
    CHECK(100 * clopper_pearson(row.good, 400).low == Approx(row.low).margin(0.005).epsilon(0));
    CHECK(100 * clopper_pearson(row.good, 400).high == Approx(row.high).margin(0.005).epsilon(0));
  }
}

TEST_CASE("Student's t", "[reference][statistics]") {
  // R and GSL agree to 1e-14.
  CHECK(t_quantile(0.975, 9) == Approx(2.2621571627982).epsilon(1e-12));
  // Printed in every table (from memory).
  CHECK(t_quantile(0.95, 1) == Approx(6.314).margin(0.0005).epsilon(0));
  CHECK(t_quantile(0.975, 30) == Approx(2.042).margin(0.0005).epsilon(0));
  CHECK(t_quantile(0.995, 5) == Approx(4.032).margin(0.0005).epsilon(0));
}

TEST_CASE("paired t interval of Student's sleep data", "[reference][statistics]") {
  // Student 1908, Biometrika 6:1, ten patients, two drugs; interval as R's t.test prints it (from memory).
  const double first[] = {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
  const double second[] = {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
  Moments difference;
  for (int i = 0; i < 10; ++i) difference.add(second[i] - first[i]);
  CHECK(difference.mean() == Approx(1.58));
  CHECK(difference.mean() / difference.standard_error() == Approx(4.0621).margin(0.00005).epsilon(0));
  CHECK(mean_interval(difference).low == Approx(0.7001142).margin(5e-8).epsilon(0));
  CHECK(mean_interval(difference).high == Approx(2.4598858).margin(5e-8).epsilon(0));
}

TEST_CASE("running variance on data made to break it", "[reference][statistics]") {
  // NIST statistical reference data sets NumAcc3 and NumAcc4 (from memory): mean and sd are exact by design.
  for (const double base : {1000000.0, 10000000.0}) {
    Moments m;
    m.add(base + 0.2);
    for (int i = 0; i < 500; ++i) {
      m.add(base + 0.1);
      m.add(base + 0.3);
    }
    INFO(base);
    CHECK(m.mean() == Approx(base + 0.2).epsilon(1e-15));
    CHECK(m.sd() == Approx(0.1).epsilon(1e-7));  // the data themselves carry about 1e-8 at 1e7
  }
}

TEST_CASE("trials without a failure", "[reference][statistics]") {
  // 59 for 95 % at 95 %: computed apart (0.95^59 = 0.0485). The others are the known sizes of the first-order
  // tolerance limit (Wilks 1941; from memory).
  CHECK(trials_without_failure(0.95, 0.05) == 59);
  CHECK(trials_without_failure(0.99, 0.05) == 299);
  CHECK(trials_without_failure(0.90, 0.05) == 29);
  CHECK(trials_without_failure(0.90, 0.10) == 22);
  const ShareTest test(0.95, 0.05, 0.05, 1);
  CHECK(test.at(0, 58, 58) == Proof::open);
  CHECK(test.at(0, 59, 59) == Proof::shown);
  CHECK(test.needed(0, 93) == 92);  // second-order limit: 93 with one failure (from memory)
  CHECK(test.needed(0, 92) == 92);
}
