#include "sim/random/beta_table.hpp"

#include <algorithm>
#include <bit>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "models/base/beta.hpp"
#include "models/base/expects.hpp"

namespace rackwright::random {
namespace {

constexpr double least = 0x1p-17;
/// Bits of a double's fraction that say where it is within a step, eight steps to an octave.
constexpr int within_step = 52 - 3;

}  // namespace

BetaTable::BetaTable(double rho) : quantile_(rows * scores) {
  EXPECTS(rho >= 0.0 && rho < 1.0);
  static_assert(steps == std::size_t{1} << (52 - within_step));
  for (std::size_t m = 1; m < rows; ++m) {  // of mean 0 all is 0
    const double mean = std::bit_cast<double>(std::bit_cast<std::uint64_t>(least) + ((m - 1) << within_step));
    for (std::size_t s = 0; s < scores; ++s) {
      double value = mean;
      if (rho > 0.0) {
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
  const bool upper = mean > 0.5;
  const double distance = upper ? 1.0 - mean : mean;
  Row row;
  if (upper) row.end_ = 1.0, row.sign_ = -1.0;
  std::size_t at = 0;
  if (distance < least) {
    row.share_ = distance / least;
  } else {
    const std::uint64_t past = std::bit_cast<std::uint64_t>(distance) - std::bit_cast<std::uint64_t>(least);
    at = 1 + static_cast<std::size_t>(past >> within_step);
    row.share_ = static_cast<double>(past & ((std::uint64_t{1} << within_step) - 1)) * std::ldexp(1.0, -within_step);
    if (at == rows - 1) --at, row.share_ = 1.0;  // one half itself
  }
  row.low_ = quantile_.data() + at * scores;
  row.high_ = row.low_ + scores;
  return row;
}

}  // namespace rackwright::random
