// A scenario that names a weather file: read from beside it, checked by its hash, and whole without it afterwards.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>

#include <fmt/format.h>

#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/weather_keys.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;
using rackwright::test::Folder;

namespace {

// Days about a mean, three years of them if not said otherwise.
std::string days_about(double mean, int count = 1095) {
  std::string text = "date,tmax [degC],tmin [degC]\n";
  const std::chrono::sys_days start{std::chrono::year(2001) / 1 / 1};
  for (int i = 0; i < count; ++i) {
    const std::chrono::year_month_day date{start + std::chrono::days(i)};
    const double t = mean - 8.0 * std::cos(6.2831853 * (i % 365) / 365.0) + std::sin(1.0 * i);
    text += fmt::format("{:04}-{:02}-{:02},{:.1f},{:.1f}\n", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                        static_cast<unsigned>(date.day()), t + 4.0, t - 4.0);
  }
  return text;
}

const std::string names_it = std::string(sample::small) + "\n[climate]\nfile = \"days.csv\"\n";

}  // namespace

TEST_CASE("a weather file is read from beside the scenario and fitted") {
  const Folder folder;
  folder.write("days.csv", days_about(15.0));
  const Reading reading = read_scenario_file(folder.write("farm.toml", names_it));
  INFO((reading.problems.empty() ? "" : reading.problems.front().why));
  REQUIRE(reading.scenario);
  REQUIRE(reading.scenario->weather.record);
  CHECK(reading.scenario->weather.record->record.years() == 3);
  CHECK(reading.scenario->climate.mean.mean.value() == near(15.0, 0.05));
  CHECK(reading.scenario->climate.range_mean.value() == near(8.0, 0.05));
  CHECK(reading.scenario->weather.hash.size() == 16);
  const auto said = cautions(*reading.scenario);
  CHECK(std::any_of(said.begin(), said.end(), [](const std::string& c) { return c.find("days.csv: 1095 days in 3") != std::string::npos; }));
}

TEST_CASE("the resolved scenario needs the file no more, and knows it again") {
  const Folder folder;
  const std::string csv = folder.write("days.csv", days_about(15.0));
  const std::string farm = folder.write("farm.toml", names_it);
  const Scenario scenario = read_scenario_file(farm).scenario.value();
  std::filesystem::remove(csv);
  const std::string resolved = resolved_text(scenario);
  const Reading again = read_scenario(resolved);
  REQUIRE(again.scenario);
  CHECK((*again.scenario == scenario));
  CHECK(again.scenario->weather.record->record.maximum == scenario.weather.record->record.maximum);
  CHECK_FALSE(read_scenario_file(farm).scenario);  // the file itself is gone
  // Another file under the same name is not what the hash was made of.
  folder.write("days.csv", days_about(16.0));
  const std::string strict = names_it + "file_hash = \"" + scenario.weather.hash + "\"\n";
  const Reading changed = read_scenario_file(folder.write("strict.toml", strict));
  REQUIRE_FALSE(changed.scenario);
  CHECK(changed.problems.front().why.find("is not the file this was written for") != std::string::npos);
  folder.write("days.csv", days_about(15.0));
  CHECK(read_scenario_file(folder.write("strict.toml", strict)).scenario);
}

TEST_CASE("what is wrong in the file is told with both lines") {
  const Folder folder;
  folder.write("days.csv", days_about(15.0) + "2001-05-05,1,0\n");
  const Reading reading = read_scenario_file(folder.write("farm.toml", names_it));
  REQUIRE_FALSE(reading.scenario);
  const Problem& problem = reading.problems.front();
  CHECK(problem.key == "climate.file");
  CHECK(problem.line > 0);
  CHECK(problem.value.find("days.csv, line 1097") != std::string::npos);
  CHECK(problem.why.find("is there twice") != std::string::npos);
}

TEST_CASE("too little weather, or too long a block, is refused with what to do") {
  const Folder folder;
  folder.write("days.csv", days_about(15.0, 100));
  CHECK(read_scenario_file(folder.write("farm.toml", names_it)).problems.front().why == "holds too little: 300 days or more are wanted, with some in every month; it has 100");
  // A year without its last ten days: on those no year has weather.
  folder.write("days.csv", days_about(15.0, 355));
  const Reading lacking = read_scenario_file(folder.write("farm.toml", names_it));
  REQUIRE_FALSE(lacking.scenario);
  CHECK(lacking.problems.front().key == "climate.file");
  CHECK(lacking.problems.front().why.find("has in no year 3 days without a gap from 20 December on") == 0);
  // Two years, each with a day without: what is proposed is taken.
  std::string gaps = days_about(15.0, 730);
  const auto lose = [&](const char* date) {
    const auto at = gaps.find(date);
    gaps.erase(at, gaps.find('\n', at) + 1 - at);
  };
  lose("2001-07-20");
  lose("2002-08-01");
  folder.write("days.csv", gaps);
  const Reading too_long = read_scenario_file(folder.write("farm.toml", names_it));
  REQUIRE_FALSE(too_long.scenario);
  CHECK(too_long.problems.front().key == "climate.block");
  CHECK(too_long.problems.front().why.find("write 12 d, the longest that it has for every day of the year") != std::string::npos);
  CHECK(read_scenario_file(folder.write("farm.toml", names_it + "block = \"12 d\"\n")).scenario);
  CHECK_FALSE(read_scenario_file(folder.write("farm.toml", names_it + "block = \"13 d\"\n")).scenario);
}

