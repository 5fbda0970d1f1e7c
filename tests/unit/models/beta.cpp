// Quantiles of the beta law.

#include "models/base/beta.hpp"

#include <cmath>

#include <boost/math/distributions/beta.hpp>

#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("quantiles of a beta law are those of a general library, and of a narrow one nearly so") {
  for (const double share : {0.001, 0.3, 0.5, 0.975}) {
    CHECK(beta_quantile(8.0, 2.0, share) == boost::math::quantile(boost::math::beta_distribution<>(8.0, 2.0), share));
    // Beyond the width at which the normal law takes over, where the library still answers (Boost.Math).
    CHECK(beta_quantile(8.6e6, 1.4e6, share) == Approx(boost::math::quantile(boost::math::beta_distribution<>(8.6e6, 1.4e6), share)).margin(1e-7));
  }
}

TEST_CASE("a law as narrow as numbers can tell has its mean for all its quantiles") {
  for (const double both : {1e9, 1e15, 1e22, 1e300})
    for (const double share : {1e-9, 0.5, 1.0 - 1e-9}) {
      const double value = beta_quantile(0.86 * both, 0.14 * both, share);
      CHECK(value == Approx(0.86).margin(10.0 / std::sqrt(both)));
      CHECK((value >= 0.0 && value <= 1.0));
    }
}
