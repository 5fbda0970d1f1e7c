// rackwright fit: from what was measured to keys of a scenario.
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "models/climate/record_spread.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/fit_trays.hpp"
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

/// Ends of the 95 % intervals, as scenarios.
struct Ends { Scenario low, high; };

/// Lines of [climate]: each key as it reads after the fit, how well the record tells it, and what the scenario had where one was given.
std::string block(const Scenario& fitted, const std::optional<Ends>& ends, const Scenario* before, bool dew) {
  std::string text = "[climate]\n";
  const auto line = [&](std::string_view key) {
    const std::string value = get_key(fitted, key).value();
    const bool bare = value.find(' ') == std::string::npos;
    text += fmt::format("{} = {}", key.substr(std::string_view("climate.").size()), bare ? value : "\"" + value + "\"");
    std::string remark;
    if (ends) {
      const std::string low = get_key(ends->low, key).value(), high = get_key(ends->high, key).value();
      if (low != high) remark = fmt::format("95 %: {} to {}", low, high);
    }
    if (before) remark += fmt::format("{}was {}", remark.empty() ? "" : "; ", get_key(*before, key).value());
    text += (remark.empty() ? "" : "  # " + remark) + "\n";
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

climate::Parameters moved(climate::Parameters p, const climate::FitSpread& half, double by) {
  p.mean.mean = Celsius(p.mean.mean.value() + by * half.mean);
  p.mean.amplitude = Kelvins(p.mean.amplitude.value() + by * half.amplitude);
  p.mean.peak_day += by * half.peak_day;
  p.range_mean = Kelvins(p.range_mean.value() + by * half.range_mean);
  p.range_amplitude = Kelvins(p.range_amplitude.value() + by * half.range_amplitude);
  p.range_lead_days += by * half.range_lead;
  p.range_follow += by * half.range_follow;
  p.anomaly_sd = Kelvins(p.anomaly_sd.value() + half.anomaly_sd_short + by * half.anomaly_sd);
  p.anomaly_memory += half.anomaly_memory_short + by * half.anomaly_memory;
  return rounded(p);
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
  for (const auto& [given, name] : {std::pair(options.predict, "predict"), std::pair(options.json, "json"), std::pair(options.texts.contains(Option::units), "units")})
    if (given) throw BadInput(fmt::format("--{} belongs to rackwright fit trays; fit weather takes --scenario, --set and --out", name));
  const auto named = options.texts.find(Option::scenario);
  const std::string farm = options.words.size() == 3 ? options.words[2] : named == options.texts.end() ? std::string() : named->second;
  const std::string& path = options.words[1];
  std::optional<Scenario> before;
  if (!farm.empty()) {
    Reading reading = read_scenario_file(farm, options.settings);
    if (!reading.problems.empty()) throw BadInput(problems_text(farm, reading.problems));
    before = std::move(reading.scenario);
  }
  const WeatherReading weather = read_weather_file(path);
  if (!weather.problems.empty()) throw BadInput(problems_text(path, weather.problems));
  if (!climate::enough_to_fit(*weather.record))
    throw BadInput(path + " holds too little: 300 days or more are wanted, with some in every month");
  if (!options.quiet) say_gaps(path, weather);
  Scenario fitted = before.value_or(Scenario{});
  const climate::Parameters exact = climate::fit_record(*weather.record, fitted.climate);
  fitted.climate = rounded(exact);
  std::optional<Ends> ends;
  if (const auto half = climate::fit_spread(*weather.record, fitted.climate)) {
    ends = Ends{fitted, fitted};
    ends->low.climate = moved(exact, *half, -1.0);
    ends->high.climate = moved(exact, *half, 1.0);
  }
  const std::string text = fmt::format("# Fitted to {}: {} days from {} on, {} missing in between; hash (a fingerprint of the file) {}.\n"
             "# What each key means: rackwright describe scenario. K: degrees Celsius of a difference.\n"
             "# To use the days themselves instead: file = \"{}\"\n{}",
             path, weather.days, weather.record->first_year, weather.missing_days, weather.hash, path,
             block(fitted, ends, before ? &*before : nullptr, !weather.record->dew_point.empty()));
  if (options.out) write_block(options, text);
  else fmt::print("{}", text);
  return good;
}

}  // namespace

int fit(const Options& options) {
  if (options.words.empty()) throw BadInput("say what to fit: weather or trays");
  if (options.words.front() == "weather") return fit_weather(options);
  if (options.words.front() == "trays") return fit_trays(options);
  throw BadInput(fmt::format("there is no \"fit {}\"; there are fit weather and fit trays", options.words.front()));
}

}  // namespace rackwright::app
