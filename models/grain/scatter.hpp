#pragma once
// How trays of one lot, or lots of one grade, scatter: counts under a beta law of the fraction (beta-binomial).

#include <vector>

namespace rackwright::grain {

/// Kernels that germinated of those sown on one tray, plate or replicate.
struct Count { int germinated = 0, sown = 0; };

/// Log-likelihood of counts whose fraction has mean `mean` in (0, 1) and over-dispersion `rho` in [0, 1):
/// variance of the fraction = rho mean (1 - mean). With the binomial coefficients; rho 0 is the binomial.
double beta_binomial_log_likelihood(const std::vector<Count>& counts, double mean, double rho);

/// Maximum likelihood of mean and rho, with standard errors by the observed information. `at_zero` says that the counts
/// scatter no more than binomial: rho is then 0 and its standard error not a number.
struct ScatterFit {
  double mean = 0.0, rho = 0.0, mean_error = 0.0, rho_error = 0.0, log_likelihood = 0.0;
  bool at_zero = false;
};
/// Expects two counts or more, and that neither none nor all germinated.
ScatterFit fit_scatter(const std::vector<Count>& counts);

}  // namespace rackwright::grain
