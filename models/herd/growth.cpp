#include <cmath>
#include <numbers>

#include "models/base/expects.hpp"
#include "models/herd/animals.hpp"

namespace rackwright::herd {
namespace {

void check(const GrowthCurve& curve) {
  EXPECTS(std::isfinite(curve.mature.value()) && curve.mature.value() > 0.0);
  EXPECTS(curve.start.value() > 0.0 && curve.start <= curve.mature);
  EXPECTS(std::isfinite(curve.rate_per_day) && curve.rate_per_day > 0.0);
}

/// ln(mature/weight) at an age: what is still to grow, which decays at the curve's rate.
double still_to_grow(const GrowthCurve& curve, Hours age) {
  return std::log(curve.mature / curve.start) * std::exp(-curve.rate_per_day * in_days(age));
}

constexpr double size_exponent = 0.27;  // Lewis & Emmans: rate * mature^0.27 is nearly one number across species

}  // namespace

Kilograms weight_at(const GrowthCurve& curve, Hours age) {
  check(curve);
  EXPECTS(age.value() >= 0.0);
  return curve.mature * std::exp(-still_to_grow(curve, age));
}

Kilograms gain_at(const GrowthCurve& curve, Hours age) {
  return weight_at(curve, age) * (curve.rate_per_day * still_to_grow(curve, age));
}

Kilograms greatest_gain(const GrowthCurve& curve) {
  check(curve);
  return curve.mature * (curve.rate_per_day / std::numbers::e);
}

Hours age_of_greatest_gain(const GrowthCurve& curve) {
  check(curve);
  EXPECTS(curve.start < curve.mature);
  return days(std::log(std::log(curve.mature / curve.start)) / curve.rate_per_day);
}

GrowthCurve scaled_to(const GrowthCurve& curve, Kilograms mature) {
  check(curve);
  EXPECTS(std::isfinite(mature.value()) && mature.value() > 0.0);
  const double size = mature / curve.mature;
  return {mature, curve.rate_per_day * std::pow(size, -size_exponent), curve.start * size};
}

}  // namespace rackwright::herd
