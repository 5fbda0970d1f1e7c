#include "models/base/beta.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>

#include "models/base/expects.hpp"

namespace rackwright {

double beta_quantile(double a, double b, double below) {
  EXPECTS(a > 0.0 && b > 0.0 && below > 0.0 && below < 1.0);
  constexpr double narrow = 1e7;
  if (a + b < narrow) return boost::math::quantile(boost::math::beta_distribution<>(a, b), below);
  const double mean = a / (a + b), sd = std::sqrt(mean * (1.0 - mean) / (a + b + 1.0));
  return std::clamp(mean + sd * boost::math::quantile(boost::math::normal(), below), 0.0, 1.0);
}

}  // namespace rackwright
