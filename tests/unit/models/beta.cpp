// Quantiles of the beta law.

#include "models/base/beta.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/special_functions/beta.hpp>

#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("quantiles of a beta law are those of a general library") {
  for (const double share : {0.001, 0.3, 0.5, 0.975}) {
    CHECK(beta_quantile(8.0, 2.0, share) == boost::math::quantile(boost::math::beta_distribution<>(8.0, 2.0), share));
  }
}

TEST_CASE("a narrow law's quantiles are within what is stated of those a general library's distribution function tells, lopsided or not") {
  // Boost.Math's distribution function answers where its inverse does not always.
  constexpr double stated = 3e-8;
  for (const double both : {1e7, 3e8, 1e10})
    for (const double mean : {1e-7, 1e-5, 9e-4, 0.0011, 0.14, 0.5, 0.86, 0.999, 0.9995, 1.0 - 1e-5, 1.0 - 1e-7}) {
      const double a = mean * both, b = (1.0 - mean) * both;
      for (const double share : {1e-6, 0.001, 0.3, 0.5, 0.975, 1.0 - 1e-6}) {
        const double value = beta_quantile(a, b, share);
        INFO(both << " " << mean << " " << share << ": " << value);
        CHECK(boost::math::ibeta(a, b, std::max(0.0, value - stated)) <= share);
        CHECK(boost::math::ibeta(a, b, std::min(1.0, value + stated)) >= share);
      }
    }
}

TEST_CASE("a law as narrow as numbers can tell has its mean for all its quantiles") {
  for (const double both : {1e9, 1e15, 1e22, 1e300})
    for (const double share : {1e-9, 0.5, 1.0 - 1e-9}) {
      const double value = beta_quantile(0.86 * both, 0.14 * both, share);
      CHECK(value == near(0.86, 10.0 / std::sqrt(both) + 2e-16));  // and the rounding of a / (a + b)
      CHECK((value >= 0.0 && value <= 1.0));
    }
}
