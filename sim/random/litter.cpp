#include "sim/random/litter.hpp"

namespace rackwright::random {

Litter::Litter(double mean, double sd) : m_(mean - 1.0) {
  EXPECTS(mean >= 1.0 && mean <= 1000.0 && sd >= 0.0);
  if (m_ == 0.0) return;
  const double wanted = sd * sd;
  while (lower_ < poisson_from && variance(next(lower_)) <= wanted) lower_ = next(lower_);
  upper_ = lower_;
  if (lower_ >= poisson_from || wanted <= variance(lower_)) return;
  upper_ = next(lower_);
  upper_share_ = (wanted - variance(lower_)) / (variance(upper_) - variance(lower_));
}

double Litter::variance(int trials) const {
  const double fraction = m_ - std::floor(m_);
  if (trials == rounded) return fraction * (1.0 - fraction);
  if (trials >= poisson_from) return m_;
  return m_ * (1.0 - m_ / trials);
}

}  // namespace rackwright::random
