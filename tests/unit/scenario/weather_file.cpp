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
  CHECK(reading.scenario->climate.mean.mean.value() == Approx(15.0).margin(0.05));
  CHECK(reading.scenario->climate.range_mean.value() == Approx(8.0).margin(0.05));
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

TEST_CASE("too little weather, or too long a block, is refused") {
  const Folder folder;
  folder.write("days.csv", days_about(15.0, 100));
  CHECK(read_scenario_file(folder.write("farm.toml", names_it)).problems.front().why.find("too little") != std::string::npos);
  folder.write("days.csv", days_about(15.0, 365));
  const Reading reading = read_scenario_file(folder.write("farm.toml", names_it));
  REQUIRE_FALSE(reading.scenario);
  CHECK(reading.problems.front().key == "climate.block");
}

TEST_CASE("without a file beside it a name alone is not enough") {
  CHECK_FALSE(read_scenario(names_it).scenario);
  Scenario plain = read_scenario(sample::small).scenario.value();
  CHECK(set_key(plain, "climate.days", "1990 2 AAAA").has_value());
  CHECK(plain == read_scenario(sample::small).scenario.value());
}
