// Edges and contracts of the samplers; their distributions are tested in tests/reference/random.

#include "sim/random/laws.hpp"

#include <cmath>
#include <stdexcept>

#include "sim/random/beta_gamma.hpp"
#include "sim/random/litter.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

TEST_CASE("degenerate laws give their one value") {
  Stream e({}, Purpose::test);
  CHECK(bernoulli(e, 1.0));
  CHECK_FALSE(bernoulli(e, 0.0));
  CHECK(exponential(e, 0.0) == 0.0);
  CHECK(normal(e, 3.0, 0.0) == 3.0);
  CHECK(poisson(e, 0.0) == 0);
  CHECK(binomial(e, 0, 0.3) == 0);
  CHECK(binomial(e, 5, 1.0) == 5);
  CHECK(beta(e, 0.9, 0.0) == 0.9);
  CHECK(beta(e, 0.0, 0.5) == 0.0);
  CHECK(beta(e, 1.0, 0.5) == 1.0);
  CHECK(uniform(e, 4.0, 4.0) == 4.0);
  CHECK(Litter(1.0, 0.0)(e) == 1);
  CHECK(Litter(3.0, 0.0)(e) == 3);
}

TEST_CASE("nonsense is refused") {
  Stream e({}, Purpose::test);
  CHECK_THROWS_AS(bernoulli(e, 1.1), std::logic_error);
  CHECK_THROWS_AS(exponential(e, -1.0), std::logic_error);
  CHECK_THROWS_AS(normal(e, 0.0, -1.0), std::logic_error);
  CHECK_THROWS_AS(gamma(e, 0.0), std::logic_error);
  CHECK_THROWS_AS(beta(e, 0.5, 1.0), std::logic_error);
  CHECK_THROWS_AS(beta(e, std::nan(""), 0.1), std::logic_error);
  CHECK_THROWS_AS(Litter(0.9, 0.1), std::logic_error);
  CHECK_THROWS_AS(Litter(2.0, -0.1), std::logic_error);
}

TEST_CASE("tiny shapes neither overflow nor leave the interval") {
  Stream e(make_key(1, 1), Purpose::test);
  for (int i = 0; i < 10000; ++i) {
    const double x = beta(e, 0.5, 0.999);  // shapes of 0.0005
    CHECK((x >= 0.0 && x <= 1.0));
    CHECK(std::isfinite(gamma(e, 1e-4)));
  }
}
