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
