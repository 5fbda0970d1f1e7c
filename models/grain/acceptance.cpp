#include "models/grain/acceptance.hpp"

#include <algorithm>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>

#include "models/base/beta.hpp"
#include "models/base/expects.hpp"
#include "models/grain/trial.hpp"

namespace rackwright::grain {

int least_sprouted(const TrialRule& rule) {
  constexpr double rounding = 1e-9;
  return std::max(0, static_cast<int>(std::ceil(rule.least * rule.kernels - rounding)));
}

double pooled_scatter(int kernels, double rho, int tray) {
  EXPECTS(kernels > 0 && tray > 0);
  if (kernels <= 1) return 0.0;
  const int rest = kernels % tray;
  if (kernels <= tray || rest == 0) return (std::min(tray, kernels) - 1.0) * rho / (kernels - 1.0);
  // Full trays and a smaller one: pairs of kernels on one tray, of all pairs.
  const double full = kernels - rest;
  return (full * (tray - 1.0) + rest * (rest - 1.0)) * rho / (kernels * (kernels - 1.0));
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
  constexpr double alike = 1e-15;  // lots that no number can tell apart; below about 1e-308 the law's own counts are beyond numbers
  if (!(rho > alike && mean > 0.0 && mean < 1.0)) return mean;
  const BetaPrior law = prior_of(mean, rho);
  return beta_quantile(law.germinated, law.failed, share);
}

Sieve sieve(const Grade& grade, const TrialRule& rule) {
  // Lots share by share: panels of a tenth of them, and ever narrower ones towards the worst and the best, where all that is refused, or
  // nearly all that passes, may lie; a dozen points of Gauss and Legendre's in each.
  double kept = 0.0, gone = 0.0, sum = 0.0, sum_kept = 0.0, sum_gone = 0.0;
  const auto panel = [&](double from, double to) {
    const auto part = [&](double share, double weight) {
      const double fraction = lot_quantile(grade, share), passes = chance_kept(fraction, rule, grade.tray_rho);
      sum += weight * fraction;
      kept += weight * passes;
      sum_kept += weight * passes * fraction;
      gone += weight * (1.0 - passes);
      sum_gone += weight * (1.0 - passes) * fraction;
    };
    using Points = boost::math::quadrature::gauss<double, 12>;
    const double middle = 0.5 * (from + to), half = 0.5 * (to - from);
    for (std::size_t i = 0; i < Points::abscissa().size(); ++i) {
      const double away = half * Points::abscissa()[i], weight = half * Points::weights()[i];
      part(middle - away, weight);
      part(middle + away, weight);
    }
  };
  constexpr int narrower = 13;  // down to 0.1 / 4^13, about 1e-9
  double far = 0.1;
  for (int i = 0; i <= narrower; ++i, far *= 0.25) {
    const double near = i < narrower ? 0.25 * far : 0.0;
    panel(near, far);
    panel(1.0 - far, 1.0 - near);
  }
  for (int i = 1; i < 9; ++i) panel(0.1 * i, 0.1 * (i + 1));
  Sieve out;
  out.kept = std::min(1.0, kept);
  constexpr double none = 1e-9;
  out.mean = kept > none ? sum_kept / kept : sum;
  out.refused = gone > none ? sum_gone / gone : sum;
  return out;
}

}  // namespace rackwright::grain
