#pragma once
// Quantiles of the beta law, however narrow.

namespace rackwright {

/// What a share `below` in (0, 1) of a Beta(a, b) law lies below, in [0, 1]; a, b > 0. From a + b of 1e7 on the normal law of its mean and variance, which is
/// then within 1e-7 of it: the inverse's series do not always come to an end there.
double beta_quantile(double a, double b, double below);

}  // namespace rackwright
