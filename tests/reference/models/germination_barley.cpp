// Germination of barley against open counts: 150 kernels at each constant temperature, counted daily.
// Data: Onofri, Benincasa, Mesgaran & Ritz 2018, Eur. J. Agron. 101:129-139 (three dishes of 50 together).

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

#include "models/germination/germination.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

struct Dish {
  double celsius;
  std::vector<double> day;    // ends of the intervals
  std::vector<double> count;  // cumulative germinated at each, of 150
};

// At 1 degC only the times to 10, 50 and 90 % of the 136 that germinated are at hand; they serve as interval ends.
const std::vector<Dish> dishes{
    {1, {12.35, 13.57, 16.9, 30}, {13.6, 68, 122.4, 136}},
    {7, {5, 6, 7, 8, 9, 10, 21}, {0, 37, 66, 133, 135, 141, 143}},
    {10, {2, 3, 4, 5, 6, 7, 8, 9, 10, 21}, {0, 5, 69, 71, 71, 132, 136, 139, 139, 141}},
    {15, {2, 3, 4, 5, 6, 7}, {0, 63, 134, 134, 134, 142}},
    {25, {1, 2, 3, 4, 5, 6, 7}, {6, 76, 129, 131, 132, 132, 133}},
    {35, {2, 3, 4, 5, 6, 7}, {0, 6, 15, 15, 26, 29}},
    {40, {10}, {0}},
};

constexpr double best_fraction = 0.94;  // fitted germinable fraction of that lot at its best temperature

// Interval-censored log-likelihood; the last class is "never".
double log_likelihood(const germination::Parameters& p, double lot) {
  double sum = 0.0;
  const auto add = [&sum](double count, double probability) {
    sum += count > 0.0 ? count * std::log(std::max(probability, 1e-300)) : 0.0;
  };
  for (const Dish& dish : dishes) {
    double before = 0.0, seen = 0.0;
    for (std::size_t i = 0; i < dish.day.size(); ++i) {
      const double now = germination::at_constant(p, Celsius(dish.celsius), days(dish.day[i]), lot).germinated;
      add(dish.count[i] - seen, now - before);
      before = now;
      seen = dish.count[i];
    }
    add(150.0 - seen, 1.0 - before);
  }
  return sum;
}

germination::Parameters straight_line() {  // Rowse & Finch-Savage fit to the same counts
  germination::Parameters p;
  p.base = Celsius(-2.96);
  p.toe = Kelvins(0.0);
  p.theta = 58.5;
  p.decline = Celsius(33.6);
  p.ceiling = p.fraction_ceiling = Celsius(35.8);
  p.fraction_scale = Kelvins(3.44);
  p.shape = 6.89;
  return p;
}

}  // namespace

TEST_CASE("barley's germinable fraction follows the counts") {
  struct Row {
    double celsius, fraction;
  };
  // Binomial standard error of 150 kernels is 0.02 to 0.03: two of them.
  for (const Row& row :
       {Row{1, 0.907}, Row{7, 0.953}, Row{10, 0.940}, Row{15, 0.947}, Row{25, 0.887}, Row{35, 0.193}, Row{40, 0.0}}) {
    INFO(row.celsius << " degC");
    const auto constant =
        germination::at_constant(*germination::preset("barley"), Celsius(row.celsius), days(30.0), best_fraction);
    CHECK(constant.final_fraction == Approx(row.fraction).margin(row.celsius == 35.0 ? 0.06 : 0.045));
  }
}

