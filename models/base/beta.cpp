#include "models/base/beta.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include "models/base/expects.hpp"

namespace rackwright {

double beta_quantile(double a, double b, double below) {
  EXPECTS(a > 0.0 && b > 0.0 && below > 0.0 && below < 1.0);
  constexpr double narrow = 1e7;
  if (a + b < narrow) return boost::math::quantile(boost::math::beta_distribution<>(a, b), below);
  // One end's share so small that the law is lopsided: it is a gamma's, from that end.
  constexpr double lopsided = 1e4;
  if (a < lopsided) return std::min(1.0, boost::math::gamma_p_inv(a, below) / (a + b));
  if (b < lopsided) return std::max(0.0, 1.0 - boost::math::gamma_q_inv(b, below) / (a + b));
  const double mean = a / (a + b), sd = std::sqrt(mean * (1.0 - mean) / (a + b + 1.0));
  const double skew = 2.0 * ((b - a) / (a + b + 2.0)) * (std::sqrt(a + b + 1.0) / std::sqrt(a) / std::sqrt(b));
  const double z = boost::math::quantile(boost::math::normal(), below);
  return std::clamp(mean + sd * (z + (z * z - 1.0) * skew / 6.0), 0.0, 1.0);
}

}  // namespace rackwright
