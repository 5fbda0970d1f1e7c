#pragma once
// A growth curve from weighings.

#include <vector>

#include "models/herd/animals.hpp"

namespace rackwright::herd {

struct Weighing { Hours age{}; Kilograms weight{}; };

/// Gompertz curve through weighings by least squares of log weight. Young animals do not tell how heavy they will be: `grown`
/// is the mature weight expected, and `doubt` the standard deviation of its logarithm; a weighing strays by `scatter` in log.
/// With a large doubt the weighings alone decide. Expects three weighings or more, weights positive.
struct GrowthFit {
  GrowthCurve curve{};
  double residual = 0.0;   ///< root mean square of log weight about the curve [1]
};
GrowthFit fit_growth(const std::vector<Weighing>& weighings, const GrowthCurve& expected, double doubt, double scatter = 0.03);

}  // namespace rackwright::herd
