#pragma once
// Weighings that were held back, foretold from the earlier ones of the same animal.

#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include "models/herd/growth_fit.hpp"
#include "tests/reference/outside/said.hpp"

namespace rackwright::outside {

/// How far predictions of weighings after `last_seen` are off when each animal's curve is fitted to those up to it.
struct Score {
  double bias = 0.0, error = 0.0, straight_line_error = 0.0;
  double bias_error = 0.0;  ///< standard error of the bias: animals differ, weighings of one animal go together
  int count = 0, animals = 0;
};

inline Score predict(const std::string& file, double last_seen, const herd::GrowthCurve& expected) {
  std::map<int, std::vector<std::pair<double, double>>> animals;  // day, kg
  for (const auto& row : table(file)) animals[static_cast<int>(row[0])].emplace_back(row[1], row[2]);
  Score score;
  std::vector<double> of_animals;
  for (const auto& [animal, rows] : animals) {
    std::vector<herd::Weighing> seen;
    for (const auto& [day, kg] : rows)
      if (day <= last_seen) seen.push_back({days(day), Kilograms(kg)});
    if (seen.size() < 3) continue;
    const auto curve = herd::fit_growth(seen, expected, 0.3).curve;
    const auto &last = seen.back(), &before = seen[seen.size() - 3];
    double own = 0.0;
    int coming = 0;
    const double slope = (last.weight - before.weight).value() / in_days(last.age - before.age);
    for (const auto& [day, kg] : rows) {
      if (day <= last_seen) continue;
      const double off = herd::weight_at(curve, days(day)).value() / kg - 1.0;
      const double straight = (last.weight.value() + slope * (day - in_days(last.age))) / kg - 1.0;
      score.bias += off;
      score.error += std::abs(off);
      score.straight_line_error += std::abs(straight);
      ++score.count;
      own += off;
      ++coming;
    }
    if (coming > 0) of_animals.push_back(own / coming);
  }
  for (double* sum : {&score.bias, &score.error, &score.straight_line_error}) *sum /= score.count;
  const auto n = static_cast<double>(of_animals.size());
  const double middle = std::accumulate(of_animals.begin(), of_animals.end(), 0.0) / n;
  double squares = 0.0;
  for (const double own : of_animals) squares += (own - middle) * (own - middle);
  score.animals = static_cast<int>(of_animals.size());
  score.bias_error = std::sqrt(squares / (n - 1.0) / n);
  return score;
}

}  // namespace rackwright::outside
