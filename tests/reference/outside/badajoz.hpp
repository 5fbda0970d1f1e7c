#pragma once
// The daily record of Badajoz (R package ks, data set tempb), our fit of it, and long series generated from either.

#include <algorithm>
#include <cmath>
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

inline const Series& drawn() {
  static const Series series = [] {
    Series all;
    random::Stream luck(random::make_key(7, 0), random::Purpose::test, 1);
    Straying straying(fitted());
    for (int i = 0; i < 365 * generated_years; ++i) {
      const double fast = random::normal(luck), slow = random::normal(luck), range = random::normal(luck);
      const auto strayed = straying.next({fast, slow, range});
      const Day day = day_from(fitted(), i % 365 + 1.0, {strayed.anomaly, 0.0, strayed.range}, Kelvins(0.0));
      all.mean.push_back(0.5 * (day.maximum + day.minimum));
      all.maximum.push_back(day.maximum);
      all.minimum.push_back(day.minimum);
    }
    return all;
  }();
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

inline const Series& measured() {
  static const Series series = [] {
    Series all;
    for (std::size_t i = 0; i < record().size(); ++i) {
      if (!record().has(i)) continue;
      all.mean.push_back(record().mean(i));
      all.maximum.push_back(static_cast<double>(record().maximum[i]));
      all.minimum.push_back(static_cast<double>(record().minimum[i]));
    }
    return all;
  }();
  return series;
}

inline SeriesFit fit_of(const Series& series) {
  std::vector<double> day;
  for (std::size_t i = 0; i < series.mean.size(); ++i) day.push_back(static_cast<double>(i % 365) + 1.0);
  return fit_series(day, series.mean, true);
}

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
