#pragma once

#include <cmath>
#include <cstdint>
#include <limits>

#include "models/base/expects.hpp"

namespace rackwright::kernel {

/// A mean and the standard error of that mean, both in the unit of what was averaged.
struct Estimate {
  double mean = 0.0;
  double standard_error = 0.0;
};

/// Mean and standard error of independent (or nearly independent: batch means) observations, by Welford's updating.
class Averager {
 public:
  void add(double x) {
    ++n_;
    const double before = x - mean_;
    mean_ += before / static_cast<double>(n_);
    squares_ += before * (x - mean_);
  }
  [[nodiscard]] std::int64_t count() const { return n_; }
  /// Sample variance, divisor n - 1. Expects two observations.
  [[nodiscard]] double variance() const {
    EXPECTS(n_ >= 2);
    return squares_ / static_cast<double>(n_ - 1);
  }
  [[nodiscard]] Estimate estimate() const { return {mean_, std::sqrt(variance() / static_cast<double>(n_))}; }

 private:
  std::int64_t n_ = 0;
  double mean_ = 0.0;
  double squares_ = 0.0;
};

/// Mean of observations that come with two control variates of known mean zero, by regression on them (Lavenberg & Welch
/// 1981, Management Science 27:322-335): what the controls explain does not count as error.
class ControlledAverager {
 public:
  void add(double y, double first, double second) {
    const double n = static_cast<double>(++n_);
    const double row[3] = {y, first, second};
    double before[3];
    for (int i = 0; i < 3; ++i) {
      before[i] = row[i] - mean_[i];
      mean_[i] += before[i] / n;
    }
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j < 3; ++j) product_[i][j] += before[i] * (row[j] - mean_[j]);
    }
  }
  [[nodiscard]] std::int64_t count() const { return n_; }
  /// Expects five observations. A control that never varies, or only with the other, is left out.
  [[nodiscard]] Estimate estimate() const {
    EXPECTS(n_ >= 5);
    const auto& p = product_;
    const double n = static_cast<double>(n_);
    double first = 0.0, second = 0.0, lever = 1.0 / n, used = 0.0;
    const double determinant = p[1][1] * p[2][2] - p[1][2] * p[1][2];
    if (determinant > 1e-9 * p[1][1] * p[2][2]) {
      first = (p[2][2] * p[0][1] - p[1][2] * p[0][2]) / determinant;
      second = (p[1][1] * p[0][2] - p[1][2] * p[0][1]) / determinant;
      lever += (p[2][2] * mean_[1] * mean_[1] - 2.0 * p[1][2] * mean_[1] * mean_[2] + p[1][1] * mean_[2] * mean_[2]) /
               determinant;
      used = 2.0;
    } else if (const int only = p[1][1] > 0.0 ? 1 : 2; p[only][only] > 0.0) {
      (only == 1 ? first : second) = p[0][only] / p[only][only];
      lever += mean_[only] * mean_[only] / p[only][only];
      used = 1.0;
    }
    const double left = std::fmax(0.0, p[0][0] - first * p[0][1] - second * p[0][2]);
    return {mean_[0] - first * mean_[1] - second * mean_[2], std::sqrt(left / (n - 1.0 - used) * lever)};
  }

 private:
  std::int64_t n_ = 0;
  double mean_[3] = {}, product_[3][3] = {};  ///< y, first, second
};

/// Exponential variate with the given mean by inversion, for the reference models only: the layer of samplers lies
/// above.
template <class Engine>
double exponential_by_inversion(Engine& engine, double mean) {
  static_assert(Engine::min() == 0 && Engine::max() == std::numeric_limits<std::uint64_t>::max());
  return -mean * std::log1p(-static_cast<double>(engine() >> 11) * 0x1p-53);
}

}  // namespace rackwright::kernel
