// Grades, harvests and the rule for a new lot.

#include <cmath>

#include "models/grain/acceptance.hpp"
#include "models/grain/grades.hpp"
#include "models/grain/trial.hpp"
#include "tests/catch.hpp"

using namespace rackwright::grain;

TEST_CASE("own grade is the standard law at the grain's price, and names go both ways") {
  const GradeTerms own = terms_of(GradeName::own);
  CHECK(own.law.germination_mean == Grade{}.germination_mean);
  CHECK(own.law.germination_rho == Grade{}.germination_rho);
  CHECK(own.price_multiple == 1.0);
  for (std::size_t i = 0; i < grade_names.size(); ++i) CHECK(find_grade(grade_names[i]) == static_cast<GradeName>(i));
  CHECK_FALSE(find_grade("fodder").has_value());
}

TEST_CASE("a better grade germinates better, more evenly, cleaner, and costs more") {
  const GradeTerms feed = terms_of(GradeName::feed), bulk = terms_of(GradeName::bulk), seed = terms_of(GradeName::seed);
  const auto better = [](const GradeTerms& a, const GradeTerms& b) {
    CHECK(a.law.germination_mean > b.law.germination_mean);
    CHECK(a.law.germination_rho < b.law.germination_rho);
    CHECK(a.law.vigour_sd < b.law.vigour_sd);
    CHECK(a.law.inoculum < b.law.inoculum);
    CHECK(a.price_multiple > b.price_multiple);
  };
  better(bulk, feed);
  better(seed, bulk);
  // Grain sold as seed costs 3 to 5 times bulk (common practice, no source).
  CHECK(seed.price_multiple >= 3.0 * bulk.price_multiple);
  CHECK(seed.price_multiple <= 5.0 * bulk.price_multiple);
}

TEST_CASE("what a keeper states stands over the grade, link and tray scatter are the grain's own") {
  Grade as_it_is;
  as_it_is.tray_rho = 0.03;
  as_it_is.vigour_correlation = -0.2;
  StatedGrade stated;
  stated.germination_mean = 0.7;
  stated.price_multiple = 2.0;
  const GradeTerms terms = terms_of(GradeName::seed, stated, as_it_is);
  CHECK(terms.law.germination_mean == 0.7);
  CHECK(terms.price_multiple == 2.0);
  CHECK(terms.law.inoculum == terms_of(GradeName::seed).law.inoculum);
  CHECK(terms.law.tray_rho == 0.03);
  CHECK(terms.law.vigour_correlation == -0.2);
}

TEST_CASE("a harvest moves the mean on the logit") {
  CHECK(harvest_mean(0.9, 0.0, 3.0) == 0.9);
  CHECK(harvest_mean(0.9, 0.5, 0.0) == Approx(0.9).epsilon(1e-14));
  CHECK(std::log(harvest_mean(0.9, 0.5, -1.5) / (1.0 - harvest_mean(0.9, 0.5, -1.5))) == Approx(std::log(9.0) - 0.75).epsilon(1e-12));
  CHECK(harvest_mean(0.999, 3.0, 5.0) < 1.0);
  CHECK(harvest_mean(0.02, 3.0, -5.0) > 0.0);
  const Grade poor = in_harvest(Grade{}, 0.5, -2.0);
  CHECK(poor.germination_mean < Grade{}.germination_mean);
  CHECK(poor.germination_rho == Grade{}.germination_rho);
}

TEST_CASE("the least that must sprout is a share rounded up, but not by rounding errors") {
  CHECK(least_sprouted({50, 0.8}) == 40);
  CHECK(least_sprouted({50, 0.81}) == 41);
  CHECK(least_sprouted({100, 0.07}) == 7);  // 0.07 * 100 is a little more than 7 in binary
  CHECK(least_sprouted({100, 0.0}) == 0);
  CHECK(least_sprouted({100, 1.0}) == 100);
}

TEST_CASE("the chance to pass is the upper tail, and certain at the ends") {
  const TrialRule rule{60, 0.85};
  double sum = 0.0;
  for (int x = 51; x <= 60; ++x) sum += std::exp(log_chance({x, 60}, 0.8, pooled_scatter(60, 0.02)));
  CHECK(chance_kept(0.8, rule, 0.02) == Approx(sum).epsilon(1e-12));
  CHECK(chance_kept(0.0, rule, 0.02) == 0.0);
  CHECK(chance_kept(1.0, rule, 0.02) == 1.0);
  CHECK(chance_kept(0.3, {60, 0.0}, 0.02) == 1.0);
  // One that must sprout: all but the chance of none.
  CHECK(chance_kept(0.01, {60, 0.01}, 0.02) == Approx(1.0 - std::exp(log_chance({0, 60}, 0.01, pooled_scatter(60, 0.02)))).epsilon(1e-12));
  double before = 0.0;
  for (int i = 1; i < 100; ++i) {
    const double now = chance_kept(i / 100.0, rule, 0.02);
    CHECK(now >= before - 1e-12);
    before = now;
  }
}

