#include <cmath>
#include <stdexcept>

#include "models/germination/fit.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::germination;

namespace {

Parameters truth() {
  Parameters p;
  p.base = Celsius(2.0);
  p.toe = Kelvins(3.0);
  p.theta = 45.0;
  p.decline = Celsius(31.0);
  p.ceiling = p.fraction_ceiling = Celsius(37.0);
  p.fraction_scale = Kelvins(4.0);
  p.shape = 5.0;
  return p;
}

// What would be seen on average with `sown` kernels a temperature, looked at twice a day.
std::vector<Dish> expected_counts(double sown) {
  std::vector<Dish> dishes;
  for (const double celsius : {2.0, 6.0, 12.0, 18.0, 25.0, 30.0, 33.0, 35.0}) {
    Dish dish{Celsius(celsius), sown};
    for (double day = 0.5; day <= 20.0; day += 0.5) {
      dish.day.push_back(day);
      dish.germinated.push_back(sown * at_constant(truth(), Celsius(celsius), days(day), 0.9).germinated);
    }
    dishes.push_back(dish);
  }
  return dishes;
}

}  // namespace

TEST_CASE("fitting what a model predicts gives the model back") {
  const Fit found = fit(expected_counts(400.0), *preset("barley"), 0.94);
  const FittedValues wanted = values_of(truth(), 0.9), got = values_of(found.parameters, found.germinable);
  for (std::size_t i = 0; i < fitted_count; ++i) {
    INFO(fitted_names[i] << ": " << got[i] << ", true " << wanted[i] << ", standard error " << found.standard_error[i]);
    CHECK(std::abs(got[i] - wanted[i]) < 0.02 * found.standard_error[i]);
  }
  CHECK(found.scatter.chi_square < 1e-3);
  CHECK(found.scatter.inflation == 1.0);
}

TEST_CASE("standard errors halve with four times the kernels") {
  const Fit small = fit(expected_counts(400.0), truth(), 0.9), large = fit(expected_counts(1600.0), truth(), 0.9);
  for (std::size_t i = 0; i < fitted_count; ++i) {
    INFO(fitted_names[i]);
    CHECK(large.standard_error[i] == Approx(0.5 * small.standard_error[i]).epsilon(0.02));
  }
  // The germinable fraction is the one whose error can be bounded: the dishes at 12 and 18 degC are done within the time and
  // are binomial trials of it; all eight together say no more than eight such trials.
  CHECK(small.standard_error[7] < std::sqrt(0.9 * 0.1 / (2.0 * 400.0)));
  CHECK(small.standard_error[7] > std::sqrt(0.9 * 0.1 / (8.0 * 400.0)));
}

TEST_CASE("counts that cannot settle a parameter are refused") {
  std::vector<Dish> cool = barley_counts();
  cool.erase(cool.begin() + 4, cool.end());  // nothing warmer than 15 degC says nothing of the ceiling
  CHECK_THROWS_AS(fit(cool, *preset("barley"), 0.94), std::runtime_error);
}

TEST_CASE("scatter takes cells of few together, the last with the one before") {
  // A hundred kernels: so many are expected up to each look, 91 of them in one cell, the 9 others by and by.
  const double p1 = at_constant(*preset("barley"), Celsius(20.0), days(2.0), 0.9).germinated, p2 = at_constant(*preset("barley"), Celsius(20.0), days(2.2), 0.9).germinated;
  const double last = at_constant(*preset("barley"), Celsius(20.0), days(30.0), 0.9).germinated;
  const double sown = 4.9 / (1.0 - last);  // fewer than five are expected never to germinate
  REQUIRE(sown * p1 > 5.0);
  REQUIRE(sown * (p2 - p1) > 5.0);
  REQUIRE(sown * (last - p2) > 5.0);
  const std::vector<Dish> one{{Celsius(20.0), sown, {2.0, 2.2, 30.0}, {sown * p1 + 2.0, sown * p2 + 2.0, sown * last + 1.0}}};
  // Up to the first look two more than expected; from the second on the last two classes are one, with two fewer.
  const double wanted = 4.0 / (sown * p1) + 4.0 / (sown * (1.0 - p2));
  CHECK(scatter(*preset("barley"), 0.9, one).chi_square == Approx(wanted).epsilon(1e-9));
}

TEST_CASE("likelihood of one look is binomial") {
  const std::vector<Dish> one{{Celsius(20.0), 10.0, {2.0}, {4.0}}};
  const double p = at_constant(*preset("barley"), Celsius(20.0), days(2.0), 0.9).germinated;
  CHECK(log_likelihood(*preset("barley"), 0.9, one) == Approx(4.0 * std::log(p) + 6.0 * std::log(1.0 - p)));
}
