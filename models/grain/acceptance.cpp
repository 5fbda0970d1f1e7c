#include "models/grain/acceptance.hpp"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/grain/trial.hpp"

namespace rackwright::grain {

int least_sprouted(const TrialRule& rule) {
  constexpr double rounding = 1e-9;
  return std::max(0, static_cast<int>(std::ceil(rule.least * rule.kernels - rounding)));
}

double pooled_scatter(int kernels, double rho, int tray) {
  EXPECTS(kernels > 0 && tray > 0);
  return kernels <= 1 ? 0.0 : (std::min(tray, kernels) - 1.0) * rho / (kernels - 1.0);
}

double chance_kept(double fraction, const TrialRule& rule, double tray_rho) {
  EXPECTS(fraction >= 0.0 && fraction <= 1.0 && rule.kernels > 0);
  const int least = least_sprouted(rule);
  if (least <= 0) return 1.0;
  if (least > rule.kernels || fraction <= 0.0) return 0.0;
  if (fraction >= 1.0) return 1.0;
  const double scatter = pooled_scatter(rule.kernels, tray_rho);
  double sum = 0.0;
  for (int x = least; x <= rule.kernels; ++x) sum += std::exp(log_chance({x, rule.kernels}, fraction, scatter));
  return std::min(1.0, sum);
}

double lot_quantile(const Grade& grade, double share) {
  const double mean = grade.germination_mean, rho = grade.germination_rho;
  if (!(rho > 0.0 && mean > 0.0 && mean < 1.0)) return mean;
  const BetaPrior law = prior_of(mean, rho);
  return boost::math::quantile(boost::math::beta_distribution<>(law.germinated, law.failed), share);
}

Sieve sieve(const Grade& grade, const TrialRule& rule) {
  constexpr int shares = 400;
  double kept = 0.0, gone = 0.0, sum = 0.0, sum_kept = 0.0, sum_gone = 0.0;
  for (int i = 0; i < shares; ++i) {
    const double fraction = lot_quantile(grade, (i + 0.5) / shares);
    const double passes = chance_kept(fraction, rule, grade.tray_rho);
    sum += fraction;
    kept += passes;
    sum_kept += passes * fraction;
    gone += 1.0 - passes;
    sum_gone += (1.0 - passes) * fraction;
  }
  Sieve out;
  out.kept = kept / shares;
  constexpr double none = 1e-9;
  out.mean = kept > none ? sum_kept / kept : sum / shares;
  out.refused = gone > none ? sum_gone / gone : sum / shares;
  return out;
}

}  // namespace rackwright::grain
