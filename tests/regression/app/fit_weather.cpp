// rackwright fit weather, and a run on a weather file, as a stranger would use them.
#include <cmath>
#include <filesystem>

#include <fmt/format.h>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

// Five years of 365 days; `at` more days are left out in the middle.
std::string station() {
  std::string text = "date,tmax [degC],tmin [degC],humidity [%]\n";
  for (int year = 2001; year <= 2005; ++year) {
    constexpr int length[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int day = 0;
    for (int month = 1; month <= 12; ++month)
      for (int of_month = 1; of_month <= length[month - 1]; ++of_month, ++day) {
        if (year == 2002 && month == 5 && of_month < 4) continue;
        const double mean = 14.0 - 9.0 * std::cos(6.2831853 * (day - 20) / 365.0) + 3.0 * std::sin(0.7 * (day + 365 * year));
        text += fmt::format("{}-{:02}-{:02},{:.1f},{:.1f},60\n", year, month, of_month, mean + 6.0, mean - 6.0);
      }
  }
  return text;
}

}  // namespace

TEST_CASE("program: fit weather prints a block that a scenario takes") {
  const Folder folder;
  const std::string csv = folder.write("station.csv", station());
  const Said said = run({"fit", "weather", csv});
  CHECK(said.code == 0);
  CHECK(contains(said.out, "[climate]\nmean = \"14 degC\"  # 95 %: "));
  CHECK(contains(said.out, "\namplitude = \"9 K\"  # 95 %: "));
  CHECK(contains(said.out, "1822 days from 2001 on, 4 missing in between"));  // 3 of May, and 29 February 2004
  CHECK(contains(said.out, "dew_depression_mean"));
  CHECK(contains(said.err, "2002-05-01: 3 days are missing from here on"));
  const std::string hillside = RACKWRIGHT_SOURCE_DIR "/scenarios/hillside.toml";
  CHECK(contains(run({"fit", "weather", csv, hillside, "--quiet"}).out, "; was 17.0"));
  CHECK(run({"fit", "weather", csv, hillside, "--quiet"}).err.empty());
}

TEST_CASE("program: fit weather refuses what it cannot use") {
  const Folder folder;
  CHECK(run({"fit"}).code == 2);
  CHECK(run({"fit", "wether", "x.csv"}).code == 2);
  CHECK(run({"fit", "weather"}).code == 2);
  const Said missing = run({"fit", "weather", folder / "no.csv"});
  CHECK(missing.code == 2);
  CHECK(contains(missing.err, "there is no such file"));
  const Said twice = run({"fit", "weather", folder.write("twice.csv", station() + "2001-01-01,1,0,50\n")});
  CHECK(twice.code == 2);
  CHECK(contains(twice.err, "1824"));
  CHECK(contains(twice.err, "is there twice, first in line 2"));
  CHECK(run({"fit", "weather", folder.write("short.csv", station().substr(0, 1000))}).code == 2);
  const std::string whole = station();
  const Said half = run({"fit", "weather", folder.write("half.csv", whole.substr(0, whole.find("\n", whole.find("2001-07-01")) + 1))});
  CHECK(half.code == 2);
  CHECK(contains(half.err, "holds too little: 300 days or more are wanted, with some in every month"));
}

TEST_CASE("program: a run on measured weather is the same from its own record") {
  const Folder folder;
  folder.write("station.csv", station());
  std::string text = whole_file(RACKWRIGHT_SOURCE_DIR "/scenarios/minimal.toml");
  text += "\n[climate]\nfile = \"station.csv\"\n";
  if (whole_file(RACKWRIGHT_SOURCE_DIR "/scenarios/minimal.toml").find("[climate]") != std::string::npos) {
    text = whole_file(RACKWRIGHT_SOURCE_DIR "/scenarios/minimal.toml");
    text.replace(text.find("[climate]"), 9, "[climate]\nfile = \"station.csv\"");
  }
  const std::string farm = folder.write("farm.toml", text);
  const Said first = run({"simulate", farm, "--out", folder / "a.h5", "--replications", "6", "--quiet"});
  INFO(first.err);
  REQUIRE(first.code == 0);
  const Said second = run({"simulate", farm, "--out", folder / "b.h5", "--replications", "6", "--quiet", "--threads", "1"});
  CHECK(first.out.substr(0, first.out.find("written")) == second.out.substr(0, second.out.find("written")));
  std::filesystem::remove(folder.path() / "station.csv");
  CHECK(run({"simulate", farm, "--out", folder / "c.h5", "--replications", "6", "--quiet"}).code == 2);
}
