#include "sim/study/fit_readings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <span>

namespace rackwright::study {
namespace {

constexpr double inch = 2.54, pound = 0.45359237;

bool whole_multiples(const std::vector<double>& values, double step) {
  constexpr double nearly = 1e-4;  // of a step: figures that another unit was turned into
  return std::all_of(values.begin(), values.end(), [&](double v) { return std::abs(v / step - std::round(v / step)) < nearly; });
}

ReadColumn column(const std::vector<double>& values, std::span<const double> steps) {
  ReadColumn c;
  c.readings = static_cast<int>(values.size());
  std::map<long long, int> figures;
  constexpr double finest = 1e-4;
  for (const double v : values) {
    const int n = ++figures[std::llround(v / finest)];
    if (n > c.most_alike) c.most_alike = n, c.common = v;
  }
  if (std::none_of(values.begin(), values.end(), [](double v) { return v > 0.0; })) return c;
  for (const double step : steps)
    if (step > c.step && whole_multiples(values, step)) c.step = step;
  return c;
}

// Student's law of 5 degrees of freedom in the angle whose cotangent is t/sqrt(5): density there is sin^4, without its constant.
static_assert(scatter_freedom == 5.0);
double angle_of(double t) { return std::atan2(std::sqrt(5.0), t); }
double density_at(double t) {
  const double x = 1.0 + t * t / 5.0;
  return 1.0 / (x * x * x);
}

/// Integral of the density (that is 1 at 0) from a to b.
double between(double a, double b) {
  if (a + b < 0.0) return between(-b, -a);  // small angles are exact
  const double from = angle_of(b), to = angle_of(a);
  constexpr double short_arc = 0.3;  // rounding would eat the difference of two integrals from 0
  double sum = 0.0;
  if (to - from > short_arc) {
    const auto whole = [](double x) { return 0.375 * x - 0.25 * std::sin(2.0 * x) + std::sin(4.0 * x) / 32.0; };
    sum = whole(to) - whole(from);
  } else {  // Gauss's rule of five points
    constexpr std::array<double, 3> at{0.0, 0.5384693101056831, 0.9061798459386640}, weight{0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
    const double middle = 0.5 * (from + to), half = 0.5 * (to - from);
    const auto sin4 = [](double x) { const double s = std::sin(x); return s * s * s * s; };
    sum = weight[0] * sin4(middle);
    for (std::size_t i = 1; i < at.size(); ++i) sum += weight[i] * (sin4(middle - half * at[i]) + sin4(middle + half * at[i]));
    sum *= half;
  }
  return std::sqrt(5.0) * sum;
}

/// What a reading between a and b (in scales) adds to the slopes, without the scale.
struct Slopes { double by_place, by_scale; };
Slopes slopes_of(double a, double b, double share) {
  const double low = density_at(a), high = density_at(b);
  return {(high - low) / share, (b * high - a * low) / share};
}

/// Squares of those to be expected of readings on a grid so wide, of which one edge is at `edge`.
Slopes expected_squares(double edge, double width) {
  constexpr double far = 10.0;
  const double all = between(-1e6, 1e6);
  Slopes sum{0.0, 0.0};
  const double first = edge - width * std::ceil((edge + far) / width);
  const auto steps = static_cast<long>(std::ceil((far - first) / width));
  for (long step = 0; step < steps; ++step) {
    const double a = first + width * static_cast<double>(step);
    const double share = between(a, a + width);
    const Slopes s = slopes_of(a, a + width, share);
    sum.by_place += share / all * s.by_place * s.by_place;
    sum.by_scale += share / all * s.by_scale * s.by_scale;
  }
  return sum;
}

}  // namespace

bool ReadColumn::by_rote() const {
  constexpr int fewest = 5;
  constexpr double nearly_all = 0.9;  // assumed
  return readings >= fewest && most_alike >= nearly_all * readings;
}

ReadColumn column_of_weights(const std::vector<double>& kilograms) {
  static constexpr std::array steps{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 2.5, 5.0, 0.01 * pound, pound / 16.0, 0.1 * pound,
                                    0.125 * pound, 0.25 * pound, 0.5 * pound, pound, 2.0 * pound, 5.0 * pound};
  return column(kilograms, steps);
}

ReadColumn column_of_heights(const std::vector<double>& centimetres) {
  static constexpr std::array steps{0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 2.5, 5.0, 10.0, inch / 16.0, 0.1 * inch, 0.125 * inch, 0.25 * inch, 0.5 * inch, inch,
                                    2.0 * inch, 5.0 * inch};
  return column(centimetres, steps);
}

ReadSpan span_of(double value, double step, double plus) {
  if (!(step > 0.0)) return {};
  constexpr double bottomless = 20.0;  // where the reading may be nothing at all
  const double here = value + plus, low = value - 0.5 * step;
  return {low > 0.0 ? std::log(here / (low + plus)) : bottomless, std::log((here + 0.5 * step) / here)};
}

Miss student(double miss, double scale, ReadSpan span, bool curved) {
  constexpr double nu = scatter_freedom, fine = 1e-3, coarse = 0.5;  // widths in scales
  const double width = span.down + span.up;
  if (width < fine * scale) {
    const double square = miss * miss, weight = (nu + 1.0) / (nu * scale * scale + square);
    return {std::log(scale) + 0.5 * (nu + 1.0) * std::log1p(square / (nu * scale * scale)), -weight * miss, (nu + 1.0) / ((nu + 3.0) * scale * scale),
            1.0 - weight * square, 2.0 * nu / (nu + 3.0)};
  }
  const double a = (miss - span.down) / scale, b = (miss + span.up) / scale;
  const double share = between(a, b);
  const Slopes s = slopes_of(a, b, share);
  Miss m{-std::log(share / width), s.by_place / scale, 0.0, s.by_scale, 0.0};
  if (!curved) return m;
  if (width < coarse * scale) {  // as if the width were scatter of its own
    const double both = scale * scale + width * width / 12.0, own = scale * scale / both;
    m.curvature = (nu + 1.0) / ((nu + 3.0) * both);
    m.scale_curvature = 2.0 * nu / (nu + 3.0) * own * own;
    return m;
  }
  const Slopes squares = expected_squares(a, width / scale);
  m.curvature = squares.by_place / (scale * scale);
  m.scale_curvature = squares.by_scale;
  return m;
}

}  // namespace rackwright::study