TEST_CASE("trays pooled scatter less the more there are, and one tray as it does alone") {
  CHECK(pooled_scatter(100, 0.02) == Approx(0.02));
  CHECK(pooled_scatter(50, 0.02) == Approx(0.02));
  CHECK(pooled_scatter(400, 0.02) == Approx(99.0 * 0.02 / 399.0));
  CHECK(pooled_scatter(1, 0.02) == 0.0);
  // 100 and 50: of all pairs of kernels, those on one tray.
  CHECK(pooled_scatter(150, 0.02) == Approx((100.0 * 99.0 + 50.0 * 49.0) / (150.0 * 149.0) * 0.02));
  CHECK(pooled_scatter(101, 0.02) == Approx(100.0 * 99.0 / (101.0 * 100.0) * 0.02));
}

TEST_CASE("a sieve keeps the better lots, and nothing changes where all pass or none") {
  Grade grade = terms_of(GradeName::feed).law;
  const Sieve some = sieve(grade, {100, 0.8});
  CHECK(some.mean > grade.germination_mean);
  CHECK(some.refused < grade.germination_mean);
  CHECK(some.kept * some.mean + (1.0 - some.kept) * some.refused == near(grade.germination_mean, 0.001));
  const Sieve all = sieve(grade, {100, 0.0});
  CHECK(all.kept == 1.0);
  CHECK(all.mean == near(grade.germination_mean, 0.001));
  CHECK(all.refused == near(grade.germination_mean, 0.001));  // none is: told of all
  grade.germination_mean = 0.3;
  grade.germination_rho = 0.0001;
  const Sieve none = sieve(grade, {400, 0.95});
  CHECK(none.kept == near(0.0, 1e-12));
  CHECK(none.refused == near(0.3, 0.001));
  CHECK(none.mean == near(0.3, 0.001));
}

// Without scatter of trays the sprouted kernels of a lot's trial are beta-binomial, and a lot of x sprouted of n is expected to hold
// (a + x) / (a + b + n): both in closed form (Johnson, Kotz & Kemp 1992, Univariate Discrete Distributions, chapter 6).
TEST_CASE("a sieve of lots from few extremes to all alike is that of the closed form") {
  const struct { double mean, rho; int kernels; double least; } cases[] = {{0.92, 0.01, 100, 0.8}, {0.92, 0.01, 400, 0.85}, {0.90, 0.02, 100, 0.75}, {0.99, 0.3, 100, 0.8},
                                                                           {0.999, 0.1, 100, 0.9}, {0.999, 0.5, 100, 0.8}, {0.02, 0.5, 100, 0.8}, {0.5, 0.9, 50, 0.5}};
  for (const auto& [mean, rho, kernels, least] : cases) {
    INFO(mean << " " << rho << " " << kernels << " " << least);
    Grade grade;
    grade.germination_mean = mean;
    grade.germination_rho = rho;
    grade.tray_rho = 0.0;
    const double a = mean * (1.0 / rho - 1.0), b = (1.0 - mean) * (1.0 / rho - 1.0), n = kernels;
    double kept = 0.0, good = 0.0, bad = 0.0;
    for (int x = 0; x <= kernels; ++x) {
      const double p = std::exp(std::lgamma(n + 1) - std::lgamma(x + 1.0) - std::lgamma(n - x + 1) + std::lgamma(a + x) + std::lgamma(b + n - x) - std::lgamma(a + b + n) +
                                std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b));
      const bool passes = x >= static_cast<int>(std::ceil(least * n - 1e-9));
      (passes ? good : bad) += p * (a + x) / (a + b + n);
      if (passes) kept += p;
    }
    const Sieve found = sieve(grade, {kernels, least});
    CHECK(found.kept == near(kept, 2e-6));
    CHECK(found.mean == near(good / kept, 2e-5));
    CHECK(found.refused == near(bad / (1.0 - kept), 5e-4));
  }
}
