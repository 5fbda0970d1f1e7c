#include "models/growth/mat.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::growth {
namespace {

constexpr double reference_celsius = 20.0;  // growth days are days at this temperature
constexpr double seconds_per_day = 86400.0;

double beta_function(const Parameters& p, double t) {
  const double base = p.base.value(), optimum = p.optimum.value(), ceiling = p.ceiling.value();
  if (t <= base || t >= ceiling) return 0.0;
  const double falling = (ceiling - t) / (ceiling - optimum);
  const double rising = (t - base) / (optimum - base);
  return falling * std::pow(rising, (optimum - base) / (ceiling - optimum));
}

double growing_dry_matter_fraction(const Parameters& p, double growth_days) {
  const double x = growth_days / p.water_time;
  const double power =
      p.water_shape == 1.5 ? x * std::sqrt(x) : std::pow(x, p.water_shape);  // a mat is asked for often
  const double share = p.mat_dry_matter_end + (p.mat_dry_matter_start - p.mat_dry_matter_end) * std::exp(-power);
  if (p.swelling == 1.0) return share;
  const double soaked = 1.0 / p.mat_dry_matter_start;
  return 1.0 / (soaked + p.swelling * (1.0 / share - soaked));
}

// The Weibull curve of loss and its slope per growth day, from one power and one exponential.
struct Loss {
  double level, slope;
};
Loss loss_curve(const Parameters& p, double growth_days) {
  if (growth_days <= 0.0) return {0.0, 0.0};
  const double power = std::pow(growth_days / p.loss_time, p.loss_shape);
  const double lost = -std::expm1(-power);
  return {p.loss_plateau * lost, p.loss_plateau * p.loss_shape / growth_days * power * (1.0 - lost)};
}

// Respiration's heat from dry matter lost per day and kilogram of grain [W/kg].
double respired_watts(const Parameters& p, double lost_per_day) {
  return lost_per_day * p.respired_share * respiration_heat_mj * 1e6 / seconds_per_day;
}

double logistic(double x) { return 1.0 / (1.0 + std::exp(-x)); }

// Shoots start from nothing: the logistic's own value at sowing is taken off.
double height_share(const Parameters& p, double growth_days) {
  const double at_sowing = logistic(-p.height_middle / p.height_scale);
  return (logistic((growth_days - p.height_middle) / p.height_scale) - at_sowing) / (1.0 - at_sowing);
}

}  // namespace

double growth_rate(const Parameters& p, Celsius temperature) {
  const double here = beta_function(p, temperature.value());
  if (here <= 0.0) return 0.0;
  EXPECTS(p.base.value() < reference_celsius && p.ceiling.value() > reference_celsius);
  // A steep law may come to nothing there by underflow: faster than any that a scenario may have, and finite.
  constexpr double least = 1e-300, most = 1e6;
  const double reference = beta_function(p, reference_celsius);
  return p.pace * std::min(most, std::pow(here / std::max(reference, least), p.curvature));
}

double loss(const Parameters& p, double growth_days) { return loss_curve(p, growth_days).level; }

double growing_share(const Parameters& p, double sprouted, KilogramsPerSquareMetre density) {
  return density > p.plateau_density ? sprouted * (p.plateau_density / density) : sprouted;
}

Mat mat(const Parameters& p, double growth_days, double sprouted, KilogramsPerSquareMetre density,
        double grain_dry_matter) {
  EXPECTS(sprouted >= 0.0 && sprouted <= 1.0);
  EXPECTS(grain_dry_matter > 0.0 && grain_dry_matter <= 1.0);
  const double g = std::max(0.0, growth_days);
  const double growing = growing_share(p, sprouted, density);
  const Loss loss_now = loss_curve(p, g);
  const double lost = sprouted * loss_now.level;
  const double growing_solids = grain_dry_matter * growing * (1.0 - loss_now.level);
  const double soaked_solids = grain_dry_matter * (1.0 - lost) - growing_solids;  // crowded sprouts are here

  Mat result;
  result.fresh_ratio = growing_solids / growing_dry_matter_fraction(p, g) + soaked_solids / p.mat_dry_matter_start;
  result.dry_matter_loss = lost;
  result.dry_matter = (growing_solids + soaked_solids) / result.fresh_ratio;
  result.height_cm = p.height_end * height_share(p, g) * stand(growing);
  const double held = result.fresh_ratio - growing_solids - soaked_solids;
  const double made = respiration_water * p.respired_share * grain_dry_matter * lost;
  result.taken_up_litres = held - (1.0 - grain_dry_matter) - made;
  result.water_litres = result.taken_up_litres + p.evaporated_litres * g;
  result.heat_watts = respired_watts(p, grain_dry_matter * sprouted * loss_now.slope);
  return result;
}

double heat_watts(const Parameters& p, double growth_days, double sprouted, double rate, double grain_dry_matter) {
  return respired_watts(p, grain_dry_matter * sprouted * loss_curve(p, growth_days).slope * rate);
}

double value_kept(const Parameters& p, double growth_days) {
  constexpr double loss_per_day = 0.08;  // (assumed)
  return growth_days <= p.overdue ? 1.0 : std::exp(-loss_per_day * (growth_days - p.overdue));
}

}  // namespace rackwright::growth
