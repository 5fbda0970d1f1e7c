#include "sim/random/beta_table.hpp"

#include <algorithm>
#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"

namespace rackwright::random {

BetaTable::BetaTable(double rho) : rho_(rho), quantile_(means * scores) {
  EXPECTS(rho >= 0.0 && rho < 1.0);
  for (std::size_t m = 0; m < means; ++m) {
    const double mean = static_cast<double>(m) / (means - 1);
    for (std::size_t s = 0; s < scores; ++s) {
      double value = mean;
      if (rho > 0.0 && m > 0 && m + 1 < means) {
        const double z = last_score * (2.0 * static_cast<double>(s) / (scores - 1) - 1.0);
        const double below = 0.5 * boost::math::erfc(-z / std::numbers::sqrt2);
        const double both = 1.0 / rho - 1.0;
        value = boost::math::ibeta_inv(mean * both, (1.0 - mean) * both, below);
      }
      quantile_[m * scores + s] = static_cast<float>(value);
    }
  }
}

double BetaTable::operator()(double mean, double z) const {
  EXPECTS(mean >= 0.0 && mean <= 1.0);
  const double at_mean = mean * (means - 1);
  const double at_score = std::clamp((z + last_score) * ((scores - 1) / (2.0 * last_score)), 0.0, scores - 1.0);
  const auto m = std::min(static_cast<int>(at_mean), static_cast<int>(means) - 2);
  const auto s = std::min(static_cast<int>(at_score), static_cast<int>(scores) - 2);
  const double x = at_mean - m, y = at_score - s;
  const float* low = quantile_.data() + static_cast<std::size_t>(m) * scores + static_cast<std::size_t>(s);
  const float* high = low + scores;
  const auto between = [y](const float* row) { return static_cast<double>(row[0]) + y * static_cast<double>(row[1] - row[0]); };
  return between(low) + x * (between(high) - between(low));
}

}  // namespace rackwright::random
