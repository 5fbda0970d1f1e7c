// Cells of a weather file: which moments and numbers are read, what stands for a missing one, and what moisture comes to.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/scenario/weather_columns.hpp"
#include "sim/scenario/weather_csv.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::weather;

namespace {

std::string first_why(const WeatherReading& reading) { return reading.problems.empty() ? "" : reading.problems.front().why; }

/// A day of readings every hour, the given cells behind the temperature.
std::string hourly(const std::string& head, const std::string& cells) {
  std::string text = "time, temperature [degC]" + head + "\n";
  for (int hour = 0; hour < 24; ++hour) text += fmt::format("2021-07-01T{:02}:00, 20{}\n", hour, cells);
  return text;
}

}  // namespace

TEST_CASE("a moment is a day, alone or with its hour, minute and second, in the farm's time or marked as universal") {
  const auto minute = [](const char* text) { return read_moment(text).value().minute; };
  CHECK(minute("2021-07-31") == 0);
  CHECK(minute("2021-07-31T14") == 840);
  CHECK(minute("2021-07-31 14:05") == 845);
  CHECK(minute("2021-07-31T14:05:59") == 845);
  CHECK(minute("2021-07-31T14:05Z") == 845);
  CHECK(minute("2021-07-31T23:59") == 1439);
  CHECK(static_cast<int>(read_moment("1800-01-01").value().date.year()) == 1800);
  CHECK(static_cast<int>(read_moment("2200-12-31").value().date.year()) == 2200);
  for (const char* bad : {"2021-07-31T14:00:60", "2021-07-31T14:00:xx", "", "2021", "2021-7-31", "2021/07/31", "2021-07.31", "1799-12-31", "2201-01-01", "2021-00-10", "2021-01-00", "2021-02-29", "2021-13-01",
                          "2021-07-31T", "2021-07-31T1", "2021-07-31T24:00", "2021-07-31T14:60", "2021-07-31T14-00", "2021-07-31x14:00", "2021-07-31T14:0",
                          "2021-07-31T-1:00", "2021-07-31T14:-5", "2021-07-31T14:05-59", "-021-07-31", "20a1-07-31", "2021-07-3x", "2021-07-31Z"}) {
    INFO(bad);
    CHECK_FALSE(read_moment(bad).has_value());
  }
}

TEST_CASE("what stands for a missing number is none, and what is no number is told") {
  Problems problems;
  const Header header = read_header("date\ttmax [degF]\ttmin [degF]\tnotes", 1, problems);
  REQUIRE(problems.empty());
  REQUIRE(header.separator == '\t');
  const auto highest = [&](const std::string& cell) { return read_cell(header, cells_of("2021-07-01\t" + cell + "\t50", '\t'), Column::maximum); };
  CHECK(highest("+68").value() == Approx(20.0));
  CHECK(highest("\"68\"").value() == Approx(20.0));
  for (const char* none : {"", "NA", "NaN", "nan", "-"}) CHECK(std::isnan(highest(none).value()));
  CHECK(highest("59,9").value() == Approx(15.5));  // commas part nothing here
  for (const char* bad : {"2021-07-31T14:00:60", "2021-07-31T14:00:xx", "warm", "68F", "6,8,1", "6,8.1", "1e999", "inf", "+", "--5"}) {
    INFO(bad);
    CHECK_FALSE(highest(bad).has_value());
  }
  CHECK(std::isnan(read_cell(header, cells_of("2021-07-01", '\t'), Column::minimum).value()));  // a line cut short
}

TEST_CASE("decimal commas are read where semicolons or tabs part the cells, and named where commas do") {
  for (const char separator : {';', '\t'}) {
    std::string text = "date;tmax [degC];tmin [degC];humidity [%]\n2021-07-01;30,5;-10,25;66,5\n2021-07-02;30.5;10;66\n";
    std::replace(text.begin(), text.end(), ';', separator);
    const WeatherReading reading = read_weather(text);
    INFO(first_why(reading));
    REQUIRE(reading.record);
    CHECK(reading.record->maximum[181] == Approx(30.5));
    CHECK(reading.record->minimum[181] == Approx(-10.25));
    CHECK(reading.record->maximum[182] == Approx(30.5));
  }
  CHECK(first_why(read_weather("date,tmax [degC],tmin [degC]\n2021-07-01,\"30,5\",10\n")).starts_with("is not a number (decimals have a point where commas part"));
}

