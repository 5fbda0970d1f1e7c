#pragma once
// The daily record of Badajoz (R package ks, data set tempb), our fit of it, and long series generated from either.

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>
#include <vector>

#include "models/climate/record.hpp"
#include "sim/random/laws.hpp"
#include "sim/random/philox_stream.hpp"
#include "sim/scenario/weather_csv.hpp"
#include "tests/reference/outside/said.hpp"

namespace rackwright::outside {

using namespace rackwright::climate;

inline const WeatherReading& badajoz() {
  static const WeatherReading reading = read_weather_file(folder + "badajoz.csv");
  return reading;
}
inline const Record& record() { return badajoz().record.value(); }
inline const Parameters& fitted() {
  static const Parameters p = fit_record(record(), Parameters{});
  return p;
}

struct Series { std::vector<double> mean, maximum, minimum; };  // of days, from 1 January

inline constexpr int generated_years = 400;
/// What is held to what 61 years leave open must not stray itself: of so many years a quantile strays by an eighth as much.
inline constexpr int drawn_years = 4000;

/// Days on end from a law, as the simulator draws them.
inline Series days_from(const Parameters& p, int years, std::uint32_t number) {
  Series all;
  std::vector<Normal> usual;
  for (int day = 1; day <= 365; ++day) usual.push_back(normal_of(p, day));
  random::Stream luck(random::make_key(7, 0), random::Purpose::test, number);
  Straying straying(p);
  for (int i = 0; i < 365 * years; ++i) {
    const double fast = random::normal(luck), slow = random::normal(luck), range = random::normal(luck);
    const auto strayed = straying.next({fast, slow, range});
    const Day day = day_from(p, usual[static_cast<std::size_t>(i % 365)], {strayed.anomaly, 0.0, strayed.range}, Kelvins(0.0));
    all.mean.push_back(0.5 * (day.maximum + day.minimum));
    all.maximum.push_back(day.maximum);
    all.minimum.push_back(day.minimum);
  }
  return all;
}

inline const Series& drawn() {
  static const Series series = days_from(fitted(), drawn_years, 1);
  return series;
}

inline const Series& resampled() {
  static const Series series = [] {
    Series all;
    const RecordedWeather weather = prepare(record(), fitted().mean);
    random::Stream luck(random::make_key(7, 0), random::Purpose::test, 2);
    int at = -1, left = 0;
    for (int i = 0; i < 365 * generated_years; ++i, --left) {
      if (left == 0) {
        left = 28;
        at = static_cast<int>(next_block(weather, i % 365 + 1, left, at, random::uniform01(luck)));
      } else {
        ++at;
      }
      const auto day = static_cast<std::size_t>(at);
      all.mean.push_back(record().mean(day));
      all.maximum.push_back(static_cast<double>(record().maximum[day]));
      all.minimum.push_back(static_cast<double>(record().minimum[day]));
    }
    return all;
  }();
  return series;
}

inline Series measured_of(const Record& record) {
  Series all;
  for (std::size_t i = 0; i < record.size(); ++i) {
    if (!record.has(i)) continue;
    all.mean.push_back(record.mean(i));
    all.maximum.push_back(static_cast<double>(record.maximum[i]));
    all.minimum.push_back(static_cast<double>(record.minimum[i]));
  }
  return all;
}

inline const Series& measured() {
  static const Series series = measured_of(record());
  return series;
}

/// The record with every other year only, odd ones or even ones.
inline Record half_of_record(bool odd) {
  Record half = record();
  for (std::size_t i = 0; i < half.size(); ++i)
    if (((half.first_year + static_cast<int>(i / 365)) % 2 != 0) != odd) half.maximum[i] = half.minimum[i] = std::numeric_limits<float>::quiet_NaN();
  return half;
}

inline SeriesFit fit_of(const Series& series) {
  std::vector<double> day;
  for (std::size_t i = 0; i < series.mean.size(); ++i) day.push_back(static_cast<double>(i % 365) + 1.0);
  return fit_series(day, series.mean, true);
}

/// Tenths of a per cent to the middle and as far from the other end.
inline constexpr std::array<double, 7> shares{0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999};
/// Two standard errors of those quantiles of 61 years, of maxima and minima [K] (years drawn anew: kept.cpp works them out).
inline constexpr std::array<double, 7> maxima_open{0.438, 0.395, 0.174, 0.293, 0.295, 0.371, 0.59}, minima_open{0.61, 0.347, 0.427, 0.205, 0.2, 0.347, 0.528};

inline double quantile(std::vector<double> values, double p) {
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(p * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

/// Spread of 30-day means about the yearly wave [K], and their memory from one to the next.
inline std::pair<double, double> months_of(const Series& series) {
  const YearlyWave wave = fit_of(series).wave;
  double squares = 0.0, products = 0.0, before = 0.0;
  for (std::size_t first = 0; first + 30 <= series.mean.size(); first += 30) {
    double month = 0.0;
    for (std::size_t i = first; i < first + 30; ++i)
      month += (series.mean[i] - wave_at(wave, static_cast<double>(i % 365) + 1.0).value()) / 30.0;
    squares += month * month;
    if (first > 0) products += month * before;
    before = month;
  }
  return {std::sqrt(30.0 * squares / static_cast<double>(series.mean.size())), products / squares};
}

}  // namespace rackwright::outside
