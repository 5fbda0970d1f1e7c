// Which days of a log count: those without long silences, and without a sensor that is stuck.
#include "sim/scenario/weather_days.hpp"

#include <functional>
#include <string>

#include <fmt/format.h>

#include "sim/scenario/weather_csv.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

/// Hourly readings of some days of July 2021 from the first on, where `there` says so.
std::string log_of(int days, const std::function<bool(int day, int hour)>& there, const std::function<double(int day, int hour)>& celsius) {
  std::string text = "time, temperature [degC]\n";
  for (int day = 1; day <= days; ++day)
    for (int hour = 0; hour < 24; ++hour)
      if (there(day, hour)) text += fmt::format("2021-07-{:02}T{:02}:00, {:.1f}\n", day, hour, celsius(day, hour));
  return text;
}

double swing(int, int hour) { return 20.0 + (hour < 12 ? hour : 24 - hour); }
bool always(int, int) { return true; }
std::string first_why(const WeatherReading& reading) { return reading.problems.empty() ? "" : reading.problems.front().why; }

}  // namespace

TEST_CASE("a day with more than four hours of silence does not count, and a night is one silence") {
  // From four in the morning to eight in the evening: eight hours of every night are silent, four of each day and four of the next.
  const auto days_only = read_weather(log_of(5, [](int, int hour) { return hour >= 4 && hour <= 20; }, swing));
  CHECK_FALSE(days_only.record);
  CHECK(first_why(days_only).find("no day has its weather: on every day 8 hours or more go by without a reading") == 0);
  CHECK_FALSE(read_weather(log_of(1, [](int, int hour) { return hour >= 4 && hour <= 20; }, swing)).record);
  // Four hours of every night: just allowed.
  CHECK(read_weather(log_of(5, [](int, int hour) { return hour >= 2 && hour <= 22; }, swing)).days == 5);
  // From eight in the evening of the second to five in the morning of the third: five hours of the third.
  const auto once = read_weather(log_of(5, [](int day, int hour) { return !(day == 2 && hour > 20) && !(day == 3 && hour < 5); }, swing));
  CHECK(once.days == 4);
  REQUIRE(once.gaps.size() == 1);
  CHECK(once.gaps[0].value == "2021-07-03");
  CHECK(once.gaps[0].why == "1 day is missing from here on");
  // A day without any reading takes nothing from those about it, whose last and first hours are there.
  CHECK(read_weather(log_of(5, [](int day, int) { return day != 3; }, swing)).days == 4);
  // Silent from five in the afternoon until midnight: the day that begins then is whole.
  CHECK(read_weather(log_of(3, [](int day, int hour) { return !(day == 2 && hour > 17); }, swing)).days == 2);
}

TEST_CASE("readings too rare to tell a day's extremes are refused with the reason") {
  const auto rare = read_weather(log_of(5, [](int, int hour) { return hour % 6 == 0; }, swing));
  CHECK(first_why(rare).find("no day has its weather: on every day 6 hours or more go by without a reading") == 0);
  CHECK(read_weather(log_of(5, [](int, int hour) { return hour % 4 == 0; }, swing)).days == 5);
  const auto means = read_weather("date, temperature [degC]\n1969-12-31, 5\n1970-01-01, 5.2\n1970-01-02, 7\n");
  CHECK(first_why(means).find("no day has its weather: there is one reading a day") == 0);
  CHECK(first_why(read_weather("date, tmax [degC], tmin [degC]\n2021-07-01,, 7\n")) == "no day has its weather: no line has both a maximum and a minimum");
  CHECK(first_why(read_weather("date, tmax [degC], tmin [degC]\n")) == "no day has its weather: there is no line below the first");
}

TEST_CASE("days before 1970 are as whole as later ones") {
  std::string text = "time, temperature [degC]\n";
  for (const char* day : {"1969-12-30", "1969-12-31", "1970-01-01"})
    for (int hour = 0; hour < 24; hour += 3) text += fmt::format("{}T{:02}:00, {}\n", day, hour, hour);
  CHECK(read_weather(text).days == 3);
}

TEST_CASE("a sensor that is stuck for three days or more measures nothing, and the days are named") {
  const auto stuck = [](int from, int until) {
    return [=](int day, int hour) { return day >= from && day <= until ? 22.4 : swing(day, hour); };
  };
  const auto week = read_weather(log_of(20, always, stuck(7, 13)));
  REQUIRE(week.record);
  CHECK(week.days == 13);
  CHECK(week.missing_days == 7);
  REQUIRE(week.gaps.size() == 1);
  CHECK(week.gaps[0].value == "2021-07-07");
  CHECK(week.gaps[0].why == "7 days are missing from here on: the temperature never moved, as of a sensor that is stuck");
  CHECK_FALSE(week.record->has(181 + 6));
  CHECK(week.record->has(181 + 13));
  CHECK(read_weather(log_of(20, always, stuck(7, 8))).days == 20);  // two days of fog may be
  const auto last = read_weather(log_of(20, always, stuck(15, 20)));
  CHECK(last.days == 14);
  REQUIRE(last.gaps.size() == 1);
  CHECK(last.gaps[0].value == "2021-07-15");
  const auto beside = read_weather(log_of(20, [](int day, int) { return day != 6; }, stuck(7, 13)));
  REQUIRE(beside.gaps.size() == 1);
  CHECK(beside.gaps[0].why == "8 days are missing from here on, 7 of them left out here: the temperature never moved, as of a sensor that is stuck");
}

TEST_CASE("a file whose highs are its lows is no record of extremes") {
  std::string text = "date,tmax [degC],tmin [degC]\n";
  for (int day = 1; day <= 9; ++day) text += fmt::format("2021-07-{:02},{},{}\n", day, 20 + day, 20 + day);
  CHECK(first_why(read_weather(text)).find("no day has its weather: the highest of each is its lowest") == 0);
}
