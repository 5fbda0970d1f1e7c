#pragma once
// Gamma and beta by Marsaglia and Tsang's method on Boost's normal; Boost's own are several times slower.

#include <cmath>

#include "models/base/expects.hpp"
#include "sim/random/laws.hpp"

namespace rackwright::random {

/// ln of a Gamma(shape, 1) variate; finite even where the variate itself would underflow. Expects shape > 0.
/// Marsaglia & Tsang 2000, "A simple method for generating gamma variables", ACM TOMS 26(3):363-372; below shape 1 by
/// their boost, Gamma(a) = Gamma(a + 1) U^(1/a).
template <class Engine>
double log_gamma_variate(Engine& engine, double shape) {
  EXPECTS(shape > 0.0);
  const double boosted = shape < 1.0 ? shape + 1.0 : shape;
  const double d = boosted - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double x = normal(engine);
    const double root = 1.0 + c * x;
    if (root <= 0.0) continue;
    const double log_v = 3.0 * std::log(root);
    // 1 - uniform01 lies in (0, 1], so that its logarithm is finite
    if (std::log(1.0 - uniform01(engine)) >= 0.5 * x * x + d * (1.0 - root * root * root + log_v)) continue;
    const double log_g = std::log(d) + log_v;
    return shape < 1.0 ? log_g - exponential(engine) / shape : log_g;
  }
}

/// Mean shape * scale, variance shape * scale^2. Expects both > 0.
template <class Engine>
double gamma(Engine& engine, double shape, double scale = 1.0) {
  EXPECTS(scale > 0.0);
  return scale * std::exp(log_gamma_variate(engine, shape));
}

/// Beta(a, b), both > 0.
template <class Engine>
double beta_shapes(Engine& engine, double a, double b) {
  const double log_x = log_gamma_variate(engine, a);
  const double log_y = log_gamma_variate(engine, b);
  return 1.0 / (1.0 + std::exp(log_y - log_x));
}

/// Beta by mean and over-dispersion: rho = 1 / (a + b + 1), variance rho mean (1 - mean); n grains under it are
/// beta-binomial with that intraclass correlation. rho 0, or a mean of 0 or 1, gives the mean itself.
/// Expects 0 <= mean <= 1 and 0 <= rho < 1.
template <class Engine>
double beta(Engine& engine, double mean, double rho) {
  EXPECTS(mean >= 0.0 && mean <= 1.0 && rho >= 0.0 && rho < 1.0);
  if (rho == 0.0 || mean == 0.0 || mean == 1.0) return mean;
  const double both = 1.0 / rho - 1.0;
  return beta_shapes(engine, mean * both, (1.0 - mean) * both);
}

}  // namespace rackwright::random