TEST_CASE("cells beyond those that the first line names are refused, as decimal commas where commas part the cells make them") {
  const WeatherReading commas = read_weather("date,tmax [degC],tmin [degC]\n2022-01-01,38,5,22,0\n2022-01-02,30,10\n");
  CHECK_FALSE(commas.record);
  REQUIRE(commas.problems.size() == 1);
  CHECK(commas.problems.front().line == 2);
  CHECK(commas.problems.front().value == "22");
  CHECK(commas.problems.front().why.starts_with("has more cells than the first line names: decimals have a point"));
  CHECK(first_why(read_weather("date;tmax [degC];tmin [degC]\n2022-01-01;38,5;22;0\n")).starts_with("has more cells than the first line names; notes"));
  CHECK(read_weather("date,tmax [degC],tmin [degC]\n2022-01-01,38.5,22,\n2022-01-02,38.5,22, ,\n").days == 2);  // separators at the end of a line
  CHECK(read_weather("date,tmax [degC],tmin [degC],note\n2022-01-01,38.5,22,\"dry, windy\"\n2022-01-02,38.5,22\n").days == 2);
  CHECK_FALSE(read_weather(hourly("", "") + "2021-07-02T00:00, 20, 5\n").record);
}

TEST_CASE("humidities that are shares under a heading of per cent are refused") {
  const auto days = [](const char* unit, const char* first, const char* second) {
    return read_weather(fmt::format("date,tmax [degC],tmin [degC],RH [{}]\n2021-07-01,30,10,{}\n2021-07-02,30,10,{}\n", unit, first, second));
  };
  const WeatherReading shares = days("%", "0.6", "1");
  CHECK_FALSE(shares.record);
  REQUIRE(shares.problems.size() == 1);
  CHECK(shares.problems.front().line == 1);
  CHECK(shares.problems.front().why.find("if these are shares, such as 0.6, the first line must say so: humidity [1]") != std::string::npos);
  CHECK(days("1", "0.6", "1").record);
  CHECK(days("%", "0.6", "").problems.size() == 1);
  CHECK(days("%", "0.6", "1.5").record);  // a sensor that reads next to nothing on one day
  CHECK(days("%", "", "").record);
}

TEST_CASE("a dew point above the warmest of the day is no dew point") {
  const auto day = [](const char* dew) { return read_weather(fmt::format("date,tmax [degC],tmin [degC],dew point [degC]\n2021-07-01,20.3,10,9\n2021-07-02,20.3,10,{}\n", dew)); };
  const WeatherReading above = day("23.3");
  CHECK_FALSE(above.record);
  REQUIRE(above.problems.size() == 1);
  CHECK(above.problems.front().line == 3);
  CHECK(above.problems.front().key == "dew point");
  CHECK(above.problems.front().value == "23.3");
  CHECK(above.problems.front().why.starts_with("lies above the maximum, 20.3"));
  CHECK(day("21.2").record);  // both rounded
  CHECK(first_why(read_weather("time,temperature [degF],dew point [degF]\n2021-07-01T12:00,50,55\n")).starts_with("lies above the temperature, 50"));
}

TEST_CASE("a date in another form is answered with the same date as it is read") {
  const auto why = [](const char* date) { return first_why(read_weather(std::string("date;tmax [degC];tmin [degC]\n") + date + ";9;1\n")); };
  for (const char* date : {"01.02.2023", "1.2.2023", "1-2-2023", "01.02.2023 14:00"}) {
    INFO(date);
    CHECK(why(date) == "is not a date as it is read here: write the year first: 2023-02-01");
  }
  CHECK(why("01/02/2023").ends_with("write the year first: 2023-02-01 or 2023-01-02"));  // here the day stands first, there the month
  CHECK(why("12/31/2023").ends_with("write the year first: 2023-12-31"));
  CHECK(why("2023-2-1").ends_with("write month and day with two figures: 2023-02-01"));
  CHECK(why("2023/02/01").ends_with(": 2023-02-01"));
  for (const char* date : {"yesterday", "30.02.2023", "1.2.23", "01.2023", "2023-02-01x", "257.257.2023", "-1.-1.2023", ".", "99999999999.1.2023"}) {
    INFO(date);
    CHECK(why(date) == "is not a date such as 2021-07-31");
  }
  CHECK(why("") == "is not stated; dates are written 2021-07-31");
}

