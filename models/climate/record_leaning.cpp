// How the highs and lows of a record lean.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include <boost/math/distributions/normal.hpp>

#include "models/climate/record_strays.hpp"
#include "models/climate/small_fit.hpp"

namespace rackwright::climate {
namespace {

constexpr std::size_t seasons = 12, fewest = 100;  // parts of the year, and days in one
constexpr std::array<double, 11> shares{0.003, 0.01, 0.03, 0.1, 0.25, 0.5, 0.75, 0.9, 0.97, 0.99, 0.997};
using Values = std::array<double, 6>;

const std::array<double, shares.size()>& scores() {
  static const auto all = [] {
    std::array<double, shares.size()> made{};
    for (std::size_t k = 0; k < shares.size(); ++k) made[k] = boost::math::quantile(boost::math::normal(), shares[k]);
    return made;
  }();
  return all;
}

struct Season { double summer = 0.0, half_year = 0.0, weight = 0.0; std::array<double, shares.size()> quantile{}; };
using Year = std::array<Season, seasons>;

Leaning leaning_of(const Values& v) { return {v[0], v[1], v[2], v[3], v[4], v[5]}; }

// What the laws of all seasons miss their quantiles by, the square of it summed; and, where asked, each miss.
double misses(const Year& year, const Values& v, std::vector<double>* each = nullptr) {
  double sum = 0.0;
  if (each) each->clear();
  for (const Season& season : year) {
    const Shape shape = shape_at(leaning_of(v), season.summer, season.half_year);
    for (std::size_t k = 0; k < shares.size(); ++k) {
      const double off = season.weight * (season.quantile[k] - shaped(shape, scores()[k]));
      sum += off * off;
      if (each) each->push_back(off);
    }
  }
  return sum;
}

// Gauss-Newton with shortened steps.
Leaning least_misses(const Year& year) {
  Values v{};
  std::vector<double> now, moved;
  for (int turn = 0; turn < 30; ++turn) {
    const double before = misses(year, v, &now);
    constexpr double nudge = 1e-5;
    std::array<std::vector<double>, 6> slope;
    for (std::size_t j = 0; j < v.size(); ++j) {
      Values other = v;
      other[j] += nudge;
      misses(year, other, &slope[j]);
    }
    SmallFit<6> fit;
    for (std::size_t i = 0; i < now.size(); ++i) {
      Values row{};
      for (std::size_t j = 0; j < row.size(); ++j) row[j] = (now[i] - slope[j][i]) / nudge;
      fit.add(row, now[i]);
    }
    const Values step = fit.solve();
    double length = 1.0, largest = 0.0;
    Values next = v;
    do {
      for (std::size_t j = 0; j < v.size(); ++j) next[j] = std::clamp(v[j] + length * step[j], -most_tail, most_tail);
      length *= 0.5;
    } while (misses(year, next) > before && length > 1e-3);
    if (misses(year, next) > before) break;
    for (std::size_t j = 0; j < v.size(); ++j) largest = std::max(largest, std::abs(next[j] - v[j]));
    v = next;
    if (largest < 1e-6) break;
  }
  return leaning_of(v);
}

double quantile_of(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(at);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (at - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

// Quantiles of each season; false if one has too few days.
bool gather(const DaySeries& extremes, const std::vector<Normal>& normals, bool highs, double peak, Year& year) {
  std::array<std::vector<double>, seasons> values;
  for (std::size_t i = 0; i < extremes.size(); ++i) {
    if (std::isnan(extremes[i])) continue;
    const Normal& normal = normals[i % 365];
    const double usual = normal.mean + (highs ? normal.half_range : -normal.half_range);
    values[i % 365 * seasons / 365].push_back((extremes[i] - usual) / (highs ? normal.high_spread : normal.low_spread));
  }
  for (std::size_t s = 0; s < seasons; ++s) {
    if (values[s].size() < fewest) return false;
    std::sort(values[s].begin(), values[s].end());
    const double middle = (static_cast<double>(s) + 0.5) * 365.0 / static_cast<double>(seasons) + 0.5;
    const double since_peak = 2.0 * std::numbers::pi * (middle - peak) / 365.0;
    year[s].summer = std::cos(since_peak);
    year[s].half_year = std::cos(2.0 * since_peak);
    year[s].weight = std::sqrt(static_cast<double>(values[s].size() * seasons) / static_cast<double>(extremes.size()));
    for (std::size_t k = 0; k < shares.size(); ++k) year[s].quantile[k] = quantile_of(values[s], shares[k]);
  }
  return true;
}

}  // namespace

void fit_leaning(const DaySeries& highs, const DaySeries& lows, Parameters& p) {
  p.highs = p.lows = Leaning{};
  if (!years_there(highs, 10)) return;
  std::vector<Normal> normals;
  for (int day = 1; day <= 365; ++day) {
    normals.push_back(normal_of(p, day));
    if (!(normals.back().high_spread > 0.1 && normals.back().low_spread > 0.1)) return;  // hardly weather
  }
  Year of_highs, of_lows;
  if (!gather(highs, normals, true, p.mean.peak_day, of_highs) || !gather(lows, normals, false, p.mean.peak_day, of_lows)) return;
  p.highs = least_misses(of_highs);
  p.lows = least_misses(of_lows);
}

}  // namespace rackwright::climate
