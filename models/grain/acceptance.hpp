#pragma once
// A keeper's rule for a new lot: lay out so many kernels, keep the lot if enough sprout. See docs/models/lot.md.

#include "models/grain/lot.hpp"

namespace rackwright::grain {

/// So many kernels of each new lot, in trays of a hundred; the lot is kept when at least that share of them sprouts.
struct TrialRule {
  int kernels = 100;
  double least = 0.8;   ///< [1]
};

/// Fewest kernels that must sprout.
int least_sprouted(const TrialRule& rule);

/// Trays of `tray` kernels that scatter by rho, `kernels` in all, are taken as one tray with this smaller over-dispersion: the
/// variance of the sum is the same.
double pooled_scatter(int kernels, double rho, int tray = 100);

/// Chance that a lot with germinable fraction `fraction` in [0, 1] passes, trays scattering by rho in [0, 1): the upper tail of
/// the beta-binomial, exact but for rounding.
double chance_kept(double fraction, const TrialRule& rule, double tray_rho);

/// Germinable fraction that a share in (0, 1) of a grade's lots lie below, by the beta law of the grade; its mean where lots do not differ.
double lot_quantile(const Grade& grade, double share);

/// What the rule makes of the lots of a grade.
struct Sieve {
  double kept = 1.0;        ///< share of lots that pass [1]
  double mean = 0.0;        ///< germinable fraction of those kept, mean [1]; of all where none is kept
  double refused = 0.0;     ///< of those refused, mean [1]; of all where none is refused
};
/// Over the beta law of a grade, by its quantiles: Gauss-Legendre in panels that narrow towards the worst and the best lots.
Sieve sieve(const Grade& grade, const TrialRule& rule);

}  // namespace rackwright::grain
