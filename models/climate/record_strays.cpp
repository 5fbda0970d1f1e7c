#include "models/climate/record_strays.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "models/climate/small_fit.hpp"

namespace rackwright::climate {
namespace {

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

bool years_there(const DaySeries& series, int years) {
  return std::count_if(series.begin(), series.end(), [](double x) { return !std::isnan(x); }) >= static_cast<std::ptrdiff_t>(0.95 * 365.0 * years);
}

namespace {

// The two waves of a season about the mean's peak, by which something differs that the range does.
class Seasons {
 public:
  Seasons(double peak_day, double lead) : peak_(peak_day - lead) {}
  [[nodiscard]] double summer(std::size_t i) const {
    return std::cos(2.0 * std::numbers::pi * (static_cast<double>(i % 365) + 1.0 - peak_) / 365.0);
  }
  static double half_year(double c) { return 2.0 * c * c - 1.0; }  // of the doubled angle

 private:
  double peak_;
};

struct Following { std::array<double, 3> slope{}; double lead = 0.0, explained = 0.0; };  // [K/K, d, K2]

// How the range follows the mean when its waves lead the mean's by so much.
Following following(const DaySeries& mean, const DaySeries& range, double peak_day, double lead) {
  const Seasons seasons(peak_day, lead);
  SmallFit<3> fit;
  std::array<double, 3> products{};
  for (std::size_t i = 0; i < mean.size(); ++i) {
    if (std::isnan(mean[i]) || std::isnan(range[i])) continue;
    const double c = seasons.summer(i);
    const std::array<double, 3> terms{mean[i], mean[i] * c, mean[i] * Seasons::half_year(c)};
    fit.add(terms, range[i]);
    for (std::size_t k = 0; k < terms.size(); ++k) products[k] += terms[k] * range[i];
  }
  Following found{fit.solve(), lead, 0.0};
  for (std::size_t k = 0; k < products.size(); ++k) found.explained += found.slope[k] * products[k];
  return found;
}

// The lead that explains the most: by tens of days, then ever finer. None where it explains hardly more than none does, or the record is short.
Following best_following(const DaySeries& mean, const DaySeries& range, double peak_day) {
  const Following none = following(mean, range, peak_day, 0.0);
  if (!years_there(mean, 5)) return none;
  Following best = none;
  for (int tens = -6; tens <= 6; ++tens)
    if (const Following one = following(mean, range, peak_day, 10.0 * tens); one.explained > best.explained) best = one;
  double step = 10.0;
  for (int halving = 0; halving < 7; ++halving) {
    step *= 0.5;
    for (const double lead : {best.lead - step, best.lead + step})
      if (const Following one = following(mean, range, peak_day, lead); one.explained > best.explained) best = one;
  }
  double squares = 0.0;
  for (std::size_t i = 0; i < range.size(); ++i)
    if (!std::isnan(mean[i]) && !std::isnan(range[i])) squares += range[i] * range[i];
  constexpr double worth = 0.005;  // of what is left without
  return best.explained - none.explained > worth * (squares - none.explained) ? best : none;
}

}  // namespace

void fit_range(const DaySeries& mean, const DaySeries& range, Parameters& p) {
  const Following follow = best_following(mean, range, p.mean.peak_day);
  p.range_follow = std::clamp(follow.slope[0], -1.0, 1.0);
  p.range_follow_summer = std::clamp(follow.slope[1], -2.0, 2.0);
  p.range_follow_half_year = std::clamp(follow.slope[2], -2.0, 2.0);
  p.range_follow_lead = follow.lead;
  const Seasons seasons(p.mean.peak_day, follow.lead);
  const auto summer = [&](std::size_t i) { return seasons.summer(i); };
  const auto half_year = [](double c) { return Seasons::half_year(c); };
  DaySeries left = range;
  SmallFit<3> spread;
  for (std::size_t i = 0; i < mean.size(); ++i) {
    const double c = summer(i);
    left[i] -= mean[i] * (p.range_follow + p.range_follow_summer * c + p.range_follow_half_year * half_year(c));
    if (!std::isnan(left[i])) spread.add({1.0, c, half_year(c)}, std::abs(left[i]));
  }
  const auto wide = spread.solve();
  double squares = 0.0, days = 0.0;
  for (std::size_t i = 0; i < left.size(); ++i) {
    const double c = summer(i), one = wide[0] + wide[1] * c + wide[2] * half_year(c);
    left[i] = one > 0.0 ? left[i] / one : 0.0;
    if (std::isnan(left[i])) continue;
    squares += left[i] * left[i];
    days += 1.0;
  }
  const double to_sd = days > 0.0 ? std::sqrt(squares / days) : 0.0;  // standard deviation over mean absolute deviation
  p.range_sd = Kelvins(std::clamp(to_sd * wide[0], 0.0, 15.0));
  p.range_sd_summer = Kelvins(std::clamp(to_sd * wide[1], -p.range_sd.value(), p.range_sd.value()));
  p.range_sd_half_year = Kelvins(std::clamp(to_sd * wide[2], -p.range_sd.value(), p.range_sd.value()));
  p.range_memory = std::clamp(correlation(left, 1), 0.0, 0.99);
}

void fit_season(const DaySeries& mean, Parameters& p) {
  p.anomaly_season = p.anomaly_half_year = p.anomaly_season_peak = p.anomaly_half_year_peak = 0.0;
  if (!years_there(mean, 5)) return;
  SmallFit<5> variance;
  for (std::size_t i = 0; i < mean.size(); ++i) {
    if (std::isnan(mean[i])) continue;
    const double turn = 2.0 * std::numbers::pi * (static_cast<double>(i % 365) + 1.0) / 365.0;
    variance.add({1.0, std::cos(turn), std::sin(turn), std::cos(2.0 * turn), std::sin(2.0 * turn)}, mean[i] * mean[i]);
  }
  const auto found = variance.solve();
  if (!(found[0] > 0.0)) return;
  const double year = std::hypot(found[1], found[2]) / found[0], half = std::hypot(found[3], found[4]) / found[0];
  // Together under one, so that there is some spread at all times.
  constexpr double most = 0.9;
  const double shrink = std::min(1.0, most / std::max(1e-9, year + half));
  const auto peak = [](double cosine, double sine, double period) {
    const double at = std::atan2(sine, cosine) / (2.0 * std::numbers::pi);
    return period * (at < 0.0 ? at + 1.0 : at);
  };
  p.anomaly_season = shrink * year;
  p.anomaly_half_year = shrink * half;
  p.anomaly_season_peak = peak(found[1], found[2], 365.0);
  p.anomaly_half_year_peak = peak(found[3], found[4], 182.5);
}

void fit_two_days(const DaySeries& mean, Parameters& p) {
  const double fast = fast_memory(p);
  const double after_two = (correlation(mean, 2) - p.slow_share * p.slow_memory * p.slow_memory) / (1.0 - p.slow_share);
  p.anomaly_two_days = std::clamp((after_two - fast * fast) / (1.0 - fast * fast), -0.5, 0.5);
}

void fit_slow(const DaySeries& mean, Parameters& p) {
  p.slow_share = 0.0;
  p.slow_memory = Parameters{}.slow_memory;
  if (!years_there(mean, 10)) return;
  const double near = mean_correlation(mean, 15, 25), far = mean_correlation(mean, 50, 70);
  if (near <= 0.0) return;
  p.slow_memory = std::clamp(std::pow(std::max(0.0, far) / near, 1.0 / 40.0), 0.9, 0.995);
  p.slow_share = std::clamp(near / std::pow(p.slow_memory, 20.0), 0.0, 0.5);
  if (p.anomaly_memory < p.slow_share * p.slow_memory) p.slow_share = 0.0;
}

}  // namespace rackwright::climate
