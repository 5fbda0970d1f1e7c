#include "sim/scenario/forecast.hpp"

#include <cstdio>
#include <fstream>

#include "tests/catch.hpp"
#include "tests/farm.hpp"
#include "tests/program.hpp"

using namespace rackwright;
using std::chrono::sys_days;

namespace {

constexpr sys_days first{std::chrono::year(2026) / 7 / 14};

std::size_t faults(const std::string& text, const Scenario& farm = test::small_farm()) {
  const auto read = read_forecast(text, first, farm);
  const auto* problems = std::get_if<Problems>(&read);
  return problems == nullptr ? 0 : problems->size();
}

}  // namespace

TEST_CASE("forecast: typed days follow one another in the scenario's degrees") {
  const auto read = std::get<Forecast>(read_forecast("38/22 40.5/24, 36/-1", first, test::small_farm()));
  REQUIRE(read.size() == 3);
  CHECK(read[0].day == first);
  CHECK(read[1].maximum == 40.5);
  CHECK(read[2].minimum == -1.0);
  CHECK(read[2].day == first + std::chrono::days(2));
  Scenario us = test::small_farm();
  us.units = Units::us;
  CHECK(std::get<Forecast>(read_forecast("104/68", first, us))[0].maximum == Approx(40.0));
  CHECK(std::get<Forecast>(read_forecast("40/20 degC", first, us))[0].maximum == 40.0);
  CHECK(std::get<Forecast>(read_forecast("104/68 degF", first, test::small_farm()))[0].minimum == Approx(20.0));
}

TEST_CASE("forecast: what cannot be weather is refused, all of it at once") {
  CHECK(faults("38/22 22/38 hot 99/20") == 3);
  CHECK(faults("104/68") == 1);  // degrees Fahrenheit where the scenario has Celsius
  CHECK(faults("") == 1);
  CHECK(faults("nan/nan") == 1);
  CHECK(faults("no-such-file.csv") == 1);
  std::string many;
  for (int i = 0; i < 61; ++i) many += "20/10 ";
  CHECK(faults(many) == 1);
}

TEST_CASE("forecast: what is wrong names the option and the day, the order and the decimal comma") {
  const auto told = [](const char* text) {
    const auto read = read_forecast(text, first, test::small_farm());
    std::string all;
    for (const Problem& p : std::get<Problems>(read)) all += (all.empty() ? "" : "\n") + p.key + ": " + p.why;
    return all;
  };
  CHECK(told("22/38 25/41") == "--forecast, day 1 (22/38): the day's highest first, as in 38/22\n--forecast, day 2 (25/41): the day's highest first, as in 41/25");
  CHECK(told("38,5/22 40/24") == "--forecast, day 1 (38,5/22): commas stand between days, and decimals have a point: 38.5/22");
  CHECK(told("38/22, 40/24 41/25,5").starts_with("--forecast, day 3 (41/25,5): commas stand between days, and decimals have a point: 41/25.5"));
  CHECK(told("38/22 hot").starts_with("--forecast, day 2 (hot): is no day"));
  CHECK(told("") == "--forecast: says nothing: write 38/22 40/24, or name a weather file");
  for (const char* sound : {"38/22,40/24", "38/22, 40/24,", "38.5/22;40/24"}) CHECK(faults(sound) == 0);
}

TEST_CASE("forecast: a weather file gives the days about the start, before it too") {
  const test::Folder folder;
  const auto path = folder.write("w.csv", "date,tmax [degC],tmin [degC]\n2026-07-12,30,15\n2026-07-14,31,16\n2026-07-15,,\n2026-07-16,33,18\n2028-07-16,9,8\n");
  const auto read = std::get<Forecast>(read_forecast(path, first, test::small_farm()));
  REQUIRE(read.size() == 3);
  CHECK(read[0].day == first - std::chrono::days(2));
  CHECK(read[2].day == first + std::chrono::days(2));
  CHECK(read[2].maximum == 33.0);
  CHECK(faults(folder.write("old.csv", "date,tmax [degC],tmin [degC]\n2001-07-12,30,15\n")) == 1);
}

TEST_CASE("forecast: degrees may be named behind the days in any of their ways, and limits are told in the degrees that were read") {
  Scenario us = test::small_farm();
  us.units = Units::us;
  for (const char* unit : {"degC", "C", "°C"}) CHECK(std::get<Forecast>(read_forecast(std::string("40/20 ") + unit, first, us))[0].maximum == 40.0);
  for (const char* unit : {"degF", "F", "°F"}) CHECK(std::get<Forecast>(read_forecast(std::string("104/68 ") + unit, first, test::small_farm()))[0].maximum == Approx(40.0));
  const auto why = [&](const char* text, const Scenario& farm) { return std::get<Problems>(read_forecast(text, first, farm)).front().why; };
  CHECK(why("61/20", test::small_farm()) == "is beyond -60 to 60 degC; it was read in degC");
  CHECK(why("20/-61", test::small_farm()) == "is beyond -60 to 60 degC; it was read in degC");
  CHECK(why("150/68", us) == "is beyond -60 to 60 degC; it was read in degF");
  CHECK(why("38/22 40/", test::small_farm()) == "is no day: write its highest and lowest temperature, such as 38/22");
  CHECK(why("38/22 40/x", test::small_farm()) == "is no day: write its highest and lowest temperature, such as 38/22");
  CHECK(why(" ,; ", test::small_farm()).starts_with("says nothing"));
  CHECK(why("38/warm", test::small_farm()) == "is no weather file that is there; temperatures are written 38/22 40/24");
}

TEST_CASE("forecast: days of a file keep their dates across the end of a leap February and of a year") {
  const test::Folder folder;
  const auto path = folder.write("w.csv", "date,tmax [degC],tmin [degC]\n2027-12-31,3,1\n2028-01-01,4,1\n2028-02-28,5,1\n2028-02-29,6,1\n2028-03-01,7,1\n2028-12-31,8,1\n");
  const sys_days new_year{std::chrono::year(2028) / 1 / 1};
  const auto read = std::get<Forecast>(read_forecast(path, new_year, test::small_farm()));
  REQUIRE(read.size() == 5);  // a record has no 29 February
  CHECK(read[0].day == new_year - std::chrono::days(1));
  CHECK(read[0].maximum == 3.0);
  CHECK(read[1].day == new_year);
  CHECK(read[2].day == sys_days{std::chrono::year(2028) / 2 / 28});
  CHECK(read[3].day == sys_days{std::chrono::year(2028) / 3 / 1});
  CHECK(read[3].maximum == 7.0);
  CHECK(read[4].day == sys_days{std::chrono::year(2028) / 12 / 31});
  CHECK(read[4].maximum == 8.0);
}
