// Samplers against the distribution functions of Boost.Math, by one Kolmogorov-Smirnov (continuous) or chi-square
// (discrete) test each, at level 1e-4 with a fixed seed: with another seed, right samplers fail one of the tests below
// (28) about once in 350 runs.

#include "sim/random/laws.hpp"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/exponential.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/poisson.hpp>
#include <boost/math/distributions/uniform.hpp>
#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/random/beta_gamma.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

namespace {

constexpr int draws = 200000;
std::uint32_t entity = 0;  // each test case begins at its own, so that it draws the same alone and after others

// Largest distance between the sample's distribution function and the law's; P(D sqrt(n) > x) is near 2 exp(-2 x^2)
// (Kolmogorov), so x = 2.2252 at 1e-4.
template <class Law, class Draw>
void follows(const char* what, const Law& law, Draw draw) {
  Stream engine(make_key(31, 0), Purpose::test, ++entity);
  std::vector<double> x(draws);
  for (double& v : x) v = draw(engine);
  std::sort(x.begin(), x.end());
  double distance = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double f = cdf(law, x[i]);
    distance = std::max({distance, f - static_cast<double>(i) / draws, static_cast<double>(i + 1) / draws - f});
  }
  INFO(what << ": D sqrt(n) = " << distance * std::sqrt(draws));
  CHECK(distance * std::sqrt(draws) < 2.2252);
}

// Chi-square over values with an expected count of 20 or more, the rest lumped at both ends.
template <class Law, class Draw>
void counts_follow(const char* what, const Law& law, Draw draw) {
  Stream engine(make_key(32, 0), Purpose::test, ++entity);
  std::vector<int> count(2000);
  for (int i = 0; i < draws; ++i) ++count.at(static_cast<std::size_t>(draw(engine)));
  double statistic = 0.0, expected = 0.0, found = 0.0, left = draws, unseen = draws;
  int cells = 0;
  const auto close = [&] {
    statistic += (found - expected) * (found - expected) / expected;
    left -= expected;
    unseen -= found;
    expected = found = 0.0;
    ++cells;
  };
  for (std::size_t k = 0; k < count.size() && left - expected >= 20.0; ++k) {
    expected += draws * pdf(law, static_cast<double>(k));
    found += count[k];
    if (expected >= 20.0 && left - expected >= 20.0) close();
  }
  expected = left;
  found = unseen;
  close();
  INFO(what << ": chi-square " << statistic << " in " << cells << " cells");
  REQUIRE(cells >= 2);
  CHECK(statistic < quantile(complement(boost::math::chi_squared(cells - 1), 1e-4)));
}

}  // namespace

TEST_CASE("elementary laws") {
  entity = 0;
  follows("uniform", boost::math::uniform(0, 1), [](auto& e) { return uniform01(e); });
  follows("uniform 2 to 5", boost::math::uniform(2, 5), [](auto& e) { return uniform(e, 2.0, 5.0); });
  follows("exponential", boost::math::exponential(1.0 / 3.0), [](auto& e) { return exponential(e, 3.0); });
  follows("normal", boost::math::normal(2.0, 5.0), [](auto& e) { return normal(e, 2.0, 5.0); });
  counts_follow("bernoulli", boost::math::binomial(1, 0.3), [](auto& e) { return bernoulli(e, 0.3); });
  for (const double mean : {0.05, 1.7, 9.9, 10.1, 120.0})
    counts_follow("poisson", boost::math::poisson(mean), [mean](auto& e) { return poisson(e, mean); });
  counts_follow("binomial", boost::math::binomial(12, 0.35), [](auto& e) { return binomial(e, 12, 0.35); });
  counts_follow("binomial", boost::math::binomial(400, 0.93), [](auto& e) { return binomial(e, 400, 0.93); });
}

TEST_CASE("gamma by Marsaglia and Tsang") {
  entity = 100;
  for (const double shape : {0.05, 0.5, 0.999, 1.0, 1.001, 2.5, 30.0, 4000.0})
    follows("gamma", boost::math::gamma_distribution<>(shape, 2.0), [shape](auto& e) { return gamma(e, shape, 2.0); });
}

TEST_CASE("beta by mean and over-dispersion") {
  entity = 200;
  const std::pair<double, double> rows[] = {{0.9, 0.005}, {0.9, 0.1}, {0.5, 1.0 / 3.0}, {0.2, 0.6}, {0.97, 0.02}};
  for (const auto& [mean, rho] : rows) {
    const double both = 1.0 / rho - 1.0;
    INFO("mean " << mean << ", rho " << rho);
    follows("beta", boost::math::beta_distribution<>(mean * both, (1.0 - mean) * both),
            [m = mean, r = rho](auto& e) { return beta(e, m, r); });
  }
}

TEST_CASE("n grains under a beta are over-dispersed as rho says") {
  // Var(k) = n p q (1 + (n - 1) rho): the beta-binomial, e.g. Crowder 1978, Applied Statistics 27:34-37. Both bounds
  // are 3.89 standard errors (1e-4), that of the variance from the sample's fourth moment.
  Stream e(make_key(33, 0), Purpose::test);
  const int n = 100;
  const double p = 0.9, rho = 0.02;
  double sum = 0.0, second = 0.0, fourth = 0.0;
  for (int i = 0; i < draws; ++i) {
    const double off = binomial(e, n, beta(e, p, rho)) - n * p;
    sum += off;
    second += off * off;
    fourth += off * off * off * off;
  }
  const double variance = second / draws, expected = n * p * (1.0 - p) * (1.0 + (n - 1) * rho);
  CHECK(std::abs(sum / draws) < 3.89 * std::sqrt(variance / draws));
  CHECK(std::abs(variance - expected) < 3.89 * std::sqrt((fourth / draws - variance * variance) / draws));
  CHECK(std::sqrt((fourth / draws - variance * variance) / draws) < 0.01 * expected);
}
