#include "models/climate/record_strays.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace rackwright::climate {
namespace {

// Normal equations of a small least-squares fit, solved by elimination; 0 for what the data do not tell.
template <std::size_t N>
class Fit {
 public:
  void add(const std::array<double, N>& x, double y) {
    for (std::size_t i = 0; i < N; ++i) {
      for (std::size_t j = 0; j < N; ++j) sums_[i][j] += x[i] * x[j];
      sums_[i][N] += x[i] * y;
    }
  }
  std::array<double, N> solve() {
    std::array<double, N> result{};
    for (std::size_t k = 0; k < N; ++k) {
      if (!(sums_[k][k] > 0.0)) return {};
      for (std::size_t i = 0; i < N; ++i) {
        if (i == k) continue;
        const double share = sums_[i][k] / sums_[k][k];
        for (std::size_t j = k; j <= N; ++j) sums_[i][j] -= share * sums_[k][j];
      }
    }
    for (std::size_t i = 0; i < N; ++i) result[i] = sums_[i][N] / sums_[i][i];
    return result;
  }

 private:
  std::array<std::array<double, N + 1>, N> sums_{};
};

// The autocorrelation of days `apart`, about nought.
double correlation(const DaySeries& series, std::size_t apart) {
  double products = 0.0, squares = 0.0;
  std::size_t pairs = 0, days = 0;
  for (std::size_t i = 0; i < series.size(); ++i) {
    if (std::isnan(series[i])) continue;
    squares += series[i] * series[i];
    ++days;
    if (i < apart || std::isnan(series[i - apart])) continue;
    products += series[i] * series[i - apart];
    ++pairs;
  }
  return pairs > 0 && squares > 0.0 ? products / static_cast<double>(pairs) / (squares / static_cast<double>(days)) : 0.0;
}

double mean_correlation(const DaySeries& series, std::size_t from, std::size_t to) {
  double sum = 0.0;
  for (std::size_t apart = from; apart <= to; ++apart) sum += correlation(series, apart);
  return sum / static_cast<double>(to - from + 1);
}

}  // namespace

void fit_range(const DaySeries& mean, const DaySeries& range, Parameters& p) {
  const auto summer = [&](std::size_t i) {
    return std::cos(2.0 * std::numbers::pi * (static_cast<double>(i % 365) + 1.0 - p.mean.peak_day) / 365.0);
  };
  const auto half_year = [](double c) { return 2.0 * c * c - 1.0; };  // of the doubled angle
  Fit<3> follow;
  for (std::size_t i = 0; i < mean.size(); ++i) {
    if (std::isnan(mean[i]) || std::isnan(range[i])) continue;
    const double c = summer(i);
    follow.add({mean[i], mean[i] * c, mean[i] * half_year(c)}, range[i]);
  }
  const auto slope = follow.solve();
  p.range_follow = std::clamp(slope[0], -1.0, 1.0);
  p.range_follow_summer = std::clamp(slope[1], -2.0, 2.0);
  p.range_follow_half_year = std::clamp(slope[2], -2.0, 2.0);
  DaySeries left = range;
  Fit<2> spread;
  for (std::size_t i = 0; i < mean.size(); ++i) {
    const double c = summer(i);
    left[i] -= mean[i] * (p.range_follow + p.range_follow_summer * c + p.range_follow_half_year * half_year(c));
    if (!std::isnan(left[i])) spread.add({1.0, c}, std::abs(left[i]));
  }
  const double of_normal = std::sqrt(0.5 * std::numbers::pi);  // standard deviation over mean absolute deviation
  const auto wide = spread.solve();
  p.range_sd = Kelvins(std::clamp(of_normal * wide[0], 0.0, 15.0));
  p.range_sd_summer = Kelvins(std::clamp(of_normal * wide[1], -p.range_sd.value(), p.range_sd.value()));
  for (std::size_t i = 0; i < left.size(); ++i) {
    const double sd = p.range_sd.value() + p.range_sd_summer.value() * summer(i);
    left[i] = sd > 0.0 ? left[i] / sd : 0.0;
  }
  p.range_memory = std::clamp(correlation(left, 1), 0.0, 0.99);
}

void fit_slow(const DaySeries& mean, Parameters& p) {
  p.slow_share = 0.0;
  p.slow_memory = Parameters{}.slow_memory;
  if (std::count_if(mean.begin(), mean.end(), [](double x) { return !std::isnan(x); }) < 3650) return;
  const double near = mean_correlation(mean, 15, 25), far = mean_correlation(mean, 50, 70);
  if (near <= 0.0) return;
  p.slow_memory = std::clamp(std::pow(std::max(0.0, far) / near, 1.0 / 40.0), 0.9, 0.995);
  p.slow_share = std::clamp(near / std::pow(p.slow_memory, 20.0), 0.0, 0.5);
  if (p.anomaly_memory < p.slow_share * p.slow_memory) p.slow_share = 0.0;
}

}  // namespace rackwright::climate
