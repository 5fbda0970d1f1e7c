// rackwright fit: from what was measured to keys of a scenario.
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "models/climate/fitted_values.hpp"
#include "models/climate/record_blocks.hpp"
#include "models/climate/record_spread.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/fit_trays.hpp"
#include "sim/app/say.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/weather.hpp"
#include "sim/scenario/weather_csv.hpp"
#include "sim/scenario/weather_keys.hpp"

namespace rackwright::app {
namespace {

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
  for (const climate::FittedValue& value : climate::fitted_values()) line(value.key);
  if (dew)
    for (const climate::FittedValue& value : climate::fitted_dew_values()) line(value.key);
  return text;
}

/// To what a record can tell.
climate::Parameters rounded(climate::Parameters p) {
  for (const auto& list : {climate::fitted_values(), climate::fitted_dew_values()})
    for (const climate::FittedValue& value : list) value.set(p, std::round(value.get(p) * value.parts) / value.parts + 0.0);  // + 0: no -0
  return p;
}

climate::Parameters moved(climate::Parameters p, const climate::FitSpread& spread, double by) {
  const auto values = climate::fitted_values();
  for (std::size_t k = 0; k < values.size(); ++k)
    if (values[k].told) values[k].set(p, values[k].get(p) + spread.lacks[k] + by * spread.half[k]);
  return rounded(p);
}

void say_gaps(const std::string& path, const WeatherReading& reading) {
  constexpr std::size_t most_shown = 20;
  for (std::size_t i = 0; i < reading.gaps.size() && i < most_shown; ++i) {
    const Problem& gap = reading.gaps[i];
    message("{}:{}: {}: {}\n", path, gap.line, gap.value, gap.why);
  }
  if (reading.gaps.size() > most_shown) message("{}: and {} more gaps\n", path, reading.gaps.size() - most_shown);
}

/// No block is written that `check` would refuse.
void refuse_what_cannot_be(const std::string& path, const Scenario& fitted) {
  if (const auto why = beyond_keys(fitted)) throw BadInput(path + " " + *why);
  Scenario drawn = fitted;
  drawn.weather = {};
  for (const Problem& problem : check_scenario(drawn))
    if (problem.key.starts_with("climate.")) throw BadInput(fmt::format("{} tells of weather that cannot be played: {} = {}: {}", path, problem.key, problem.value, problem.why));
}

/// How to take the days of the file in place of what is fitted to them, where that can be.
std::string days_themselves(const std::string& path, const climate::Record& record, const Scenario& fitted) {
  const int block = static_cast<int>(in_days(fitted.weather.block));
  const int longest = climate::longest_block(climate::prepare(record, fitted.climate.mean), block);
  if (longest < shortest_block) return fmt::format("The days themselves cannot be used: on some days of the year no year has {} without a gap.", shortest_block);
  std::string text = fmt::format("To use the days themselves instead: file = \"{}\"", path);
  if (longest < block) text += fmt::format(" and block = \"{} d\" (no longer one is without a gap all year)", longest);
  return text;
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
  if (!options.quiet) say_gaps(path, weather);
  if (!climate::enough_to_fit(*weather.record)) throw BadInput(path + " " + too_little_words(*weather.record));
  Scenario fitted = before.value_or(Scenario{});
  const climate::Parameters exact = climate::fit_record(*weather.record, fitted.climate);
  fitted.climate = rounded(exact);
  refuse_what_cannot_be(path, fitted);
  std::optional<Ends> ends;
  if (const auto half = climate::fit_spread(*weather.record, fitted.climate)) {
    ends = Ends{fitted, fitted};
    ends->low.climate = moved(exact, *half, -1.0);
    ends->high.climate = moved(exact, *half, 1.0);
  }
  const std::string text = fmt::format("# Fitted to {}: {} days from {} on, {} missing in between; hash (a fingerprint of the file) {}.\n"
             "# What each key means: rackwright describe scenario. K: degrees Celsius of a difference.\n"
             "# {}\n{}",
             path, weather.days, weather.record->first_year, weather.missing_days, weather.hash, days_themselves(path, *weather.record, fitted),
             block(fitted, ends, before ? &*before : nullptr, climate::tells_dew(*weather.record)));
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
