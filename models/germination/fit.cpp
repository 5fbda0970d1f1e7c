#include "models/germination/fit.hpp"

#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "models/base/expects.hpp"

namespace rackwright::germination {
namespace {

using Matrix = std::array<FittedValues, fitted_count>;

Parameters parameters_of(const FittedValues& v) {
  Parameters p;
  p.base = Celsius(v[0]);
  p.toe = Kelvins(v[1]);
  p.decline = Celsius(v[2]);
  p.ceiling = p.fraction_ceiling = Celsius(v[3]);
  p.theta = v[4];
  p.fraction_scale = Kelvins(v[5]);
  p.shape = v[6];
  return p;
}

constexpr double never = 1e12;  // a log-likelihood that nothing sensible has

double minus_log_likelihood(const FittedValues& v, const std::vector<Dish>& dishes) {
  const bool inside = v[1] > 0.01 && v[2] < v[3] - 0.05 && v[4] > 1.0 && v[5] > 0.05 && v[6] > 0.5 && v[7] > 0.0 && v[7] < 1.0;
  return inside ? -log_likelihood(parameters_of(v), v[7], dishes) : never;
}

double objective(unsigned count, const double* x, double*, void* dishes) {
  FittedValues v{};
  std::copy_n(x, count, v.begin());
  return minus_log_likelihood(v, *static_cast<const std::vector<Dish>*>(dishes));
}

// Steps are a few thousandths of each value: far above rounding, far below the standard errors.
double step_of(double value) { return 2e-3 * std::max(1.0, std::abs(value)) * (std::abs(value) < 1.0 ? 0.5 : 1.0); }

Matrix information(const FittedValues& at, const std::vector<Dish>& dishes) {
  Matrix second{};
  const auto f = [&](std::size_t i, double a, std::size_t j, double b) {
    FittedValues v = at;
    v[i] += a * step_of(at[i]);
    v[j] += b * step_of(at[j]);
    return minus_log_likelihood(v, dishes);
  };
  for (std::size_t i = 0; i < fitted_count; ++i) {
    for (std::size_t j = i; j < fitted_count; ++j) {
      const double steps = step_of(at[i]) * step_of(at[j]);
      second[i][j] = second[j][i] =
          i == j ? (f(i, 1, i, 0) - 2.0 * f(i, 0, i, 0) + f(i, -1, i, 0)) / steps
                 : (f(i, 1, j, 1) - f(i, 1, j, -1) - f(i, -1, j, 1) + f(i, -1, j, -1)) / (4.0 * steps);
    }
  }
  return second;
}

// By Gauss-Jordan on a matrix scaled to a unit diagonal; positive definite or it throws.
Matrix inverse(const Matrix& given) {
  Matrix m{}, result{};
  FittedValues scale{};
  const auto singular = [] { return std::runtime_error("the counts do not settle every parameter of the germination model"); };
  for (std::size_t i = 0; i < fitted_count; ++i) {
    if (!(given[i][i] > 0.0)) throw singular();
    scale[i] = 1.0 / std::sqrt(given[i][i]);
    result[i][i] = 1.0;
  }
  for (std::size_t i = 0; i < fitted_count; ++i)
    for (std::size_t j = 0; j < fitted_count; ++j) m[i][j] = given[i][j] * scale[i] * scale[j];
  for (std::size_t k = 0; k < fitted_count; ++k) {
    const double pivot = m[k][k];
    if (!(pivot > 1e-9)) throw singular();
    for (std::size_t j = 0; j < fitted_count; ++j) {
      m[k][j] /= pivot;
      result[k][j] /= pivot;
    }
    for (std::size_t i = 0; i < fitted_count; ++i) {
      const double factor = i == k ? 0.0 : m[i][k];
      for (std::size_t j = 0; j < fitted_count; ++j) {
        m[i][j] -= factor * m[k][j];
        result[i][j] -= factor * result[k][j];
      }
    }
  }
  for (std::size_t i = 0; i < fitted_count; ++i)
    for (std::size_t j = 0; j < fitted_count; ++j) result[i][j] *= scale[i] * scale[j];
  return result;
}

FittedValues best_values(const std::vector<Dish>& dishes, FittedValues v) {
  std::vector<Dish> copy = dishes;
  for (int round = 0; round < 3; ++round) {  // a simplex may stall; a fresh one goes on from there
    const std::unique_ptr<nlopt_opt_s, decltype(&nlopt_destroy)> search(nlopt_create(NLOPT_LN_SBPLX, fitted_count), &nlopt_destroy);
    const std::array<double, fitted_count> first_steps{0.5, 0.5, 0.5, 0.2, 3.0, 0.3, 0.5, 0.01};
    nlopt_set_min_objective(search.get(), objective, &copy);
    nlopt_set_initial_step(search.get(), first_steps.data());
    nlopt_set_ftol_abs(search.get(), 1e-10);
    nlopt_set_maxeval(search.get(), 20000);
    double least = 0.0;
    if (nlopt_optimize(search.get(), v.data(), &least) < 0 || least >= never)
      throw std::runtime_error("the search for the best germination parameters failed");
  }
  return v;
}

}  // namespace

FittedValues values_of(const Parameters& p, double germinable) {
  return {p.base.value(), p.toe.value(), p.decline.value(), p.ceiling.value(), p.theta, p.fraction_scale.value(), p.shape, germinable};
}

Fit fit(const std::vector<Dish>& dishes, const Parameters& start, double germinable) {
  EXPECTS(dishes.size() >= 4 && germinable > 0.0 && germinable < 1.0);
  const FittedValues v = best_values(dishes, values_of(start, germinable));
  Fit result;
  result.parameters = parameters_of(v);
  result.germinable = v[7];
  result.log_likelihood = -minus_log_likelihood(v, dishes);
  result.scatter = scatter(result.parameters, result.germinable, dishes);
  result.covariance = inverse(information(v, dishes));
  for (std::size_t i = 0; i < fitted_count; ++i) {
    for (double& entry : result.covariance[i]) entry *= result.scatter.inflation;
    result.standard_error[i] = std::sqrt(result.covariance[i][i]);
  }
  return result;
}

Median median_at(const Fit& fit, Celsius temperature) {
  const auto days_at = [&](const FittedValues& v) { return in_days(at_constant(parameters_of(v), temperature, Hours(0.0), 1.0).median_time); };
  const FittedValues at = values_of(fit.parameters, fit.germinable);
  FittedValues slope{};
  for (std::size_t i = 0; i < fitted_count; ++i) {
    FittedValues up = at, down = at;
    up[i] += step_of(at[i]);
    down[i] -= step_of(at[i]);
    slope[i] = (days_at(up) - days_at(down)) / (2.0 * step_of(at[i]));
  }
  double variance = 0.0;
  for (std::size_t i = 0; i < fitted_count; ++i)
    for (std::size_t j = 0; j < fitted_count; ++j) variance += slope[i] * slope[j] * fit.covariance[i][j];
  return {days_at(at), std::sqrt(variance)};
}

}  // namespace rackwright::germination
