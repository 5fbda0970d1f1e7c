#include <cmath>
#include <limits>
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
  CHECK(value_of_trial(candidate, 5.0, hopeless, worth, 100, 0.01).gain == near(0.0, 1e-9));
}

TEST_CASE("vigour is drawn towards the usual by what lots are known to do") {
  // Were all its days so many times as fast, the law of both would be normal: weights by the inverse of the variances.
  const auto in_proportion = [](double vigour) { return 6.0 / vigour; };
  for (const double seen : {4.0, 6.0, 8.0}) {
    const double weight = 0.15 * 0.15 / (0.15 * 0.15 + 0.08 * 0.08), middle = weight * std::log(6.0 / seen), sd = std::sqrt(weight) * 0.08;
    const Vigour lot = vigour_of(in_proportion, seen, 0.15, 0.08);
    CHECK(lot.mean == Approx(std::exp(middle)).epsilon(1e-4));
    CHECK(lot.low == Approx(std::exp(middle - 1.96 * sd)).epsilon(1e-3));
    CHECK(lot.high == Approx(std::exp(middle + 1.96 * sd)).epsilon(1e-3));
  }
  // One that is late by what it takes to germinate: 8 days instead of 6 are 2 more than those 1.5.
  const auto late = [](double vigour) { return 4.5 + 1.5 / vigour; };
  CHECK(vigour_of(late, 8.0, 0.9, 0.01).mean == Approx(1.5 / 3.5).epsilon(0.01));
  const auto gives_up = [&](double vigour) { return vigour < 0.8 ? std::numeric_limits<double>::infinity() : late(vigour); };
  CHECK(vigour_of(gives_up, 30.0, 0.15, 0.08).low > 0.79);
  CHECK(prior_of(0.92, 0.01).germinated == Approx(0.92 * 99.0));
  CHECK_THROWS_AS(vigour_of(in_proportion, 0.0, 0.15, 0.08), std::logic_error);
  CHECK_THROWS_AS(log_chance({5, 4}, 0.5, 0.0), std::logic_error);
}
