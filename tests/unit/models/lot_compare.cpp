#include <cmath>
#include <stdexcept>

#include "models/grain/trial.hpp"
#include "tests/catch.hpp"

using namespace rackwright::grain;

namespace {

Worth rising() {
  Worth worth(FractionLaw::cells);
  for (int i = 0; i < FractionLaw::cells; ++i) worth[static_cast<std::size_t>(i)] = FractionLaw::at(i);
  return worth;
}

}  // namespace

TEST_CASE("scatter between trays makes a trial tell less") {
  const std::vector<TrialTray> trays{{90, 100}, {92, 100}};
  double before = 0.0;
  for (const double rho : {0.0, 0.005, 0.02, 0.1}) {
    const double sd = FractionLaw({1, 1}, trays, rho).deviation();
    CHECK(sd > before);
    before = sd;
  }
}

TEST_CASE("replicates are judged by the table where it applies, by chi-square elsewhere") {
  const Agreement table = agreement({{95, 100}, {90, 100}, {88, 100}, {79, 100}}, 0.01);  // mean 88: 13 allowed, 16 found
  CHECK(table.judged);
  CHECK(table.from_table);
  CHECK(table.found == 16.0);
  CHECK(table.allowed == 13.0);
  CHECK_FALSE(table.agree());
  CHECK(agreement({{90, 100}, {91, 100}, {88, 100}, {83, 100}}, 0.01).agree());
  CHECK(agreement({{95, 100}, {88, 100}, {87, 100}, {82, 100}}, 0.01).agree());  // 13 found of the 13 that are allowed
  const Agreement chi = agreement({{20, 50}, {45, 50}, {44, 50}}, 0.01);
  CHECK_FALSE(chi.from_table);
  CHECK_FALSE(chi.agree());
  CHECK(agreement({{46, 50}, {44, 50}}, 0.01).agree());
  CHECK_FALSE(agreement({{46, 50}}, 0.01).judged);
  CHECK_FALSE(agreement({{50, 50}, {50, 50}}, 0.01).judged);
}

TEST_CASE("a larger trial never tells less, and one that cannot matter is worth nothing") {
  const Worth worth = rising();
  const FractionLaw candidate({1, 1}, {{18, 20}}, 0.01), current({1, 1}, {{360, 400}}, 0.01);
  const Comparison now = compare(candidate, 1.0, current, 1.0, worth);
  double gain = 0.0, wrong = 1.0;
  for (const int more : {25, 50, 100, 400, 1600}) {
    const TrialValue value = value_of_trial(candidate, 1.0, now, worth, more, 0.01);
    CHECK(value.gain >= gain - 1e-9);
    CHECK(value.wrong <= wrong + 1e-9);
    gain = value.gain;
    wrong = value.wrong;
  }
  const Comparison hopeless = compare(candidate, 5.0, current, 1.0, worth);
  CHECK(hopeless.pays < 1e-6);
  CHECK(value_of_trial(candidate, 5.0, hopeless, worth, 100, 0.01).gain == Approx(0.0).margin(1e-9));
}

TEST_CASE("vigour is drawn towards the usual by what lots are known to do") {
  const Vigour same = vigour_of(6.0, 6.0, 0.15, 0.08);
  CHECK(same.mean == Approx(1.0));
  const Vigour slow = vigour_of(6.0, 8.0, 0.15, 0.08);
  CHECK(slow.mean < 1.0);
  CHECK(slow.mean > 6.0 / 8.0);
  CHECK(slow.low < slow.mean);
  CHECK(slow.high > slow.mean);
  CHECK(vigour_of(6.0, 8.0, 10.0, 0.01).mean == Approx(0.75).epsilon(1e-3));
  CHECK(prior_of(0.92, 0.01).germinated == Approx(0.92 * 99.0));
  CHECK_THROWS_AS(vigour_of(6.0, 0.0, 0.15, 0.08), std::logic_error);
  CHECK_THROWS_AS(log_chance({5, 4}, 0.5, 0.0), std::logic_error);
}
