#include "models/germination/germination.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::germination {

namespace {

// Wet grain stands still when it freezes; from 0 to -2 degC the rate runs out (assumed, colder than any count).
double thawed_share(double t) { return std::clamp(0.5 * (t + 2.0), 0.0, 1.0); }

// The warmth that drives the rate [K].
double drive(const Parameters& parameters, double t) {
  const double above = t - parameters.base.value();
  const double toe = parameters.toe.value();
  if (toe <= 0.0) return std::max(0.0, above);
  const double x = above / toe;
  return x > 30.0 ? above : toe * std::log1p(std::exp(x));
}

}  // namespace

double rate(const Parameters& parameters, Celsius temperature) {
  if (temperature >= parameters.ceiling) return 0.0;
  const double t = temperature.value();
  double per_day = thawed_share(t) * drive(parameters, t) / parameters.theta;
  if (temperature > parameters.decline) {
    per_day *= 1.0 - (temperature - parameters.decline) / (parameters.ceiling - parameters.decline);
  }
  return per_day;
}

double fraction(const Parameters& parameters, Celsius temperature) {
  if (temperature >= parameters.fraction_ceiling) return 0.0;
  return 1.0 - std::exp(-((parameters.fraction_ceiling - temperature).value() / parameters.fraction_scale.value()));
}

double share_germinated(const Parameters& parameters, double progress) {
  if (progress <= 0.0) return 0.0;
  return 1.0 / (1.0 + std::pow(progress, -parameters.shape));
}

Constant at_constant(const Parameters& parameters, Celsius temperature, Hours time, double germinable) {
  EXPECTS(germinable >= 0.0 && germinable <= 1.0);
  EXPECTS(time.value() >= 0.0);
  const double per_day = rate(parameters, temperature);
  Constant result;
  result.median_time = days(per_day > 0.0 ? 1.0 / per_day : HUGE_VAL);
  result.final_fraction = per_day > 0.0 ? germinable * fraction(parameters, temperature) : 0.0;
  result.germinated = result.final_fraction * share_germinated(parameters, per_day * in_days(time));
  return result;
}

}  // namespace rackwright::germination
