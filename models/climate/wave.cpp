// The yearly wave, its fits, and the anomaly about it.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "models/base/expects.hpp"
#include "models/climate/climate.hpp"

namespace rackwright::climate {

namespace {

constexpr double year_days = 365.0;
double phase(double day) { return 2.0 * std::numbers::pi * day / year_days; }

// N normal equations by elimination with row exchange; the last column is the right side.
template <std::size_t N>
std::array<double, N> solve(std::array<std::array<double, N + 1>, N> m) {
  for (std::size_t k = 0; k < N; ++k) {
    std::size_t best = k;
    for (std::size_t i = k + 1; i < N; ++i)
      if (std::abs(m[i][k]) > std::abs(m[best][k])) best = i;
    std::swap(m[k], m[best]);
    EXPECTS(std::abs(m[k][k]) > 1e-9);  // days spread over too little of the year
    for (std::size_t i = 0; i < N; ++i) {
      if (i == k) continue;
      const double factor = m[i][k] / m[k][k];
      for (std::size_t j = k; j <= N; ++j) m[i][j] -= factor * m[k][j];
    }
  }
  std::array<double, N> solution{};
  for (std::size_t k = 0; k < N; ++k) solution[k] = m[k][N] / m[k][k];
  return solution;
}

YearlyWave wave_of(double mean, double cosine, double sine) {
  const double turn = std::atan2(sine, cosine) / (2.0 * std::numbers::pi);
  return {Celsius(mean), Kelvins(std::hypot(cosine, sine)), year_days * (turn < 0.0 ? turn + 1.0 : turn)};
}

// Least squares of 1, cos, sin, and with N = 5 of cos and sin at twice the pace.
template <std::size_t N>
YearlyWave least_squares(const std::vector<double>& days, const std::vector<double>& values) {
  std::array<std::array<double, N + 1>, N> normal{};
  for (std::size_t i = 0; i < days.size(); ++i) {
    std::array<double, N> basis{1.0, std::cos(phase(days[i])), std::sin(phase(days[i]))};
    if constexpr (N == 5) {
      basis[3] = std::cos(2.0 * phase(days[i]));
      basis[4] = std::sin(2.0 * phase(days[i]));
    }
    for (std::size_t r = 0; r < N; ++r) {
      for (std::size_t c = 0; c < N; ++c) normal[r][c] += basis[r] * basis[c];
      normal[r][N] += basis[r] * values[i];
    }
  }
  const std::array<double, N> fitted = solve<N>(normal);
  YearlyWave wave = wave_of(fitted[0], fitted[1], fitted[2]);
  if constexpr (N == 5) {
    const YearlyWave half = wave_of(0.0, fitted[3], fitted[4]);
    wave.second = half.amplitude;
    wave.second_peak = 0.5 * half.peak_day;
  }
  return wave;
}

bool next_day(double before, double after) {
  const double step = after - before;
  const bool new_year = before > 364.5 && after < 1.5;
  return new_year || std::abs(step - 1.0) < 0.01;
}

}  // namespace

YearlyWave fit_yearly_wave(const std::array<double, 12>& monthly_celsius) {
  constexpr std::array<double, 12> length{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  double mean = 0.0;
  for (const double month : monthly_celsius) mean += month / 12.0;
  double cc = 0.0, cs = 0.0, ss = 0.0, cy = 0.0, sy = 0.0, before = 0.0;
  for (std::size_t m = 0; m < 12; ++m) {
    const double middle = phase(before + 0.5 * (length[m] + 1.0));  // mean of the month's day numbers
    const double c = std::cos(middle), s = std::sin(middle), y = monthly_celsius[m] - mean;
    cc += c * c;
    cs += c * s;
    ss += s * s;
    cy += c * y;
    sy += s * y;
    before += length[m];
  }
  const double determinant = cc * ss - cs * cs;  // fixed by the calendar, about 36
  return wave_of(mean, (ss * cy - cs * sy) / determinant, (cc * sy - cs * cy) / determinant);
}

Celsius wave_at(const YearlyWave& wave, double day_of_year) {
  const Celsius first = wave.mean + wave.amplitude * std::cos(phase(day_of_year - wave.peak_day));
  return wave.second.value() == 0.0 ? first : first + wave.second * std::cos(2.0 * phase(day_of_year - wave.second_peak));
}

double fast_memory(const Parameters& p) {
  return p.slow_share < 1.0 ? std::clamp((p.anomaly_memory - p.slow_share * p.slow_memory) / (1.0 - p.slow_share), 0.0, 0.999) : 0.0;
}

Recall recall(const Parameters& p) {
  const double memory = fast_memory(p);
  return {memory * (1.0 - p.anomaly_two_days), p.anomaly_two_days};
}

Straying::Straying(const Parameters& p)
    : fast_weight_(std::sqrt(1.0 - p.slow_share)), slow_weight_(std::sqrt(p.slow_share)), fast_memory_(fast_memory(p)),
      slow_memory_(p.slow_memory), range_memory_(p.range_memory), fast_rest_(std::sqrt(1.0 - fast_memory_ * fast_memory_)),
      slow_rest_(std::sqrt(1.0 - slow_memory_ * slow_memory_)), range_rest_(std::sqrt(1.0 - range_memory_ * range_memory_)),
      recall_(recall(p)), recall_rest_(fast_rest_ * std::sqrt(1.0 - p.anomaly_two_days * p.anomaly_two_days)) {
  EXPECTS(p.slow_share >= 0.0 && p.slow_share <= 1.0 && std::abs(p.anomaly_two_days) <= 1.0);
}

Straying::Strayed Straying::next(const Innovation& luck) {
  // The second day knows one day only; from then on the law of two days has the same spread and lag-1 memory.
  const double fast = days_ == 0   ? luck.fast
                      : days_ == 1 ? fast_memory_ * fast_ + fast_rest_ * luck.fast
                                   : recall_.yesterday * fast_ + recall_.before * fast_before_ + recall_rest_ * luck.fast;
  fast_before_ = fast_;
  fast_ = fast;
  slow_ = days_ > 0 ? slow_memory_ * slow_ + slow_rest_ * luck.slow : luck.slow;
  range_ = days_ > 0 ? range_memory_ * range_ + range_rest_ * luck.range : luck.range;
  days_ = std::min(2, days_ + 1);
  return {fast_weight_ * fast_ + slow_weight_ * slow_, range_};
}

SeriesFit fit_series(const std::vector<double>& day_of_year, const std::vector<double>& celsius, bool half_year) {
  EXPECTS(day_of_year.size() == celsius.size() && celsius.size() >= 60);
  const std::size_t count = celsius.size();
  SeriesFit fit;
  fit.wave = half_year ? least_squares<5>(day_of_year, celsius) : least_squares<3>(day_of_year, celsius);
  double squares = 0.0, products = 0.0, previous = 0.0;
  std::size_t neighbours = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const double residual = celsius[i] - wave_at(fit.wave, day_of_year[i]).value();
    squares += residual * residual;
    if (i > 0 && next_day(day_of_year[i - 1], day_of_year[i])) {
      products += residual * previous;
      ++neighbours;
    }
    previous = residual;
  }
  fit.anomaly_sd = std::sqrt(squares / static_cast<double>(count - (half_year ? 5U : 3U)));
  if (neighbours > 0 && squares > 0.0) {
    const double lag = products / static_cast<double>(neighbours) / (squares / static_cast<double>(count));
    fit.lag1 = std::clamp(lag, -1.0, 1.0);
  }
  return fit;
}

}  // namespace rackwright::climate