TEST_CASE("moisture of the air: a dew point as it stands, or a share of the saturated") {
  const auto day = [](const std::string& head, const std::string& cell) { return read_weather("date,tmax [degC],tmin [degC]," + head + "\n2021-07-01,30,10," + cell + "\n"); };
  CHECK(day("dew point [degC]", "9.5").record->dew_point[181] == near(9.5, 0.05));
  CHECK(std::isnan(day("dew point [degC]", "").record->dew_point[181]));
  CHECK(day("humidity [%]", "100").record->dew_point[181] == near(20.0, 0.05));
  CHECK(day("humidity [%]", "104").record->dew_point[181] == near(20.0, 0.05));  // a sensor in fog reads a little over
  CHECK(std::isnan(day("humidity [%]", "NA").record->dew_point[181]));
  for (const char* bad : {"2021-07-31T14:00:60", "2021-07-31T14:00:xx", "106", "-1", "damp"}) {
    INFO(bad);
    CHECK(first_why(day("humidity [%]", bad)) == "is not a relative humidity of 0 to 100 %");
  }
  CHECK(first_why(day("dew point [degC]", "99")).starts_with("is 99 degC; air lies between"));
  CHECK(first_why(day("dew point [degC]", "wet")).starts_with("is not a number"));
  CHECK(read_weather(hourly(", RH [%]", ", 100")).record->dew_point[181] == near(20.0, 0.05));
  CHECK(first_why(read_weather(hourly(", RH [%]", ", 130"))) == "is not a relative humidity of 0 to 100 %");
}

TEST_CASE("a day that lacks part of its readings, or one of its ends, is a gap and no day") {
  CHECK(read_weather("date,tmax [degC],tmin [degC]\n2021-07-01,,10\n2021-07-02,30,\n2021-07-03,30,10\n").days == 1);
  std::string late = "time, temperature [degC]\n";
  for (int hour = 5; hour < 24; ++hour) late += fmt::format("2021-07-01T{:02}:00, 20\n", hour);  // nothing before five
  CHECK(first_why(read_weather(late)).starts_with("no day has its weather: on every day 5 hours or more go by without a reading"));
  std::string early = "time, temperature [degC]\n";
  for (int hour = 0; hour < 19; ++hour) early += fmt::format("2021-07-01T{:02}:00, 20\n", hour);  // nothing after six in the evening
  CHECK(first_why(read_weather(early)).starts_with("no day has its weather: on every day 6 hours or more go by without a reading"));
  CHECK(first_why(read_weather(hourly("", "") + "2021-07-01T12:30, hot\n")).starts_with("is not a number"));
  CHECK(read_weather(hourly("", "") + "2021-07-01T12:30,\n").days == 1);  // an empty reading between others takes nothing away
}

TEST_CASE("days outside the air's range are told with the degrees they were read as") {
  const auto cold = read_weather("date,tmax [degF],tmin [degF]\n2021-07-01,60,-200\n");
  CHECK(first_why(cold) == "is -128.9 degC; air lies between -90 and 60");
  CHECK(cold.problems.front().value == "-200");
  CHECK(first_why(read_weather("date,tmax [degC],tmin [degC]\n2021-07-01,61,10\n")) == "is 61 degC; air lies between -90 and 60");
}

TEST_CASE("a header must say each unit, of temperatures and of moisture") {
  const auto why = [](const char* head) { return first_why(read_weather(std::string(head) + "\n2021-07-01,30,10,50\n")); };
  CHECK(why("date,tmax,tmin [degC]") == "has no unit; write it beside the name, as in \"maximum [degC]\"");
  CHECK(why("date,tmax [degC],tmin [degC],humidity") == "has no unit; write it beside the name, as in \"humidity [%]\"");
  CHECK(why("date,tmax [kg],tmin [degC]").find("is not") != std::string::npos);
  CHECK(why("date,tmax [degC],tmax [degC]") == "is there twice");
  CHECK(why("tmax [degC],tmin [degC]") == "the first line names no column of dates");
  CHECK(why("date,tmax [degC]").starts_with("daily maximum and minimum come together"));
  CHECK(why("date,tmin [degC]").starts_with("daily maximum and minimum come together"));
}
