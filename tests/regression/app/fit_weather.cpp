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

/// The smallest farm that is shipped, on that weather file.
std::string with_file(const std::string& name) {
  std::string text = whole_file(RACKWRIGHT_SOURCE_DIR "/scenarios/minimal.toml");
  const std::string line = "[climate]\nfile = \"" + name + "\"\n";
  const auto there = text.find("[climate]\n");
  return there == std::string::npos ? text + "\n" + line : text.replace(there, 10, line);
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

TEST_CASE("program: what fit weather proposes, check takes: a year's days, or a shorter block, or neither") {
  const Folder folder;
  const std::string text = station(), farm = folder.write("farm.toml", with_file("year.csv"));
  const std::string year = text.substr(0, text.find("2002-01-01"));
  folder.write("year.csv", year);
  CHECK(contains(run({"fit", "weather", folder / "year.csv"}).out, "# To use the days themselves instead: file = \"" + folder / "year.csv" + "\"\n"));
  const Said whole = run({"check", farm});
  INFO(whole.err);
  CHECK(whole.code == 0);
  CHECK(run({"simulate", farm, "--replications", "4", "--quiet", "--out", folder / "year.h5"}).code == 0);
  // A day without weather each summer, of the first year and of the second.
  std::string gaps = text.substr(0, text.find("2003-01-01"));
  for (const char* date : {"2001-07-20", "2002-08-01"}) gaps.erase(gaps.find(date), gaps.find('\n', gaps.find(date)) + 1 - gaps.find(date));
  folder.write("year.csv", gaps);
  CHECK(contains(run({"fit", "weather", folder / "year.csv", "--quiet"}).out, "file = \"" + folder / "year.csv" + "\" and block = \"12 d\" (no longer one"));
  CHECK(contains(run({"check", farm}).err, "write 12 d"));
  CHECK(run({"check", farm, "--set", "climate.block=12 d"}).code == 0);
  // The only year ends on 21 December.
  folder.write("year.csv", year.substr(0, year.find("2001-12-22")));
  CHECK(contains(run({"fit", "weather", folder / "year.csv", "--quiet"}).out, "# The days themselves cannot be used: on some days of the year no year has 3 without a gap."));
  CHECK(run({"check", farm}).code == 2);
}

TEST_CASE("program: fit weather writes no block that check refuses, and says what is wrong with the file") {
  const Folder folder;
  std::string humidity = station();
  for (auto at = humidity.find(",60\n"); at != std::string::npos; at = humidity.find(",60\n", at)) humidity.replace(at, 4, ",0\n");
  const Said dry = run({"fit", "weather", folder.write("dry.csv", humidity), "--quiet"});
  CHECK(dry.code == 2);
  CHECK(contains(dry.err, "tells of weather that cannot be: climate.dew_depression_mean comes to"));
  CHECK(contains(dry.err, "must be between 0 and 40 K"));
  CHECK(dry.out.empty());
}

TEST_CASE("program: keys that a weather file goes before are refused where they vary, and cautioned about where they stand") {
  const Folder folder;
  folder.write("station.csv", station());
  const std::string farm = folder.write("farm.toml", with_file("station.csv"));
  const Said swept = run({"sweep", farm, "--vary", "climate.mean=5 degC,30 degC", "--out", folder / "s.h5"});
  CHECK(swept.code == 2);
  CHECK(contains(swept.err, "climate.mean: changes nothing while climate.file gives the weather"));
  const Said against = run({"simulate", farm, "--against", "climate.mean=5 degC", "--out", folder / "a.h5"});
  CHECK(against.code == 2);
  CHECK(contains(against.err, "changes nothing while climate.file gives the weather"));
  const auto joined = [](std::string text) {  // lines of a caution put together
    std::string out;
    for (const char c : text)
      if (c != '\n') out += c;
      else if (!out.empty() && out.back() != ' ') out += ' ';
    while (out.find("  ") != std::string::npos) out.erase(out.find("  "), 1);
    return out;
  };
  CHECK_FALSE(contains(joined(run({"check", farm}).out), "beside climate.file: the measured days go before"));
  const Said stated = run({"check", farm, "--set", "climate.mean=5 degC", "--set", "climate.anomaly_sd=1 K"});
  CHECK(stated.code == 0);
  CHECK(contains(joined(stated.out), "climate.mean and climate.anomaly_sd change nothing beside climate.file: the measured days go before them."));
  CHECK(run({"check", farm, "--set", "climate.file=none"}).code == 0);
  // Monthly means are told by the key that states them, wherever that is.
  std::string listed, typed;
  for (const char* month : {"4", "5", "8", "11", "15", "19", "22", "22", "18", "13", "8", "5"}) {
    listed += std::string(listed.empty() ? "" : ", ") + '"' + month + " degC\"";
    typed += std::string(typed.empty() ? "" : ", ") + month + " degC";
  }
  const std::string one = "- climate.monthly_mean changes nothing beside climate.file", line = "monthly_mean = [" + listed + "]\n";
  CHECK(contains(joined(run({"check", farm, "--set", "climate.monthly_mean=" + typed}).out), one));
  CHECK(contains(joined(run({"check", farm, "--set", "@" + folder.write("part.toml", "[climate]\n" + line)}).out), one));
  const std::string own = folder.write("own.toml", with_file("station.csv") + line);
  CHECK(contains(joined(run({"check", own}).out), one));
  CHECK(contains(joined(run({"check", own, "--set", "climate.mean=5 degC"}).out), "climate.mean and climate.monthly_mean change nothing beside climate.file"));
}

TEST_CASE("program: a run on measured weather is the same from its own record") {
  const Folder folder;
  folder.write("station.csv", station());
  const std::string farm = folder.write("farm.toml", with_file("station.csv"));
  const Said first = run({"simulate", farm, "--out", folder / "a.h5", "--replications", "6", "--quiet"});
  INFO(first.err);
  REQUIRE(first.code == 0);
  const Said second = run({"simulate", farm, "--out", folder / "b.h5", "--replications", "6", "--quiet", "--threads", "1"});
  CHECK(first.out.substr(0, first.out.find("written")) == second.out.substr(0, second.out.find("written")));
  std::filesystem::remove(folder.path() / "station.csv");
  CHECK(run({"simulate", farm, "--out", folder / "c.h5", "--replications", "6", "--quiet"}).code == 2);
}
