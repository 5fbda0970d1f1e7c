#include "sim/scenario/weather.hpp"

#include <filesystem>
#include <utility>

#include <fmt/format.h>

#include "sim/scenario/weather_csv.hpp"

namespace rackwright {

std::optional<std::string> take_weather(Scenario& scenario, climate::Record record) {
  if (!climate::enough_to_fit(record)) return "holds too little: 300 days or more are wanted, with some in every month";
  scenario.climate = climate::fit_record(record, scenario.climate);
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
  if (auto why = take_weather(scenario, std::move(*reading.record))) return refuse(std::move(*why));
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
  return {{0, "climate.block", fmt::format("{} d", length),
           fmt::format("no year of the weather file has that many days without a gap from day {} of the year on", day),
           "shorter blocks, or a longer record"}};
}

}  // namespace rackwright
