// Means with their standard errors, plain and by regression on controls.
#include <array>
#include <cmath>
#include <tuple>

#include "sim/kernel/estimate.hpp"
#include "tests/catch.hpp"

using namespace rackwright::kernel;

namespace {

constexpr std::array<double, 6> noise{0.3, -0.2, 0.5, -0.4, 0.1, -0.6};
constexpr std::array<double, 6> one{1.0, -1.0, 2.0, 0.5, -2.0, 0.3}, other{0.2, 0.7, -0.4, 1.0, -0.9, -1.1};

Estimate fitted(double intercept, double by_one, double by_other, double scatter, bool with_one, bool with_other) {
  ControlledAverager all;
  for (std::size_t i = 0; i < noise.size(); ++i)
    all.add(intercept + by_one * one[i] + by_other * other[i] + scatter * noise[i], with_one ? one[i] : 0.0, with_other ? other[i] : 0.0);
  CHECK(all.count() == 6);
  return all.estimate();
}

// Ordinary least squares of noise on 1, one and other by Cramer's rule: the intercept and its standard error.
Estimate by_cramer() {
  std::array<std::array<double, 3>, 3> m{};
  std::array<double, 3> y{};
  double squares = 0.0;
  for (std::size_t i = 0; i < noise.size(); ++i) {
    const std::array<double, 3> x{1.0, one[i], other[i]};
    for (std::size_t r = 0; r < 3; ++r) {
      for (std::size_t c = 0; c < 3; ++c) m[r][c] += x[r] * x[c];
      y[r] += x[r] * noise[i];
    }
    squares += noise[i] * noise[i];
  }
  const auto determinant = [](const std::array<std::array<double, 3>, 3>& a) {
    return a[0][0] * (a[1][1] * a[2][2] - a[1][2] * a[2][1]) - a[0][1] * (a[1][0] * a[2][2] - a[1][2] * a[2][0]) +
           a[0][2] * (a[1][0] * a[2][1] - a[1][1] * a[2][0]);
  };
  std::array<double, 3> b{};
  for (std::size_t k = 0; k < 3; ++k) {
    auto with = m;
    for (std::size_t r = 0; r < 3; ++r) with[r][k] = y[r];
    b[k] = determinant(with) / determinant(m);
  }
  const double left = squares - b[0] * y[0] - b[1] * y[1] - b[2] * y[2];
  const double inverse = (m[1][1] * m[2][2] - m[1][2] * m[2][1]) / determinant(m);
  return {b[0], std::sqrt(left / 3.0 * inverse)};
}

}  // namespace

TEST_CASE("a mean and its standard error") {
  Averager a;
  for (const double x : {2.0, 4.0, 9.0}) a.add(x);
  CHECK(a.count() == 3);
  CHECK(a.variance() == Approx(13.0));
  CHECK(a.estimate().mean == Approx(5.0));
  CHECK(a.estimate().standard_error == Approx(std::sqrt(13.0 / 3.0)));
}

TEST_CASE("what controls explain is taken off, whichever of them varies") {
  for (const auto& [by_one, by_other, with_one, with_other] :
       {std::tuple{2.0, 0.0, true, false}, std::tuple{0.0, -3.0, false, true}, std::tuple{2.0, -3.0, true, true}}) {
    const Estimate e = fitted(10.0, by_one, by_other, 0.0, with_one, with_other);
    INFO(by_one << " " << by_other);
    CHECK(e.mean == Approx(10.0));
    CHECK(e.standard_error == near(0.0, 1e-7));
  }
}

TEST_CASE("what controls leave is the error of least squares") {
  const Estimate two = fitted(0.0, 0.0, 0.0, 1.0, true, true), wanted = by_cramer();
  CHECK(two.mean == Approx(wanted.mean));
  CHECK(two.standard_error == Approx(wanted.standard_error));
  // One control: the line's intercept at nought, written out.
  double mean_x = 0.0, mean_y = 0.0, xx = 0.0, xy = 0.0, yy = 0.0;
  for (std::size_t i = 0; i < noise.size(); ++i) mean_x += one[i] / 6.0, mean_y += noise[i] / 6.0;
  for (std::size_t i = 0; i < noise.size(); ++i) {
    xx += (one[i] - mean_x) * (one[i] - mean_x);
    xy += (one[i] - mean_x) * (noise[i] - mean_y);
    yy += (noise[i] - mean_y) * (noise[i] - mean_y);
  }
  const Estimate single = fitted(0.0, 0.0, 0.0, 1.0, true, false);
  CHECK(single.mean == Approx(mean_y - xy / xx * mean_x));
  CHECK(single.standard_error == Approx(std::sqrt((yy - xy * xy / xx) / 4.0 * (1.0 / 6.0 + mean_x * mean_x / xx))));
  // None: the plain mean's.
  Averager plain;
  for (const double x : noise) plain.add(x);
  const Estimate none = fitted(0.0, 0.0, 0.0, 1.0, false, false);
  CHECK(none.mean == Approx(plain.estimate().mean));
  CHECK(none.standard_error == Approx(plain.estimate().standard_error));
}

TEST_CASE("two controls that are one count once") {
  ControlledAverager twice, once;
  for (std::size_t i = 0; i < noise.size(); ++i) {
    twice.add(noise[i], one[i], 2.0 * one[i]);
    once.add(noise[i], one[i], 0.0);
  }
  CHECK(twice.estimate().mean == Approx(once.estimate().mean));
  CHECK(twice.estimate().standard_error == Approx(once.estimate().standard_error));
}
