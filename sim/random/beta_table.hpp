#pragma once
// Beta variates from one normal each: the quantile function of the beta laws of one over-dispersion, tabulated.

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
  /// Expects mean in [0, 1].
  [[nodiscard]] double operator()(double mean, double z) const;

 private:
  static constexpr std::size_t means = 257, scores = 41;
  static constexpr double last_score = 5.0;
  double rho_;
  std::vector<float> quantile_;  ///< [mean][score]
};

}  // namespace rackwright::random
