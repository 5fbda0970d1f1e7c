// Cholesky's triangle, the inverse from it, and what is refused.
#include <cmath>

#include "models/base/symmetric.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("a triangle multiplies back to its matrix, and its inverse to one") {
  constexpr std::size_t n = 7;
  Matrix m(n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) m(i, j) = 1.0 / (1.0 + static_cast<double>(i + j)) + (i == j ? 0.01 : 0.0);  // Hilbert's, eased
  const auto lower = cholesky(m);
  REQUIRE(lower);
  const Matrix inverse = inverse_of(*lower);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      double back = 0.0, one = 0.0;
      for (std::size_t k = 0; k < n; ++k) {
        back += (*lower)(i, k) * (*lower)(j, k);
        one += m(i, k) * inverse(k, j);
      }
      CHECK(back == Approx(m(i, j)).epsilon(1e-13));
      CHECK(one == near(i == j ? 1.0 : 0.0, 1e-10));
    }
  }
}

TEST_CASE("the triangle of a two by two correlation") {
  Matrix m = Matrix::identity(2);
  m(0, 1) = m(1, 0) = 0.6;
  const auto lower = cholesky(m);
  REQUIRE(lower);
  CHECK((*lower)(1, 0) == Approx(0.6));
  CHECK((*lower)(1, 1) == Approx(0.8));
  CHECK(times(*lower, {1.0, 2.0}) == std::vector<double>{1.0, 0.6 + 2.0 * (*lower)(1, 1)});
  CHECK(times(*lower, solve_lower(*lower, {3.0, -1.0})) == std::vector<double>{3.0, -1.0});
  const auto up = solve_upper(*lower, {3.0, -1.0});
  CHECK(up[1] * (*lower)(1, 1) == Approx(-1.0));
  CHECK(up[0] + 0.6 * up[1] == Approx(3.0));
  m(0, 1) = m(1, 0) = 1.0;
  CHECK_FALSE(cholesky(m));
  m(0, 1) = m(1, 0) = 1.2;
  CHECK_FALSE(cholesky(m));
}
