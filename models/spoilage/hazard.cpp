#include "models/spoilage/hazard.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::spoilage {

double growth_factor(const Cardinal& cardinal, Celsius temperature) {
  const double least = cardinal.least.value(), best = cardinal.best.value(), most = cardinal.most.value();
  const double t = temperature.value();
  EXPECTS(least < best && best < most && 2.0 * best >= least + most);
  if (t <= least || t >= most) return 0.0;
  const double up = best - least;
  const double below = up * (up * (t - best) - (best - most) * (best + least - 2.0 * t));
  // With the best temperature just in the middle, t - least cancels and the curve is a parabola.
  const double curve = 2.0 * best == least + most ? (most - t) * (t - least) / (up * up)
                                                  : (t - most) * (t - least) * (t - least) / below;
  const double factor = std::clamp(curve, 0.0, 1.0);
  return cardinal.power == 1.0 ? factor : std::pow(factor, cardinal.power);
}

namespace {

double density_factor(const Parameters& p, const Tray& tray) { return detail::raised(tray.density / p.usual_density, p.density_power); }

}  // namespace

double mould_multiplier(const Parameters& p, const Tray& tray) {
  EXPECTS(tray.inoculum >= 0.0 && tray.density.value() >= 0.0);
  const double wetness = std::max(0.2, 1.0 + p.wetness_gain * (tray.relative_humidity - 0.7) / 0.3);
  return p.mould_rate * tray.inoculum * dead_grain_factor(p, tray.dead_fraction) * density_factor(p, tray) * wetness;
}

double sour_multiplier(const Parameters& p, const Tray& tray) {
  EXPECTS(tray.soak_stress >= 0.0 && tray.undrained >= 0.0 && tray.density.value() >= 0.0);
  const double over_soaked = 1.0 + p.stress_gain * tray.soak_stress * tray.soak_stress;
  const double standing = 1.0 + p.undrained_gain * tray.undrained;
  return p.sour_rate * density_factor(p, tray) * over_soaked * standing;
}

Onset onset(const Parameters& p) {
  EXPECTS(p.mould_lag >= 0.0);
  constexpr double usual_days = 7.0;
  constexpr int steps = 2000;  // midpoint rule
  const double lag2 = p.mould_lag * p.mould_lag;
  // Without a lag the tiny number keeps 0/0 out of age 0.
  Onset result{std::max(lag2 * lag2, 1e-30), 1.0};
  double sum = 0.0;
  for (int i = 0; i < steps; ++i) sum += onset_factor(result, usual_days * (i + 0.5) / steps);
  result.scale = steps / sum;
  return result;
}

double spoiled_probability(double integrated_hazard) {
  EXPECTS(integrated_hazard >= 0.0);
  return -std::expm1(-integrated_hazard);
}

}  // namespace rackwright::spoilage
