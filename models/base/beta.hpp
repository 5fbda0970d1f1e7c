#pragma once
// Quantiles of the beta law, however narrow.

namespace rackwright {

/// What a share `below` in (0, 1) of a Beta(a, b) law lies below, in [0, 1]; a, b > 0. From a + b of 1e7 on, where the inverse's series do
/// not always come to an end, by the law that it comes to: a gamma's at the end where a or b is below 1e4, else a normal's with a
/// term for its skewness (Cornish & Fisher 1938, Rev. Inst. Int. Stat. 5:307); within 3e-8 of it for shares from 1e-6 to 1 - 1e-6, tested.
double beta_quantile(double a, double b, double below);

}  // namespace rackwright
