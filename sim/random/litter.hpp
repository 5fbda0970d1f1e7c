#pragma once

#include <cmath>

#include "models/base/expects.hpp"
#include "sim/random/laws.hpp"

namespace rackwright::random {

/// Young in one litter: an integer from 1 up with exactly the mean and, where an integer law of this family can have
/// it, exactly the standard deviation asked for.
///
/// With m = mean - 1, the litter is 1 + X, where X is a mixture of two neighbours in the series
///   m rounded down or up at random (variance f (1 - f), f the fraction of m: the least any integer law can have),
///   Binomial(n, m / n) for n = ceil(m), ceil(m) + 1, ... (variance m (1 - m / n), rising towards m).
/// All have mean m, so variances mix linearly. sd outside [sqrt(f (1 - f)), sqrt(m)] gets the nearer end (from
/// n = 1000 the law is taken as Poisson(m)). Family chosen for being exact and simple; no source.
/// Expects mean >= 1 and sd >= 0.
class Litter {
 public:
  Litter(double mean, double sd);

  template <class Engine>
  [[nodiscard]] int operator()(Engine& engine) const {
    const int trials = uniform01(engine) < upper_share_ ? upper_ : lower_;
    if (trials == rounded) return 1 + static_cast<int>(m_) + static_cast<int>(bernoulli(engine, m_ - std::floor(m_)));
    if (trials >= poisson_from) return 1 + poisson(engine, m_);
    return 1 + binomial(engine, trials, m_ / trials);
  }

 private:
  static constexpr int rounded = 0;
  static constexpr int poisson_from = 1000;
  [[nodiscard]] double variance(int trials) const;
  [[nodiscard]] int next(int trials) const { return trials == rounded ? static_cast<int>(std::ceil(m_)) : trials + 1; }

  double m_;
  int lower_ = rounded;
  int upper_ = rounded;
  double upper_share_ = 0.0;
};

}  // namespace rackwright::random
