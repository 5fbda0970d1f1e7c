#include "sim/scenario/forecast.hpp"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/weather_csv.hpp"

namespace rackwright {
namespace {

constexpr double coldest = -60.0, hottest = 60.0;
constexpr std::size_t most_days = 60;

std::optional<double> number(std::string_view text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  for (std::size_t at = 0; (at = text.find_first_not_of(" ,;\t", at)) != std::string::npos;) {
    const std::size_t end = std::min(text.find_first_of(" ,;\t", at), text.size());
    words.push_back(text.substr(at, end - at));
    at = end;
  }
  return words;
}

bool is_typed(const std::vector<std::string>& words) {
  const std::string& first = words.front();
  const auto slash = first.find('/');
  return slash != std::string::npos && number(first.substr(0, slash)) && number(first.substr(slash + 1));
}

/// Days with a decimal comma, "38,5/22": commas part days here.
Problems decimal_commas(const std::string& text) {
  Problems problems;
  int number_of_day = 0;
  for (std::size_t at = 0; (at = text.find_first_not_of(" ;\t", at)) != std::string::npos;) {
    const std::size_t end = std::min(text.find_first_of(" ;\t", at), text.size());
    std::string day = text.substr(at, end - at);
    at = end;
    number_of_day += static_cast<int>(words_of(day).size());
    while (day.ends_with(',')) day.pop_back();
    const std::string written = day;
    std::replace(day.begin(), day.end(), ',', '.');
    if (day == written || std::count(day.begin(), day.end(), '/') != 1) continue;
    const auto slash = day.find('/');
    number_of_day += 1 - static_cast<int>(words_of(written).size());  // one day after all
    if (!number(std::string_view(day).substr(0, slash)) || !number(std::string_view(day).substr(slash + 1))) continue;
    problems.push_back({0, fmt::format("--forecast, day {} ({})", number_of_day, written), "", fmt::format("commas stand between days, and decimals have a point: {}", day), ""});
  }
  return problems;
}

std::variant<Forecast, Problems> typed(std::vector<std::string> words, std::chrono::sys_days first, bool us) {
  bool fahrenheit = us;
  if (words.size() > 1) {
    const std::string& last = words.back();
    const bool in_f = last == "degF" || last == "F" || last == "°F", in_c = last == "degC" || last == "C" || last == "°C";
    if (in_f || in_c) words.pop_back(), fahrenheit = in_f;
  }
  Forecast days;
  Problems problems;
  int number_of_day = 0;
  const auto complain = [&](const std::string& word, std::string why) {
    problems.push_back({0, fmt::format("--forecast, day {} ({})", number_of_day, one_line(word)), "", std::move(why), ""});
  };
  for (const std::string& word : words) {
    ++number_of_day;
    const auto slash = word.find('/');
    const auto high = slash == std::string::npos ? std::nullopt : number(std::string_view(word).substr(0, slash));
    const auto low = slash == std::string::npos ? std::nullopt : number(std::string_view(word).substr(slash + 1));
    if (!high || !low) {
      complain(word, "is no day: write its highest and lowest temperature, such as 38/22");
      continue;
    }
    const auto celsius = [&](double value) { return fahrenheit ? (value - 32.0) / 1.8 : value; };
    const ForecastDay day{first + std::chrono::days(static_cast<int>(days.size())), celsius(*high), celsius(*low)};
    if (day.maximum < day.minimum) complain(word, fmt::format("the day's highest first, as in {}/{}", word.substr(slash + 1), word.substr(0, slash)));
    else if (!(day.maximum >= day.minimum)) complain(word, "is no day: write its highest and lowest temperature, such as 38/22");
    else if (!(day.minimum >= coldest && day.maximum <= hottest))
      complain(word, fmt::format("is beyond {} to {} degC; it was read in {}", coldest, hottest, fahrenheit ? "degF" : "degC"));
    days.push_back(day);
  }
  if (days.size() > most_days)
    problems.push_back({0, "--forecast", fmt::format("{} days", days.size()), fmt::format("are more than {}", most_days), ""});
  if (!problems.empty()) return problems;
  return days;
}

std::variant<Forecast, Problems> from_file(const std::string& path, std::chrono::sys_days first) {
  WeatherReading reading = read_weather_file(path);
  if (!reading.record) {
    for (Problem& problem : reading.problems)
      if (problem.why == "there is no such file") problem.why = "is no weather file that is there; temperatures are written 38/22 40/24";
    return reading.problems;
  }
  const climate::Record& record = *reading.record;
  Forecast days;
  for (int offset = -60; offset <= 400; ++offset) {
    const std::chrono::sys_days day = first + std::chrono::days(offset);
    const std::chrono::year_month_day date(day);
    using namespace std::chrono;
    if (date.month() == February && date.day() == std::chrono::day(29)) continue;  // a record has 365 days a year
    const sys_days new_year(year_month_day(date.year(), January, std::chrono::day(1)));
    auto of_year = (day - new_year).count();
    if (date.year().is_leap() && date.month() > February) --of_year;
    const long at = 365L * (static_cast<int>(date.year()) - record.first_year) + of_year;
    if (at < 0 || static_cast<std::size_t>(at) >= record.size() || !record.has(static_cast<std::size_t>(at))) continue;
    const auto i = static_cast<std::size_t>(at);
    days.push_back({day, static_cast<double>(record.maximum[i]), static_cast<double>(record.minimum[i])});
  }
  if (days.empty()) return Problems{{0, path, "", "holds no day within 60 before the start and 400 after it", ""}};
  return days;
}

}  // namespace

std::variant<Forecast, Problems> read_forecast(const std::string& text, std::chrono::sys_days first, const Scenario& scenario) {
  auto words = words_of(text);
  if (words.empty()) return Problems{{0, "--forecast", "", "says nothing: write 38/22 40/24, or name a weather file", ""}};
  if (Problems commas = decimal_commas(text); !commas.empty()) return commas;
  if (is_typed(words)) return typed(std::move(words), first, scenario.units == Units::us);
  return from_file(text, first);
}

}  // namespace rackwright
