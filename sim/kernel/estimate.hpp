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

/// Exponential variate with the given mean by inversion, for the reference models only: the layer of samplers lies
/// above.
template <class Engine>
double exponential_by_inversion(Engine& engine, double mean) {
  static_assert(Engine::min() == 0 && Engine::max() == std::numeric_limits<std::uint64_t>::max());
  return -mean * std::log1p(-static_cast<double>(engine() >> 11) * 0x1p-53);
}

}  // namespace rackwright::kernel
