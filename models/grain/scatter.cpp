#include "models/grain/scatter.hpp"

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"

namespace rackwright::grain {
namespace {

using boost::math::lgamma;

double log_choose(int n, int k) { return lgamma(n + 1.0) - lgamma(k + 1.0) - lgamma(n - k + 1.0); }

// ln of a (a + step)(a + 2 step)...: the rising product of which both laws are made; finite at step 0, where it is a power.
double log_rising(double a, double step, int count) {
  double sum = 0.0;
  for (int i = 0; i < count; ++i) sum += std::log(a + step * i);
  return sum;
}

constexpr int digits = 40;  // of a double's 53 bits: a minimum is not known any better

// Best mean for a rho, on the logit scale; the log-likelihood has one peak there.
double best_mean(const std::vector<Count>& counts, double rho) {
  const auto minus = [&](double logit) { return -beta_binomial_log_likelihood(counts, 1.0 / (1.0 + std::exp(-logit)), rho); };
  return 1.0 / (1.0 + std::exp(-boost::math::tools::brent_find_minima(minus, -15.0, 15.0, digits).first));
}

}  // namespace

double beta_binomial_log_likelihood(const std::vector<Count>& counts, double mean, double rho) {
  EXPECTS(mean > 0.0 && mean < 1.0 && rho >= 0.0 && rho < 1.0);
  const double step = rho / (1.0 - rho);
  double sum = 0.0;
  for (const Count& count : counts) {
    EXPECTS(count.germinated >= 0 && count.germinated <= count.sown);
    sum += log_choose(count.sown, count.germinated) + log_rising(mean, step, count.germinated) +
           log_rising(1.0 - mean, step, count.sown - count.germinated) - log_rising(1.0, step, count.sown);
  }
  return sum;
}

ScatterFit fit_scatter(const std::vector<Count>& counts) {
  int germinated = 0, sown = 0;
  for (const Count& count : counts) {
    germinated += count.germinated;
    sown += count.sown;
  }
  EXPECTS(counts.size() >= 2 && germinated > 0 && germinated < sown);
  // The profile of rho, on the log scale from nothing worth telling to nearly all.
  const auto minus = [&](double log_rho) {
    const double rho = std::exp(log_rho);
    return -beta_binomial_log_likelihood(counts, best_mean(counts, rho), rho);
  };
  const double rho = std::exp(boost::math::tools::brent_find_minima(minus, std::log(1e-7), std::log(0.999), digits).first);
  ScatterFit fit;
  fit.at_zero = rho < 1e-5;
  fit.rho = fit.at_zero ? 0.0 : rho;
  fit.mean = best_mean(counts, fit.rho);
  fit.log_likelihood = beta_binomial_log_likelihood(counts, fit.mean, fit.rho);
  fit.rho_error = std::numeric_limits<double>::quiet_NaN();
  fit.mean_error = std::sqrt(fit.mean * (1.0 - fit.mean) / sown);
  if (fit.at_zero) return fit;
  const double m = 1e-4 * std::min(fit.mean, 1.0 - fit.mean), r = 1e-3 * fit.rho;
  const auto at = [&](double a, double b) { return -beta_binomial_log_likelihood(counts, fit.mean + a * m, fit.rho + b * r); };
  const double mm = (at(1, 0) - 2.0 * at(0, 0) + at(-1, 0)) / (m * m), rr = (at(0, 1) - 2.0 * at(0, 0) + at(0, -1)) / (r * r);
  const double mr = (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4.0 * m * r), determinant = mm * rr - mr * mr;
  fit.mean_error = std::sqrt(rr / determinant);
  fit.rho_error = std::sqrt(mm / determinant);
  return fit;
}

}  // namespace rackwright::grain
