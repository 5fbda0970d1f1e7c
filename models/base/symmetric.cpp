#include "models/base/symmetric.hpp"

#include <cmath>

namespace rackwright {

std::optional<Matrix> cholesky(const Matrix& m) {
  constexpr double rounding = 1e-12;
  const std::size_t n = m.size();
  Matrix lower(n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = m(i, j);
      for (std::size_t k = 0; k < j; ++k) sum -= lower(i, k) * lower(j, k);
      if (i != j) {
        lower(i, j) = sum / lower(j, j);
      } else {
        if (!(sum > rounding * std::abs(m(i, i)))) return std::nullopt;
        lower(i, i) = std::sqrt(sum);
      }
    }
  }
  return lower;
}

Matrix inverse_of(const Matrix& lower) {
  const std::size_t n = lower.size();
  Matrix back(n);  // the inverse of the triangle
  for (std::size_t j = 0; j < n; ++j) {
    back(j, j) = 1.0 / lower(j, j);
    for (std::size_t i = j + 1; i < n; ++i) {
      double sum = 0.0;
      for (std::size_t k = j; k < i; ++k) sum -= lower(i, k) * back(k, j);
      back(i, j) = sum / lower(i, i);
    }
  }
  Matrix result(n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = 0.0;
      for (std::size_t k = i; k < n; ++k) sum += back(k, i) * back(k, j);
      result(i, j) = result(j, i) = sum;
    }
  }
  return result;
}

std::vector<double> solve_lower(const Matrix& lower, std::vector<double> b) {
  EXPECTS(b.size() == lower.size());
  for (std::size_t i = 0; i < b.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) b[i] -= lower(i, k) * b[k];
    b[i] /= lower(i, i);
  }
  return b;
}

std::vector<double> solve_upper(const Matrix& lower, std::vector<double> b) {
  EXPECTS(b.size() == lower.size());
  for (std::size_t i = b.size(); i-- > 0;) {
    for (std::size_t k = i + 1; k < b.size(); ++k) b[i] -= lower(k, i) * b[k];
    b[i] /= lower(i, i);
  }
  return b;
}

std::vector<double> times(const Matrix& lower, const std::vector<double>& z) {
  EXPECTS(z.size() == lower.size());
  std::vector<double> out(z.size());
  for (std::size_t i = 0; i < z.size(); ++i)
    for (std::size_t k = 0; k <= i; ++k) out[i] += lower(i, k) * z[k];
  return out;
}

}  // namespace rackwright
