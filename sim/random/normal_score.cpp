#include "sim/random/normal_score.hpp"

#include <array>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numbers>

namespace rackwright::random {
namespace {

struct Node { double score, slope; };  // slope by the tail's probability

// No promotion to long double: slower, and another compiler's may differ.
using Plain = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

Node node(double tail) {
  const double score = tail < 0.5 ? std::numbers::sqrt2 * boost::math::erfc_inv(2.0 * tail, Plain()) : 0.0;
  return {score, -std::sqrt(2.0 * std::numbers::pi) * std::exp(0.5 * score * score)};
}

}  // namespace

NormalScore::NormalScore() {
  constexpr int per_octave = 1 << octave_bits;
  Node low = node(0x1p-55);
  for (int i = 0; i < cells; ++i) {
    const auto at = [](int k) { return std::ldexp(1.0 + static_cast<double>(k % per_octave) / per_octave, k / per_octave - 55); };
    const Node high = node(at(i + 1));
    const double width = at(i + 1) - at(i), rise = high.score - low.score;
    const double a = width * low.slope, b = width * high.slope;
    double* c = coefficients_ + 4 * static_cast<std::ptrdiff_t>(i);
    c[0] = low.score;
    c[1] = a;
    c[2] = 3.0 * rise - 2.0 * a - b;
    c[3] = a + b - 2.0 * rise;
    low = high;
  }
  for (int k = 0; k < 4; ++k) coefficients_[4 * static_cast<std::ptrdiff_t>(cells) + k] = 0.0;
}

const NormalScore& NormalScore::table() {
  static const NormalScore made;
  return made;
}

}  // namespace rackwright::random
