#pragma once
// Standard normals from one draw each, without branches or rejection: the normal's quantile function, tabulated.

#include <bit>
#include <cstdint>

namespace rackwright::random {

/// Z = Q(U), Q the quantile function of the standard normal, U uniform: bit 0 of the draw chooses the half, its upper 53 bits are the
/// tail's probability (k + 1/2) / 2^54, so that |Z| is at most 8.4. Between the cells' ends, 32 to an octave of the probability, Q is a
/// cubic through its values and slopes: within 1e-8 of the exact quantile, tested.
class NormalScore {
 public:
  /// Made when first asked for; takes a few milliseconds.
  static const NormalScore& table();

  [[nodiscard]] double operator()(std::uint64_t draw) const {
    const double tail = (static_cast<double>(draw >> 11U) + 0.5) * 0x1p-54;
    const auto bits = std::bit_cast<std::uint64_t>(tail);
    const double* c = coefficients_ + 4 * ((bits >> shift) - first_cell);
    const double t = std::bit_cast<double>(((bits << octave_bits) & mantissa) | one) - 1.0;  // of the way through the cell
    const double upper = c[0] + t * (c[1] + t * (c[2] + t * c[3]));
    return std::bit_cast<double>(std::bit_cast<std::uint64_t>(upper) ^ (draw << 63U));
  }

 private:
  NormalScore();
  static constexpr unsigned octave_bits = 5, shift = 52 - octave_bits;
  static constexpr std::uint64_t mantissa = (std::uint64_t{1} << 52U) - 1, one = std::uint64_t{1023} << 52U;
  static constexpr int octaves = 54;  ///< from the least tail, 2^-55, to 1/2
  static constexpr std::uint64_t first_cell = static_cast<std::uint64_t>(1023 - 55) << octave_bits;
  static constexpr int cells = octaves * (1 << octave_bits);
  double coefficients_[4 * (cells + 1)];  ///< of the upper half, and one cell more, for a tail of 1/2 itself
};

}  // namespace rackwright::random
