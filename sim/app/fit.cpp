// rackwright fit: from what was measured to keys of a scenario.
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "models/climate/record.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/say.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/weather_csv.hpp"

namespace rackwright::app {
namespace {

constexpr std::array<std::string_view, 18> always{"climate.mean",           "climate.amplitude",  "climate.peak_day",
                                                 "climate.half_year",      "climate.half_year_peak",
                                                 "climate.range_mean",     "climate.range_amplitude", "climate.range_lead",     "climate.range_follow",
                                                 "climate.range_follow_summer", "climate.range_follow_half_year", "climate.range_sd", "climate.range_sd_summer", "climate.range_memory",
                                                 "climate.anomaly_sd",     "climate.anomaly_memory", "climate.slow_share", "climate.slow_memory"};
constexpr std::array<std::string_view, 3> with_dew{"climate.dew_depression_mean", "climate.dew_depression_amplitude",
                                                   "climate.dew_depression_sd"};

/// Lines of [climate]: each key as it reads after the fit, and what the scenario had where one was given.
std::string block(const Scenario& fitted, const Scenario* before, bool dew) {
  std::string text = "[climate]\n";
  const auto line = [&](std::string_view key) {
    const std::string value = get_key(fitted, key).value();
    const bool bare = value.find(' ') == std::string::npos;
    text += fmt::format("{} = {}", key.substr(std::string_view("climate.").size()), bare ? value : "\"" + value + "\"");
    if (before) text += fmt::format("  # was {}", get_key(*before, key).value());
    text += "\n";
  };
  for (const std::string_view key : always) line(key);
  if (dew)
    for (const std::string_view key : with_dew) line(key);
  return text;
}

/// To what a record can tell: a hundredth of a kelvin, a tenth of a day, a thousandth of the memory.
climate::Parameters rounded(climate::Parameters p) {
  const auto to = [](double value, double parts) { return std::round(value * parts) / parts + 0.0; };  // + 0: no -0
  p.mean = {Celsius(to(p.mean.mean.value(), 100)), Kelvins(to(p.mean.amplitude.value(), 100)), to(p.mean.peak_day, 10),
            Kelvins(to(p.mean.second.value(), 100)), to(p.mean.second_peak, 10)};
  for (Kelvins* k : {&p.range_mean, &p.range_amplitude, &p.range_sd, &p.range_sd_summer, &p.anomaly_sd, &p.dew_depression_mean, &p.dew_depression_amplitude, &p.dew_depression_sd})
    *k = Kelvins(to(k->value(), 100));
  for (double* d : {&p.range_follow, &p.range_follow_summer, &p.range_follow_half_year, &p.range_memory, &p.slow_share, &p.slow_memory}) *d = to(*d, 1000);
  p.range_lead_days = to(p.range_lead_days, 10);
  p.anomaly_memory = to(p.anomaly_memory, 1000);
  return p;
}

void say_gaps(const std::string& path, const WeatherReading& reading) {
  constexpr std::size_t most_shown = 20;
  for (std::size_t i = 0; i < reading.gaps.size() && i < most_shown; ++i) {
    const Problem& gap = reading.gaps[i];
    fmt::print(stderr, "{}:{}: {}: {}\n", path, gap.line, gap.value, gap.why);
  }
  if (reading.gaps.size() > most_shown) fmt::print(stderr, "{}: and {} more gaps\n", path, reading.gaps.size() - most_shown);
}

int fit_weather(const Options& options) {
  if (options.words.size() < 2 || options.words.size() > 3)
    throw BadInput("say which file: rackwright fit weather FILE.csv, and after it a scenario to compare with, if you like");
  const std::string& path = options.words[1];
  std::optional<Scenario> before;
  if (options.words.size() == 3) {
    Reading reading = read_scenario_file(options.words[2], options.settings);
    if (!reading.problems.empty()) throw BadInput(problems_text(options.words[2], reading.problems));
    before = std::move(reading.scenario);
  }
  const WeatherReading weather = read_weather_file(path);
  if (!weather.problems.empty()) throw BadInput(problems_text(path, weather.problems));
  if (!climate::enough_to_fit(*weather.record))
    throw BadInput(path + " holds too little: 300 days or more are wanted, with some in every month");
  if (!options.quiet) say_gaps(path, weather);
  Scenario fitted = before.value_or(Scenario{});
  fitted.climate = rounded(climate::fit_record(*weather.record, fitted.climate));
  fmt::print("# Fitted to {}: {} days from {} on, {} missing in between; hash {}.\n"
             "# To use the days themselves instead: file = \"{}\"\n{}",
             path, weather.days, weather.record->first_year, weather.missing_days, weather.hash, path,
             block(fitted, before ? &*before : nullptr, !weather.record->dew_point.empty()));
  return good;
}

}  // namespace

int fit(const Options& options) {
  if (options.words.empty() || options.words.front() != "weather")
    throw BadInput(options.words.empty() ? "say what to fit: weather" : fmt::format("there is no \"fit {}\"; there is fit weather", options.words.front()));
  return fit_weather(options);
}

}  // namespace rackwright::app