TEST_CASE("one whole year of weather is enough, and it is told that years do not differ") {
  const Folder folder;
  folder.write("days.csv", days_about(15.0, 365));
  const Reading reading = read_scenario_file(folder.write("farm.toml", names_it));
  INFO((reading.problems.empty() ? "" : reading.problems.front().why));
  REQUIRE(reading.scenario);
  const auto said = cautions(*reading.scenario);
  CHECK(std::any_of(said.begin(), said.end(), [](const std::string& c) { return c.find("Every year of a run has the same weather") != std::string::npos; }));
  folder.write("days.csv", days_about(15.0, 730));
  const auto of_two = cautions(*read_scenario_file(folder.write("farm.toml", names_it)).scenario);
  CHECK(std::none_of(of_two.begin(), of_two.end(), [](const std::string& c) { return c.find("Every year of a run has the same weather") != std::string::npos; }));
}

TEST_CASE("weather that no scenario could state is a fault of the file") {
  const Folder folder;
  // Lows of thirty degrees of frost all year below highs of thirty: the range is beyond what a key may say.
  std::string text = "date,tmax [degC],tmin [degC]\n";
  const std::string days = days_about(15.0, 730);
  for (auto at = days.find('\n') + 1; at < days.size(); at = days.find('\n', at) + 1) text += days.substr(at, 10) + ",30,-30\n";
  folder.write("days.csv", text);
  const Reading reading = read_scenario_file(folder.write("farm.toml", names_it));
  REQUIRE_FALSE(reading.scenario);
  CHECK(reading.problems.front().key == "climate.file");
  CHECK(reading.problems.front().why.find("tells of weather that cannot be: climate.range_mean comes to 60 K, which must be between 0 and 40 K") == 0);
}

TEST_CASE("no weather file is named by none, or by nothing") {
  const Folder folder;
  folder.write("days.csv", days_about(15.0));
  const std::string farm = folder.write("farm.toml", names_it);
  for (const char* none : {"climate.file=none", "climate.file=", "climate.file=\"\""}) {
    INFO(none);
    const Reading reading = read_scenario_file(farm, {none});
    REQUIRE(reading.scenario);
    CHECK_FALSE(reading.scenario->weather.record);
    CHECK(get_key(*reading.scenario, "climate.anomaly_sd") == get_key(Scenario{}, "climate.anomaly_sd"));
  }
}

TEST_CASE("keys that measured weather goes before are no choices, and are told where they are stated") {
  const Folder folder;
  folder.write("days.csv", days_about(15.0));
  const Reading chosen = read_scenario_file(folder.write("farm.toml", names_it + "[choose]\n\"climate.mean\" = [\"5 degC\", \"30 degC\"]\n"));
  REQUIRE_FALSE(chosen.scenario);
  CHECK(chosen.problems.front().key == "choose.climate.mean");
  CHECK(chosen.problems.front().why == given_words);
  CHECK(chosen.problems.front().line > 0);

  const std::string farm = folder.write("farm.toml", names_it + "mean = \"30 degC\"\npeak_day = 204.8\nlatitude = \"40 degree\"\ndew_depression_mean = \"12 K\"\n");
  const Scenario scenario = read_scenario_file(farm).scenario.value(), without = read_scenario_file(farm, {"climate.file=none"}).scenario.value();
  CHECK(stated_in_vain(scenario, without) == std::vector<std::string>{"climate.mean"});  // the file has no moisture, and a peak day as where none is stated says nothing
  CHECK(given_by_weather(scenario, "climate.monthly_mean"));
  CHECK(given_by_weather(scenario, "climate.anomaly_sd"));
  CHECK_FALSE(given_by_weather(scenario, "climate.dew_depression_mean"));
  CHECK_FALSE(given_by_weather(scenario, "climate.latitude"));
  CHECK_FALSE(given_by_weather(without, "climate.mean"));
  // The resolved scenario states what the file says.
  const std::string resolved = resolved_text(scenario);
  CHECK(stated_in_vain(read_scenario(resolved).scenario.value(), read_scenario(resolved, {"climate.file=none", "climate.days="}).scenario.value()).empty());
}

TEST_CASE("without a file beside it a name alone is not enough") {
  CHECK_FALSE(read_scenario(names_it).scenario);
  Scenario plain = read_scenario(sample::small).scenario.value();
  CHECK(set_key(plain, "climate.days", "1990 2 AAAA").has_value());
  CHECK(plain == read_scenario(sample::small).scenario.value());
}
