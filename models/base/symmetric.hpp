#pragma once
// Small symmetric positive definite matrices: what a Laplace approximation and correlated draws ask for.

#include <cstddef>
#include <optional>
#include <vector>

#include "models/base/expects.hpp"

namespace rackwright {

/// Square, dense, by rows.
class Matrix {
 public:
  Matrix() = default;
  explicit Matrix(std::size_t size) : size_(size), values_(size * size, 0.0) {}
  static Matrix identity(std::size_t size) {
    Matrix m(size);
    for (std::size_t i = 0; i < size; ++i) m(i, i) = 1.0;
    return m;
  }
  [[nodiscard]] std::size_t size() const { return size_; }
  double& operator()(std::size_t row, std::size_t column) { return values_[row * size_ + column]; }
  double operator()(std::size_t row, std::size_t column) const { return values_[row * size_ + column]; }

 private:
  std::size_t size_ = 0;
  std::vector<double> values_;
};

/// Lower triangle L with L L' = m (Cholesky); nothing unless m is positive definite to rounding. Reads m's lower triangle.
std::optional<Matrix> cholesky(const Matrix& m);

/// The inverse of L L' from its lower triangle.
Matrix inverse_of(const Matrix& lower);

/// x with L x = b, and with L' x = b.
std::vector<double> solve_lower(const Matrix& lower, std::vector<double> b);
std::vector<double> solve_upper(const Matrix& lower, std::vector<double> b);

/// L z, of a lower triangle.
std::vector<double> times(const Matrix& lower, const std::vector<double>& z);

}  // namespace rackwright
