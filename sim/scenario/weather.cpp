#include "sim/scenario/weather.hpp"

#include <chrono>
#include <filesystem>
#include <utility>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "models/climate/record_blocks.hpp"
#include "sim/scenario/weather_csv.hpp"
#include "sim/scenario/weather_keys.hpp"
#include "sim/scenario/year_day.hpp"

namespace rackwright {

namespace {

/// "5 December".
std::string plain_date(int day_of_year) {
  const std::chrono::year_month_day date(plain_new_year + std::chrono::days(day_of_year - 1));
  return fmt::format("{} {:%B}", static_cast<unsigned>(date.day()), std::chrono::sys_days(date));
}

}  // namespace

std::string too_little_words(const climate::Record& record) {
  std::size_t days = 0;
  for (std::size_t i = 0; i < record.size(); ++i) days += record.has(i) ? 1U : 0U;
  return fmt::format("holds too little: 300 days or more are wanted, with some in every month; it has {}", days);
}

std::optional<std::string> take_weather(Scenario& scenario, climate::Record record) {
  if (!climate::enough_to_fit(record)) return too_little_words(record);
  Scenario fitted = scenario;
  fitted.climate = climate::fit_record(record, scenario.climate);
  if (auto why = beyond_keys(fitted)) return why;
  scenario.climate = fitted.climate;
  scenario.weather.record =
      std::make_shared<const climate::RecordedWeather>(climate::prepare(std::move(record), scenario.climate.mean));
  return std::nullopt;
}

Problems load_weather(Scenario& scenario, const std::string& folder) {
  MeasuredWeather& weather = scenario.weather;
  if (weather.file.empty() || weather.record) return {};
  const std::filesystem::path path = std::filesystem::path(folder) / weather.file;
  WeatherReading reading = read_weather_file(path.string());
  Problems problems;
  for (const Problem& found : reading.problems) {
    std::string where = found.line > 0 ? fmt::format("{}, line {}", weather.file, found.line) : weather.file;
    if (found.line > 0 && !found.key.empty()) where += fmt::format(", {} \"{}\"", found.key, found.value);
    problems.push_back({0, "climate.file", std::move(where), found.why, found.suggestion});
  }
  if (!problems.empty()) return problems;
  const auto refuse = [&](std::string why) { return Problems{{0, "climate.file", weather.file, std::move(why), ""}}; };
  if (!weather.hash.empty() && weather.hash != reading.hash)
    return refuse(fmt::format("is not the file this was written for: its hash is {}, not {}", reading.hash, weather.hash));
  if (auto why = take_weather(scenario, std::move(*reading.record))) {
    if (reading.missing_days > 0) *why += fmt::format("; {} are missing in between (rackwright fit weather tells which)", reading.missing_days);
    return refuse(std::move(*why));
  }
  weather.hash = reading.hash;
  return {};
}

Problems check_weather(const Scenario& scenario) {
  const MeasuredWeather& weather = scenario.weather;
  if (!weather.record) {
    if (weather.file.empty()) return {};
    return {{0, "climate.file", weather.file, "has not been read; it is read with a scenario file that names it", ""}};
  }
  const int length = static_cast<int>(in_days(weather.block));
  const int day = climate::scarcest_day(*weather.record, length);
  if (climate::candidates(*weather.record, day, length) > 0) return {};
  const int longest = climate::longest_block(*weather.record, length);
  if (longest >= shortest_block)
    return {{0, "climate.block", fmt::format("{} d", length),
             fmt::format("no year of the weather file has so many days without a gap from {} on: write {} d, the longest that it has for every day of the year", plain_date(day), longest), ""}};
  return {{0, "climate.file", weather.file,
           fmt::format("has in no year {} days without a gap from {} on: fill that gap, or take what rackwright fit weather finds in place of the file", shortest_block,
                       plain_date(climate::scarcest_day(*weather.record, shortest_block))), ""}};
}

}  // namespace rackwright
