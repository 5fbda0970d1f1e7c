#pragma once
// Normal equations of a least-squares fit of a few terms. For the fits of a record.

#include <array>
#include <cstddef>

namespace rackwright::climate {

/// Sums of rows (terms, value), solved by elimination; 0 for all where the data do not tell one of them.
template <std::size_t N>
class SmallFit {
 public:
  void add(const std::array<double, N>& x, double y) {
    for (std::size_t i = 0; i < N; ++i) {
      for (std::size_t j = 0; j < N; ++j) sums_[i][j] += x[i] * x[j];
      sums_[i][N] += x[i] * y;
    }
  }
  std::array<double, N> solve() {
    std::array<double, N> result{};
    for (std::size_t k = 0; k < N; ++k) {
      if (!(sums_[k][k] > 0.0)) return {};
      for (std::size_t i = 0; i < N; ++i) {
        if (i == k) continue;
        const double share = sums_[i][k] / sums_[k][k];
        for (std::size_t j = k; j <= N; ++j) sums_[i][j] -= share * sums_[k][j];
      }
    }
    for (std::size_t i = 0; i < N; ++i) result[i] = sums_[i][N] / sums_[i][i];
    return result;
  }

 private:
  std::array<std::array<double, N + 1>, N> sums_{};
};

}  // namespace rackwright::climate
