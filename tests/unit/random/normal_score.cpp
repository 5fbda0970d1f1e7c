#include "sim/random/normal_score.hpp"

#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <cstdint>
#include <initializer_list>

#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

namespace {

// The exact score of a draw.
double exact(std::uint64_t draw) {
  const double tail = (static_cast<double>(draw >> 11U) + 0.5) * 0x1p-54;
  const double upper = boost::math::quantile(boost::math::complement(boost::math::normal(), tail));
  return (draw & 1U) != 0 ? -upper : upper;
}

}  // namespace

TEST_CASE("tabulated normal scores are the quantiles of their draws within 1e-8") {
  const NormalScore& score = NormalScore::table();
  Stream luck(make_key(1, 0), Purpose::test);
  double worst = 0.0;
  for (int i = 0; i < 40000; ++i) {
    const std::uint64_t draw = luck() >> (i % 53);  // far tails as often as the middle
    worst = std::max(worst, std::abs(score(draw) - exact(draw)));
  }
  CHECK(worst < 1e-8);
  CHECK(score(~std::uint64_t{0}) == near(0.0, 1e-12));
  CHECK(score(0) == near(exact(0), 1e-8));
  CHECK(score(0) == near(8.374, 1e-3));
}

TEST_CASE("scores of both halves differ by their sign alone") {
  const NormalScore& score = NormalScore::table();
  for (const std::uint64_t draw : std::initializer_list<std::uint64_t>{0x123456789abcdef0U, 0xfedcba9876543210U, 0x10U}) CHECK(score(draw) == -score(draw | 1U));
}

// Four moments of 200,000 draws; each bound is 4.5 standard errors, false-alarm rate 3e-5 in all.
TEST_CASE("scores of a stream have the moments of the normal") {
  const NormalScore& score = NormalScore::table();
  Stream luck(make_key(2, 0), Purpose::test);
  constexpr int n = 200'000;
  double m1 = 0.0, m2 = 0.0, m3 = 0.0, m4 = 0.0;
  for (int i = 0; i < n; ++i) {
    const double z = score(luck());
    m1 += z / n;
    m2 += z * z / n;
    m3 += z * z * z / n;
    m4 += z * z * z * z / n;
  }
  const double error = 4.5 / std::sqrt(static_cast<double>(n));
  CHECK(std::abs(m1) < error);
  CHECK(std::abs(m2 - 1.0) < error * std::sqrt(2.0));
  CHECK(std::abs(m3) < error * std::sqrt(15.0));
  CHECK(std::abs(m4 - 3.0) < error * std::sqrt(96.0));
}
