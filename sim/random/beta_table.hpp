#pragma once
// Beta variates from one normal each: the quantile function of the beta laws of one over-dispersion, tabulated.

#include <algorithm>
#include <cstddef>
#include <vector>

namespace rackwright::random {

/// X = Q(Phi(Z)), Q the quantile function of the beta with that mean and rho = 1/(a + b + 1), Z a standard normal: one
/// draw instead of four or more. Bilinear on a grid of means and of Z (257 x 41); against the exact quantile within 2e-3 for
/// rho up to 0.05 and |Z| up to 4, tested. Z beyond 5 counts as 5.
class BetaTable {
 public:
  /// Expects 0 <= rho < 1. Takes tens of milliseconds.
  explicit BetaTable(double rho);
  [[nodiscard]] double rho() const { return rho_; }
  /// One mean's quantiles: for many draws about it.
  class Row {
   public:
    [[nodiscard]] double operator()(double z) const {
      const double at = std::min(scores - 1.0, std::max(0.0, (z + last_score) * ((scores - 1) / (2.0 * last_score))));
      const int s = std::min(static_cast<int>(at), static_cast<int>(scores) - 2);
      const double y = at - s;
      const auto between = [y, s](const float* row) { return static_cast<double>(row[s]) + y * static_cast<double>(row[s + 1] - row[s]); };
      return between(low_) + share_ * (between(high_) - between(low_));
    }

   private:
    friend class BetaTable;
    Row(const float* low, const float* high, double share) : low_(low), high_(high), share_(share) {}
    const float *low_, *high_;
    double share_;
  };
  /// Expects mean in [0, 1].
  [[nodiscard]] Row row(double mean) const;
  /// Expects mean in [0, 1].
  [[nodiscard]] double operator()(double mean, double z) const { return row(mean)(z); }

 private:
  static constexpr std::size_t means = 257, scores = 41;
  static constexpr double last_score = 5.0;
  double rho_;
  std::vector<float> quantile_;  ///< [mean][score]
};

}  // namespace rackwright::random
