#include "sim/random/beta_table.hpp"

#include <algorithm>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numbers>

#include "models/base/beta.hpp"
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
        value = beta_quantile(mean * both, (1.0 - mean) * both, below);
      }
      quantile_[m * scores + s] = static_cast<float>(value);
    }
  }
}

BetaTable::Row BetaTable::row(double mean) const {
  EXPECTS(mean >= 0.0 && mean <= 1.0);
  const double at = mean * (means - 1);
  const auto m = std::min(static_cast<int>(at), static_cast<int>(means) - 2);
  const float* low = quantile_.data() + static_cast<std::size_t>(m) * scores;
  return {low, low + scores, at - m};
}

}  // namespace rackwright::random
