// Trials with scatter between trays. Expected values by an independent program (SciPy 1.10: betabinom, beta, quad; a grid
// of 20 000 cells for the posteriors), worked out for this project.

#include "models/grain/trial.hpp"

#include <cmath>

#include "tests/catch.hpp"

using namespace rackwright::grain;

TEST_CASE("the chance of a tray is beta-binomial, binomial without scatter") {
  CHECK(log_chance({46, 50}, 0.92, 0.02) == Approx(-1.9537518506481195).epsilon(1e-10));
  CHECK(log_chance({0, 10}, 0.3, 0.1) == Approx(-2.3737261245499903).epsilon(1e-10));
  CHECK(log_chance({80, 100}, 0.85, 0.01) == Approx(-3.156284420781482).epsilon(1e-10));
  CHECK(log_chance({46, 50}, 0.92, 0.0) == Approx(-1.5913305026205915).epsilon(1e-10));
  CHECK(log_chance({80, 100}, 0.85, 0.0) == Approx(-3.2132792484233903).epsilon(1e-10));
}

TEST_CASE("posterior of a lot's fraction") {
  struct Row {
    BetaPrior prior;
    std::vector<TrialTray> trays;
    double rho, mean, sd, low, high;
  };
  const Row rows[] = {
      {{1, 1}, {{46, 50}}, 0.0, 0.9038461538, 0.0404941841, 0.81119399, 0.96739351},  // also scipy.stats.beta(47, 5)
      {{1, 1}, {{46, 50}, {44, 50}, {47, 50}}, 0.02, 0.8985926559, 0.0326155988, 0.82753247, 0.95443909},
      {{8.5, 1.5}, {{85, 100}, {90, 100}, {88, 100}, {79, 100}}, 0.01, 0.8543876288, 0.0241502947, 0.80467097, 0.89917405},
  };
  for (const Row& row : rows) {
    const FractionLaw law(row.prior, row.trays, row.rho);
    INFO(row.trays.size() << " trays, rho " << row.rho);
    CHECK(law.mean() == near(row.mean, 1e-5));
    CHECK(law.deviation() == near(row.sd, 1e-5));
    CHECK(law.quantile(0.025) == near(row.low, 2e-4));
    CHECK(law.quantile(0.975) == near(row.high, 2e-4));
  }
}

TEST_CASE("with an even prior of half a kernel the limits lie inside the exact binomial ones") {
  // Clopper-Pearson 95 % limits, 4.2 of the table of sample sizes: 360/400 is 86.63 to 92.76 %, 380/400 92.38 to 96.92 %.
  const FractionLaw ninety({0.5, 0.5}, {{360, 400}}, 0.0), more({0.5, 0.5}, {{380, 400}}, 0.0);
  CHECK(ninety.quantile(0.025) == near(0.8663, 0.003));
  CHECK(ninety.quantile(0.975) == near(0.9276, 0.003));
  CHECK(ninety.quantile(0.025) > 0.8663);
  CHECK(ninety.quantile(0.975) < 0.9276);
  CHECK(more.quantile(0.025) > 0.9238);
  CHECK(more.quantile(0.975) < 0.9692);
}

TEST_CASE("the chance that a switch pays") {
  Worth worth(FractionLaw::cells);
  for (int i = 0; i < FractionLaw::cells; ++i) worth[static_cast<std::size_t>(i)] = FractionLaw::at(i);
  const FractionLaw good({1, 1}, {{46, 50}}, 0.0), poor({1, 1}, {{40, 50}}, 0.0);
  CHECK(compare(good, 1.0, poor, 1.0, worth).pays == near(0.954463627737, 5e-4));
  CHECK(compare(poor, 0.8, good, 1.0, worth).pays == near(0.844527510965, 1e-3));
  CHECK(compare(good, 1.0, good, 1.0, worth).pays == near(0.5, 1e-9));
}

TEST_CASE("what a further trial is worth against a lot known to give 90 %") {
  // Expected best of the two after n kernels less that of choosing now; chance that the choice is then wrong.
  Worth worth(FractionLaw::cells);
  for (int i = 0; i < FractionLaw::cells; ++i) worth[static_cast<std::size_t>(i)] = FractionLaw::at(i);
  const FractionLaw good({1, 1}, {{46, 50}}, 0.0), known({9e6, 1e6}, {}, 0.0);
  const Comparison now = compare(good, 1.0, known, 1.0, worth);
  struct Row { int more; double gain, wrong; };
  for (const Row& row : {Row{20, 0.00688866, 0.30194746}, Row{100, 0.01137140, 0.18956287}, Row{400, 0.01343361, 0.10569354}}) {
    const TrialValue value = value_of_trial(good, 1.0, now, worth, row.more, 0.0);
    INFO(row.more << " kernels more");
    CHECK(value.gain == near(row.gain, 2e-4));
    CHECK(value.wrong == near(row.wrong, 4e-3));
  }
}