TEST_CASE("barley's median time follows the counts") {
  // Counts are a day apart and some days were not counted, so a median is good to half a day, or a tenth of it in the
  // cold.
  struct Row {
    double celsius, median;
  };
  for (const Row& row : {Row{1, 13.57}, Row{7, 7.08}, Row{10, 4.75}, Row{15, 3.11}, Row{25, 1.86}, Row{35, 3.94}}) {
    INFO(row.celsius << " degC");
    const auto constant =
        germination::at_constant(*germination::preset("barley"), Celsius(row.celsius), days(1.0), 1.0);
    CHECK(in_days(constant.median_time) == Approx(row.median).margin(std::max(0.5, 0.1 * row.median)));
  }
  CHECK(std::isinf(
      germination::at_constant(*germination::preset("barley"), Celsius(40.0), days(1.0), 1.0).median_time.value()));
}

TEST_CASE("the daily counts lie within a day of the curve") {
  // Counts are a day apart and at 10 degC the fifth and sixth were hardly taken; 0.05 is two binomial standard errors.
  const auto p = *germination::preset("barley");
  for (const Dish& dish : dishes) {
    if (dish.celsius == 1.0 || dish.celsius == 40.0) continue;
    for (std::size_t i = 0; i < dish.day.size(); ++i) {
      const double day = dish.day[i], seen = dish.count[i] / 150.0;
      const auto modelled = [&](double when) {
        return germination::at_constant(p, Celsius(dish.celsius), days(when), best_fraction).germinated;
      };
      INFO(dish.celsius << " degC, day " << day << ", seen " << seen);
      CHECK(seen >= modelled(day - 1.0) - 0.05);
      CHECK(seen <= modelled(day + 1.0) + 0.05);
    }
  }
}

TEST_CASE("the preset is the interval-censored best fit, and beats the straight line") {
  const germination::Parameters fitted = *germination::preset("barley");
  const double best = log_likelihood(fitted, best_fraction);
  // One more parameter (the rounded foot) is worth about 40 units of log-likelihood; 2 would be worth having.
  CHECK(best > log_likelihood(straight_line(), 0.935) + 30.0);
  using Change = void (*)(germination::Parameters&, double);
  const Change changes[] = {[](germination::Parameters& p, double k) { p.base = p.base * k; },
                            [](germination::Parameters& p, double k) { p.toe = p.toe * k; },
                            [](germination::Parameters& p, double k) { p.theta *= k; },
                            [](germination::Parameters& p, double k) { p.decline = p.decline * k; },
                            [](germination::Parameters& p, double k) { p.fraction_scale = p.fraction_scale * k; },
                            [](germination::Parameters& p, double k) { p.shape *= k; }};
  for (std::size_t i = 0; i < std::size(changes); ++i) {
    for (const double k : {0.97, 0.99, 1.01, 1.03}) {
      germination::Parameters moved = fitted;
      changes[i](moved, k);
      INFO("parameter " << i << " times " << k);
      CHECK(log_likelihood(moved, best_fraction) < best + 0.1);  // rounding of the shipped figures
    }
  }
}

TEST_CASE("other cereals germinate within the classical ranges and official test times") {
  // Official tests end the first count at 4 days for barley, wheat, rye, triticale, maize and 5 for oat, at 20 (maize
  // 20 to 30) degC (test rules, from memory): most of a good lot must be up by then. Maize needs 8 to 10 degC
  // (classical tables, from memory); temperate cereals still germinate at 4 to 5 degC.
  for (const char* species : {"barley", "wheat", "rye", "triticale"}) {
    INFO(species);
    CHECK(germination::at_constant(*germination::preset(species), Celsius(20.0), days(4.0), 1.0).germinated > 0.9);
    CHECK(germination::at_constant(*germination::preset(species), Celsius(5.0), days(21.0), 1.0).germinated > 0.8);
  }
  CHECK(germination::at_constant(*germination::preset("oat"), Celsius(20.0), days(5.0), 1.0).germinated > 0.9);
  CHECK(germination::at_constant(*germination::preset("maize"), Celsius(25.0), days(4.0), 1.0).germinated > 0.9);
  CHECK(germination::at_constant(*germination::preset("maize"), Celsius(5.0), days(21.0), 1.0).germinated < 0.05);
}
