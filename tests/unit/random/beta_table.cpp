#include "sim/random/beta_table.hpp"

#include <algorithm>
#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <vector>

#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

TEST_CASE("the beta table is the exact quantile function to its stated error, near both ends too") {
  // Exact: Boost.Math.
  const boost::math::normal unit;
  struct Case { double rho, within; };
  for (const auto& [rho, within] : {Case{0.002, 2e-3}, Case{0.01, 2e-3}, Case{0.02, 2e-3}, Case{0.05, 2e-3}, Case{0.2, 9e-3}, Case{0.5, 0.035}}) {
    const BetaTable table(rho);
    for (const double mean : {1e-5, 3e-4, 0.001, 0.05, 0.31, 0.5, 0.777, 0.91, 0.93, 0.985, 0.995, 0.997, 0.999, 0.9999, 1.0 - 1e-5}) {
      const double both = 1.0 / rho - 1.0;
      const boost::math::beta_distribution<> exact(mean * both, (1.0 - mean) * both);
      for (double z = -4.0; z <= 4.0; z += 0.13) {
        INFO("rho " << rho << " mean " << mean << " z " << z);
        CHECK(std::abs(table(mean, z) - quantile(exact, cdf(unit, z))) <= within);
      }
    }
  }
}

TEST_CASE("trays of a lot that nearly all sprouts, or nearly none, scatter as the beta law says") {
  // Its variance, rho p (1 - p), over the middles of 20,000 equal shares of the normal law; within 1.5 %: what straight lines between tabulated values add.
  const boost::math::normal unit;
  constexpr int n = 20000;
  const BetaTable table(0.01);
  for (const double mean : {0.0005, 0.002, 0.98, 0.997, 0.999, 0.9995}) {
    INFO(mean);
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < n; ++i) {
      const double off = table(mean, quantile(unit, (i + 0.5) / n)) - mean;
      sum += off, squares += off * off;
    }
    CHECK(std::abs(sum / n) < 1e-4);
    CHECK(std::sqrt(squares / n) == Approx(std::sqrt(0.01 * mean * (1.0 - mean))).epsilon(0.015));
  }
}

TEST_CASE("the beta table keeps the ends and follows the mean") {
  const BetaTable table(0.02);
  CHECK(table(0.0, 3.0) == 0.0);
  CHECK(table(1.0, -3.0) == 1.0);
  CHECK(table(0.9, -9.0) == table(0.9, -5.0));
  CHECK(BetaTable(0.0)(0.37, 2.5) == Approx(0.37));
  CHECK(table(0.25, 1.3) == Approx(1.0 - table(0.75, -1.3)).epsilon(1e-12));
  CHECK(table(0.5, 0.8) == Approx(1.0 - table(0.5, -0.8)).epsilon(1e-6));
  for (double mean = 0.01; mean < 0.99; mean += 0.01) CHECK(table(mean + 0.01, 0.7) > table(mean, 0.7));
}

TEST_CASE("variates have the beta's mean and variance") {
  // 200,000 draws; |z| < 4.5 on mean and variance: false alarms below 2 in 100,000 (fixed seed).
  constexpr int n = 200000;
  const double mean = 0.92, rho = 0.01, variance = rho * mean * (1.0 - mean);
  const BetaTable table(rho);
  Stream stream(make_key(5, 5), Purpose::test);
  double sum = 0.0, squares = 0.0;
  for (int i = 0; i < n; ++i) {
    const double x = table(mean, normal(stream));
    sum += x - mean;
    squares += (x - mean) * (x - mean);
  }
  CHECK(std::abs(sum / n) < 4.5 * std::sqrt(variance / n) + 1e-4);
  CHECK(squares / n == Approx(variance).epsilon(4.5 * std::sqrt(2.2 / n) + 0.01));
}
