#pragma once
// What a purchase of grain is, and what a germination trial says of it.

#include "models/base/quantity.hpp"

namespace rackwright::grain {

/// The law of a grade: what a lot of it may turn out to be.
struct Grade {
  double germination_mean = 0.92;   ///< mean germinable fraction at the best temperature [1]
  double germination_rho = 0.01;    ///< between-lot over-dispersion of the beta law [1]
  double vigour_sd = 0.15;          ///< sd of log vigour between lots; vigour 1 is usual speed
  double vigour_correlation = 0.3;  ///< of vigour with germination; the two are not the same thing
  double tray_rho = 0.01;           ///< between-tray over-dispersion inside a lot (beta-binomial) [1]
  double inoculum = 1.0;            ///< mould spores brought in, relative to a usual clean feed lot [1]
};

/// One purchase, as it is at delivery.
struct Lot {
  double germinable = 0.92;  ///< fraction at the best temperature [1]
  double vigour = 1.0;       ///< multiplies germination rate [1]
  double inoculum = 1.0;     ///< relative [1]
};

/// Largest range between replicates of 100 that chance allows (7 CFR 201.55). mean in %, replicates 2 or 4.
/// Returns a negative number where the table has no row.
double tolerated_range(double mean_percent, int replicates);

/// Posterior of a germination trial: mean and 95 % limits, as fractions.
struct TrialPosterior { double mean, low, high; };

/// Beta-binomial conjugate posterior with a Beta(prior_germinated, prior_failed) prior. Counts non-negative, sown > 0.
TrialPosterior trial_posterior(int germinated, int sown, double prior_germinated, double prior_failed);

}  // namespace rackwright::grain
