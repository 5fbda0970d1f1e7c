// The open barley counts, and how well a model goes with counts.
#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/germination/fit.hpp"

namespace rackwright::germination {

const std::vector<Dish>& barley_counts() {
  static const std::vector<Dish> dishes{
      {Celsius(1), 150, {12.35, 13.57, 16.9, 30}, {13.6, 68, 122.4, 136}},
      {Celsius(7), 150, {5, 6, 7, 8, 9, 10, 21}, {0, 37, 66, 133, 135, 141, 143}},
      {Celsius(10), 150, {2, 3, 4, 5, 6, 7, 8, 9, 10, 21}, {0, 5, 69, 71, 71, 132, 136, 139, 139, 141}},
      {Celsius(15), 150, {2, 3, 4, 5, 6, 7}, {0, 63, 134, 134, 134, 142}},
      {Celsius(25), 150, {1, 2, 3, 4, 5, 6, 7}, {6, 76, 129, 131, 132, 132, 133}},
      {Celsius(35), 150, {2, 3, 4, 5, 6, 7}, {0, 6, 15, 15, 26, 29}},
      {Celsius(40), 150, {10}, {0}},
  };
  return dishes;
}

namespace {

// Calls visit(seen, expected share) for every class of a dish, "never" last.
template <class Visit>
void each_class(const Parameters& parameters, double germinable, const Dish& dish, Visit visit) {
  EXPECTS(dish.day.size() == dish.germinated.size());
  double before = 0.0, seen = 0.0;
  for (std::size_t i = 0; i < dish.day.size(); ++i) {
    const double now = at_constant(parameters, dish.temperature, days(dish.day[i]), germinable).germinated;
    visit(dish.germinated[i] - seen, now - before);
    before = now;
    seen = dish.germinated[i];
  }
  visit(dish.sown - seen, 1.0 - before);
}

}  // namespace

double log_likelihood(const Parameters& parameters, double germinable, const std::vector<Dish>& dishes) {
  double sum = 0.0;
  for (const Dish& dish : dishes)
    each_class(parameters, germinable, dish, [&sum](double count, double share) {
      if (count > 0.0) sum += count * std::log(std::max(share, 1e-300));
    });
  return sum;
}

Scatter scatter(const Parameters& parameters, double germinable, const std::vector<Dish>& dishes) {
  Scatter result;
  for (const Dish& dish : dishes) {
    std::vector<std::pair<double, double>> cells;  // seen, expected
    double seen = 0.0, expected = 0.0;
    each_class(parameters, germinable, dish, [&](double count, double share) {
      seen += count;
      expected += share * dish.sown;
      if (expected < 5.0) return;
      cells.emplace_back(seen, expected);
      seen = expected = 0.0;
    });
    if (!cells.empty()) {
      cells.back().first += seen;
      cells.back().second += expected;
    }
    for (const auto& [count, mean] : cells) result.chi_square += (count - mean) * (count - mean) / mean;
    result.degrees += std::max(0, static_cast<int>(cells.size()) - 1);
  }
  result.degrees -= static_cast<int>(fitted_count);
  if (result.degrees > 0) result.inflation = std::max(1.0, result.chi_square / result.degrees);
  return result;
}

}  // namespace rackwright::germination
