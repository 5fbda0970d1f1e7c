// Measured weather: its fit, and blocks of it.
#include "models/climate/record.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <utility>

#include "models/base/expects.hpp"
#include "models/climate/record_blocks.hpp"
#include "models/climate/record_strays.hpp"

namespace rackwright::climate {
namespace {

double day_number(std::size_t index) { return static_cast<double>(index % 365) + 1.0; }

// Days that are there, as fit_series wants them.
template <class Value>
SeriesFit fit_days(const Record& record, bool half_year, Value value) {
  std::vector<double> day, celsius;
  for (std::size_t i = 0; i < record.size(); ++i) {
    const double x = record.has(i) ? value(i) : std::numeric_limits<double>::quiet_NaN();
    if (std::isnan(x)) continue;
    day.push_back(day_number(i));
    celsius.push_back(x);
  }
  return fit_series(day, celsius, half_year);
}

// Mean and wave of the dew-point depression, in step with the temperature's peak, and what is left.
void fit_dryness(const Record& record, Parameters& p) {
  const SeriesFit fit = fit_days(record, false, [&](std::size_t i) { return record.mean(i) - static_cast<double>(record.dew_point[i]); });
  const double apart = 2.0 * std::numbers::pi * (fit.wave.peak_day - p.mean.peak_day) / 365.0;
  p.dew_depression_mean = Kelvins(fit.wave.mean.value());
  p.dew_depression_amplitude = fit.wave.amplitude * std::cos(apart);
  const double out_of_step = fit.wave.amplitude.value() * std::sin(apart);
  p.dew_depression_sd = Kelvins(std::hypot(fit.anomaly_sd, out_of_step / std::numbers::sqrt2));
}

// What each day strays from a wave; not a number where it is missing.
template <class Value>
DaySeries strays(const Record& record, const YearlyWave& wave, Value value) {
  DaySeries series(record.size(), std::numeric_limits<double>::quiet_NaN());
  for (std::size_t i = 0; i < record.size(); ++i)
    if (record.has(i)) series[i] = value(i) - wave_at(wave, day_number(i)).value();
  return series;
}

DaySeries days_of(const Record& record, const std::vector<float>& values) {
  DaySeries series(record.size(), std::numeric_limits<double>::quiet_NaN());
  for (std::size_t i = 0; i < record.size(); ++i)
    if (record.has(i)) series[i] = static_cast<double>(values[i]);
  return series;
}

}  // namespace

float rounded_to_step(double celsius) { return static_cast<float>(std::round(celsius / record_step) * record_step); }

bool enough_to_fit(const Record& record) {
  std::array<bool, 12> month{};
  std::size_t days = 0;
  for (std::size_t i = 0; i < record.size(); ++i) {
    if (!record.has(i)) continue;
    month[std::min<std::size_t>(11, i % 365 / 30)] = true;
    ++days;
  }
  return days >= 300 && std::all_of(month.begin(), month.end(), [](bool seen) { return seen; });
}

bool tells_dew(const Record& record) {
  return std::count_if(record.dew_point.begin(), record.dew_point.end(), [](float d) { return d == d; }) >= 300;
}

Parameters fit_record(const Record& record, const Parameters& otherwise) {
  EXPECTS(enough_to_fit(record));
  Parameters p = otherwise;
  const SeriesFit mean = fit_days(record, true, [&](std::size_t i) { return record.mean(i); });
  const SeriesFit range = fit_days(record, true, [&](std::size_t i) { return static_cast<double>(record.maximum[i]) - static_cast<double>(record.minimum[i]); });
  p.mean = mean.wave;
  p.anomaly_sd = Kelvins(mean.anomaly_sd);
  p.anomaly_memory = std::clamp(mean.lag1, 0.0, 0.99);
  p.range_mean = Kelvins(range.wave.mean.value());
  p.range_amplitude = range.wave.amplitude;
  p.range_half_year = range.wave.second;
  p.range_half_year_peak = range.wave.second_peak;
  p.range_lead_days = std::remainder(mean.wave.peak_day - range.wave.peak_day, 365.0);
  const DaySeries strayed = strays(record, mean.wave, [&](std::size_t i) { return record.mean(i); });
  const DaySeries wide = strays(record, range.wave, [&](std::size_t i) {
    return static_cast<double>(record.maximum[i]) - static_cast<double>(record.minimum[i]);
  });
  fit_range(strayed, wide, p);
  fit_season(strayed, p);
  fit_slow(strayed, p);
  fit_two_days(strayed, p);
  fit_leaning(days_of(record, record.maximum), days_of(record, record.minimum), p);
  if (tells_dew(record)) fit_dryness(record, p);
  return p;
}

RecordedWeather prepare(Record record, const YearlyWave& wave) {
  RecordedWeather weather{std::move(record), {}, {}};
  const Record& r = weather.record;
  weather.anomaly.assign(r.size(), 0.0F);
  weather.run.assign(r.size(), 0);
  for (std::size_t i = r.size(); i-- > 0;) {
    if (!r.has(i)) continue;
    weather.anomaly[i] = static_cast<float>(r.mean(i) - wave_at(wave, day_number(i)).value());
    weather.run[i] = 1 + (i + 1 < r.size() ? weather.run[i + 1] : 0);
  }
  return weather;
}

namespace {

// Past the record's last day, the same day of the year after it in the first year that has it; nothing where none has, or that is not the last day.
std::optional<std::size_t> past_the_end(const RecordedWeather& weather, std::size_t last) {
  const auto later = weather.run.begin() + static_cast<std::ptrdiff_t>(last) + 1;
  if (std::any_of(later, weather.run.end(), [](int run) { return run > 0; })) return std::nullopt;
  for (std::size_t i = (last + 1) % 365; i <= last; i += 365)
    if (weather.run[i] > 0) return i;
  return std::nullopt;
}

// Days in a row from that day on, past the record's last day where `around` says so.
int days_on(const RecordedWeather& weather, std::size_t from, bool around) {
  const int run = weather.run[from];
  if (!around || run == 0) return run;
  const auto again = past_the_end(weather, from + static_cast<std::size_t>(run) - 1);
  return again ? run + weather.run[*again] : run;
}

// Years that have such a block; past the end is looked only where no year has it within the record.
int counted(const RecordedWeather& weather, int day_of_year, int length, bool around) {
  int count = 0;
  for (std::size_t i = static_cast<std::size_t>(day_of_year - 1); i < weather.run.size(); i += 365)
    count += days_on(weather, i, around) >= length ? 1 : 0;
  return count;
}

}  // namespace

int candidates(const RecordedWeather& weather, int day_of_year, int length) {
  const int within = counted(weather, day_of_year, length, false);
  return within > 0 ? within : counted(weather, day_of_year, length, true);
}

int scarcest_day(const RecordedWeather& weather, int length) {
  int scarcest = 1, fewest = std::numeric_limits<int>::max();
  for (int day = 1; day <= 365; ++day) {
    const int count = candidates(weather, day, length);
    if (count >= fewest) continue;
    fewest = count;
    scarcest = day;
  }
  return scarcest;
}

int longest_block(const RecordedWeather& weather, int most) {
  int longest = most;
  for (std::size_t day = 0; day < 365; ++day) {
    int here = 0;
    for (std::size_t i = day; i < weather.run.size(); i += 365) here = std::max(here, days_on(weather, i, true));
    longest = std::min(longest, here);
  }
  return longest;
}

std::size_t day_after(const RecordedWeather& weather, std::size_t index) {
  if (index + 1 < weather.run.size() && weather.run[index + 1] > 0) return index + 1;
  const auto again = past_the_end(weather, index);
  EXPECTS(again.has_value());
  return *again;
}

std::size_t next_block(const RecordedWeather& weather, int day_of_year, int length, int yesterday, double luck) {
  EXPECTS(day_of_year >= 1 && day_of_year <= 365 && luck >= 0.0 && luck < 1.0);
  const bool around = counted(weather, day_of_year, length, false) == 0;
  std::array<std::pair<float, std::size_t>, longest_record> found;
  std::size_t count = 0;
  for (std::size_t i = static_cast<std::size_t>(day_of_year - 1); i < weather.run.size() && count < found.size(); i += 365) {
    if (days_on(weather, i, around) < length) continue;
    float apart = 0.0F;
    if (yesterday >= 0) {
      const bool known = i > 0 && weather.run[i - 1] > 0;
      apart = known ? std::abs(weather.anomaly[i - 1] - weather.anomaly[static_cast<std::size_t>(yesterday)]) : 1e6F;
    }
    found[count++] = {apart, i};
  }
  EXPECTS(count >= 1);
  const std::size_t alike = yesterday < 0 ? count : std::min(count, std::max<std::size_t>(2, (count + 2) / 3));
  std::sort(found.begin(), found.begin() + static_cast<std::ptrdiff_t>(count));
  return found[static_cast<std::size_t>(luck * static_cast<double>(alike))].second;
}

Day day_of(const RecordedWeather& weather, std::size_t index, const Parameters& parameters, const Normal& normal, double dew,
           Kelvins rise) {
  const Record& r = weather.record;
  EXPECTS(index < r.size() && r.has(index));
  const bool measured = !r.dew_point.empty() && r.dew_point[index] == r.dew_point[index];
  const double depression = std::max(0.5, normal.dew_depression + dew * parameters.dew_depression_sd.value());
  const double dew_point = measured ? static_cast<double>(r.dew_point[index]) : r.mean(index) - depression;
  Day day;
  day.maximum = static_cast<double>(r.maximum[index]) + rise.value();
  day.minimum = static_cast<double>(r.minimum[index]) + rise.value();
  day.humidity_ratio = humidity_ratio_at_dew_point(Celsius(std::min(dew_point, day.minimum)));
  return day;
}

}  // namespace rackwright::climate
