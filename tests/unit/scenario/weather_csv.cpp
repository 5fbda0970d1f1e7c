// Weather files: what is read, what is complained of and where, and what a hostile one does.
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "sim/scenario/weather_csv.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

// The complaint of a line, which must be there.
Problem at_line(const WeatherReading& reading, int line) {
  for (const Problem& problem : reading.problems)
    if (problem.line == line) return problem;
  FAIL("no complaint of line " << line);
  return {};
}

bool says(const Problem& problem, const std::string& piece) { return problem.why.find(piece) != std::string::npos; }

}  // namespace

TEST_CASE("daily extremes in any unit, with other columns between") {
  const auto reading = read_weather("\xEF\xBB\xBF# station log\nDate;rain [mm];T_max (degF);T_min (degF);RH [%]\r\n"
                                    "2020-02-28;0;68;50;50\r\n2020-02-29;1;70;50;60\r\n\n2020-03-01;;77;59;\r\n");
  REQUIRE(reading.record);
  CHECK(reading.problems.empty());
  CHECK(reading.gaps.empty());
  CHECK(reading.days == 3);
  const auto& record = *reading.record;
  CHECK(record.first_year == 2020);
  CHECK(record.years() == 1);
  CHECK(record.maximum[58] == 20.0F);  // 28 February
  CHECK(record.maximum[59] == 25.0F);  // 1 March: 29 February is left out
  CHECK(record.minimum[59] == 15.0F);
  CHECK(record.dew_point[58] == near(4.67, 0.1));  // half of 1705 Pa saturates near there (ASHRAE: 872.6 Pa at 5 degC)
  CHECK(std::isnan(record.dew_point[59]));
  CHECK_FALSE(record.has(60));
}

TEST_CASE("hourly readings become a day when none of it is left out") {
  std::string text = "time, temperature [degC]\n";
  for (int hour = 0; hour < 24; ++hour) text += fmt::format("2021-07-01T{:02}:00, {}\n", hour, 10 + hour % 20);
  for (int hour = 0; hour < 24; ++hour)
    if (hour < 9 || hour > 13) text += fmt::format("2021-07-02 {:02}:00:00, {}\n", hour, hour);
  const auto reading = read_weather(text);
  REQUIRE(reading.record);
  CHECK(reading.days == 1);  // five hours of the second are missing
  CHECK(reading.record->maximum[181] == 29.0F);
  CHECK(reading.record->minimum[181] == 10.0F);
}

TEST_CASE("gaps are told, and are no fault") {
  const auto reading = read_weather("date,tmax [degC],tmin [degC]\n2001-12-30,9,1\n2002-01-02,8,0\n2002-01-03,,\n2002-01-04,8,1\n");
  REQUIRE(reading.record);
  REQUIRE(reading.gaps.size() == 2);
  CHECK(reading.gaps[0].line == 3);
  CHECK(reading.gaps[0].value == "2001-12-31");
  CHECK(says(reading.gaps[0], "2 days are missing"));
  CHECK(reading.gaps[1].value == "2002-01-03");
  CHECK(reading.missing_days == 3);
}

TEST_CASE("what is wrong is told with its line") {
  const auto reading = read_weather("date,tmax [degC],tmin [degC]\n"
                                    "2001-01-01,9,1\n2001-01-01,9,1\n2001-13-01,9,1\n2001-01-03,warm,1\n2001-01-04,1,9\n"
                                    "2001-01-05,140,9\n2001-02-29,9,1\n2001-01-06,9;1\n2001-01-07,\"1,5\",1\n");
  CHECK_FALSE(reading.record);
  CHECK(says(at_line(reading, 3), "is there twice, first in line 2"));
  CHECK(says(at_line(reading, 4), "is not a date"));
  CHECK(says(at_line(reading, 4), "such as 2021-07-31"));
  CHECK(says(at_line(reading, 5), "is not a number"));
  CHECK(at_line(reading, 5).value == "warm");
  CHECK(says(at_line(reading, 6), "lies above the maximum"));
  CHECK(says(at_line(reading, 7), "air lies between"));
  CHECK(says(at_line(reading, 8), "is not a date"));
  CHECK(says(at_line(reading, 9), "is not a number"));
  CHECK(says(at_line(reading, 10), "is not a number"));
  const auto hours = read_weather("time,temp [degC]\n2001-01-01T05:00,1\n2001-01-01T06:00,1\n2001-01-01T05:00,2\n");
  CHECK(says(at_line(hours, 4), "is there twice, first in line 2; where clocks are set back in autumn"));
}

TEST_CASE("a header must name its columns and units") {
  const auto complaint = [](const std::string& header) {
    const auto reading = read_weather(header + "\n2001-01-01,1,2,3\n");
    CHECK_FALSE(reading.record);
    REQUIRE_FALSE(reading.problems.empty());
    CHECK(reading.problems.front().line == 1);
    return reading.problems.front().why;
  };
  CHECK(complaint("date,tmax,tmin [degC]").find("has no unit") != std::string::npos);
  CHECK(complaint("date,tmax [kg],tmin [degC]") != "");
  CHECK(complaint("date,tmax [degC]").find("come together") != std::string::npos);
  CHECK(complaint("tmax [degC],tmin [degC]").find("no column of dates") != std::string::npos);
  CHECK(complaint("date,tmax [degC],tmin [degC],max [degC]").find("twice") != std::string::npos);
  CHECK(complaint("date,rain [mm]").find("neither") != std::string::npos);
  CHECK(complaint("date,tmax [degC").find("come together") != std::string::npos);
}

TEST_CASE("hostile files are refused in a few lines") {
  CHECK_FALSE(read_weather("").record);
  CHECK_FALSE(read_weather(std::string(1000, '\0')).record);
  CHECK_FALSE(read_weather(std::string(100000, ',')).record);
  CHECK_FALSE(read_weather("date,tmax [degC],tmin [degC]\n1801-01-01,1,0\n2100-01-01,1,0\n").record);  // more than a century
  std::string many = "date,tmax [degC],tmin [degC]\n";
  for (int i = 0; i < 5000; ++i) many += "\x1b[31m,nan,inf\n";
  const auto reading = read_weather(many);
  CHECK(reading.problems.size() == 21);
  CHECK(reading.problems.front().value.find('\x1b') == std::string::npos);
  CHECK(says(reading.problems.back(), "and 4980 more"));
  for (const char* path : {"/no/such.csv", "/dev/zero", "/tmp"}) {
    const auto refused = read_weather_file(path);
    CHECK_FALSE(refused.record);
    CHECK(refused.problems.size() == 1);
  }
  for (const char* number : {"1e999", "0x10", "--1", "1 2", "+", "."}) {
    INFO(number);
    CHECK_FALSE(read_weather(std::string("date,tmax [degC],tmin [degC]\n2001-01-01,") + number + ",0\n").record);
  }
}

TEST_CASE("the hash is FNV-1a's") {
  // Published test values of the 64-bit FNV-1a hash (Fowler, Noll & Vo): of nothing, and of "a".
  CHECK(content_hash("") == "cbf29ce484222325");
  CHECK(content_hash("a") == "af63dc4c8601ec8c");
}
