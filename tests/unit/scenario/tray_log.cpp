// Tray logs: what is read, what is complained of and where, and what a hostile one does.
#include <algorithm>
#include <chrono>
#include <string>

#include "sim/scenario/tray_log.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace std::chrono_literals;

namespace {

// The complaint of a line and column, which must be there.
Problem at(const TrayLogReading& reading, int line, const std::string& column) {
  for (const Problem& problem : reading.problems)
    if (problem.line == line && problem.key == column) return problem;
  FAIL("no complaint of line " << line << ", " << column);
  return {};
}

bool says(const Problem& problem, const std::string& piece) { return problem.why.find(piece) != std::string::npos; }

}  // namespace

TEST_CASE("a tray log with units in its header, gaps, and a column of the keeper's own") {
  const auto reading = read_tray_log(
      "\xEF\xBB\xBF# my trays\r\nDate sown,Lot,Species,Dry grain [lb],Soak (h),Tray area [ft2],Room max [degF],Room min [degF],Days,Fresh "
      "weight [lb],Height [cm],Spoiled,Moon,Notes\r\n"
      "2026-03-02,A,barley,2,10,2,68,50,7,10.5,14,no,full,\"slow, a \"\"good\"\" one\"\r\n"
      "2026-03-01,,,1 kg,,,20 degC,,,,,mould,,\r\n\r\n");
  REQUIRE(reading.problems.empty());
  REQUIRE(reading.log);
  REQUIRE(reading.log->trays.size() == 2);
  CHECK(reading.log->set_aside == std::vector<std::string>{"Moon"});
  const LoggedTray& gaps = reading.log->trays[0];  // by date
  CHECK(gaps.line == 4);
  CHECK(gaps.grain->value() == 1.0);
  CHECK(gaps.room_max->value() == Approx(20.0));
  CHECK(gaps.spoiled == LoggedSpoil::mould);
  CHECK_FALSE(gaps.room_min);
  CHECK_FALSE(gaps.fresh);
  CHECK(gaps.lot.empty());
  const LoggedTray& tray = reading.log->trays[1];
  CHECK(tray.sown == std::chrono::sys_days(2026y / 3 / 2));
  CHECK(tray.grain->value() == Approx(0.90718474));  // 2 lb exactly
  CHECK(tray.area->value() == Approx(2 * 0.09290304));
  CHECK(tray.room_min->value() == Approx(10.0));
  CHECK(tray.fresh->value() == Approx(10.5 * 0.45359237));
  CHECK(*tray.days == 7.0);
  CHECK(tray.notes == "slow, a \"good\" one");
  CHECK(tray.ended());
}

TEST_CASE("a tray log's separators, ends of line and decimal commas") {
  for (const std::string end : {"\n", "\r\n", "\r"}) {
    for (const char separator : {';', '\t'}) {
      const std::string c(1, separator);
      const auto reading = read_tray_log("sown" + c + "grain [kg]" + c + "fresh [kg]" + c + "notes" + end + "2026-03-01" + c + "0,9" + c + "4.5" + c +
                                         "\"two" + end + "lines\"" + end + "2026-03-02" + c + "1" + end);
      INFO("separator " << static_cast<int>(separator) << ", end " << end.size());
      REQUIRE(reading.log);
      CHECK(reading.log->trays.at(0).grain->value() == 0.9);
      CHECK(reading.log->trays.at(0).fresh->value() == 4.5);
      CHECK(reading.log->trays.at(0).notes == "two lines");
      CHECK(reading.log->trays.at(1).line == 4);
    }
  }
}

TEST_CASE("units of a tray log may be said once for all") {
  const std::string log = "sown,grain,room max,room min,fresh,height\n2026-03-01,2,68,50,9,6\n";
  const auto us = read_tray_log(log, Units::us), metric = read_tray_log(log, Units::metric);
  REQUIRE(us.log);
  CHECK(us.log->trays[0].grain->value() == Approx(2 * 0.45359237));
  CHECK(us.log->trays[0].room_max->value() == Approx(20.0));
  CHECK(us.log->trays[0].height_cm == Approx(15.24));
  REQUIRE(metric.log);
  CHECK(metric.log->trays[0].grain->value() == 2.0);
}

TEST_CASE("every bad cell of a tray log is told at once, with line and column") {
  const auto reading = read_tray_log(
      "date sown,dry grain [kg],fresh weight [kg],room max [degC],room min [degC],days,spoiled,height,lot\n"
      "2026-02-30,-1,5,20,25,99,perhaps,12,\n"
      ",1,25,200,x,7 kg,no,,\x1b[31m\n"
      "2026-03-01,1,5,20,15,7,no,,a,b\n");
  REQUIRE_FALSE(reading.log);
  CHECK(says(at(reading, 2, "date sown"), "is not a date"));
  CHECK(says(at(reading, 2, "dry grain"), "between 0.005 and 200"));
  CHECK(says(at(reading, 2, "room min"), "above the maximum"));
  CHECK(says(at(reading, 2, "days on rack"), "between 0 and 60"));
  CHECK(says(at(reading, 2, "spoiled"), "not yes, no, mould or sour"));
  CHECK(says(at(reading, 2, "height"), "has no unit"));
  CHECK(says(at(reading, 3, "date sown"), "not stated"));
  const auto german = read_tray_log("date sown;days\n14.7.2026;7\n");
  CHECK(says(at(german, 2, "date sown"), "write the year first: 2026-07-14"));
  CHECK(says(at(reading, 3, "fresh weight"), "25 times its dry grain"));
  CHECK(says(at(reading, 3, "room max"), "between -40 and 70"));
  CHECK(says(at(reading, 3, "lot"), "no letter"));
  CHECK(at(reading, 3, "lot").value.find('\x1b') == std::string::npos);
  CHECK_FALSE(at(reading, 3, "room min").why.empty());
  CHECK_FALSE(at(reading, 3, "days on rack").why.empty());
  CHECK(says(at(reading, 4, ""), "more cells"));
  CHECK(reading.problems.size() == 13);
}

TEST_CASE("what a tray log says that cannot be is told as what it is") {
  const auto early = read_tray_log("sown\n1926-03-01\n2036-03-01\n2210-01-01\n");
  CHECK(at(early, 2, "date sown").why == "is of the year 1926; a log may tell of 1980 to 2199");
  CHECK(at(early, 4, "date sown").why == "is of the year 2210; a log may tell of 1980 to 2199");
  CHECK(early.problems.size() == 2);
  const std::string head = "sown,grain [kg],fresh [kg],spoiled\n";
  CHECK(says(at(read_tray_log(head + "2026-01-01,0.9,0.3,no\n"), 2, "fresh weight"), "is 0.33 times its dry grain; no sound mat is lighter than 0.5 times"));
  CHECK(says(at(read_tray_log(head + "2026-01-01,0.9,0.3,\n"), 2, "fresh weight"), "0.33 times"));
  CHECK(read_tray_log(head + "2026-01-01,0.9,0.3,mould\n2026-01-01,0.9,0.45,no\n").log);
}

TEST_CASE("what else is wrong with a tray log is told in its place, where something is") {
  const auto also = [](const TrayLog& log) {
    Problems all;
    for (const LoggedTray& tray : log.trays)
      if (tray.species == "moss") all.push_back({tray.line, "species", tray.species, "is no grain", ""});
    return all;
  };
  const std::string head = "sown,species,days\n";
  const auto both = read_tray_log(head + "never,moss,1\n2026-01-02,moss,2\n2026-01-03,barley,-1\n", {}, also);
  REQUIRE(both.problems.size() == 4);
  CHECK(both.problems[1].key == "species");
  CHECK(both.problems[2].line == 3);
  CHECK(both.problems[3].line == 4);
  CHECK(read_tray_log(head + "2026-01-02,moss,2\n", {}, also).log);
  std::string many = head;
  for (int i = 0; i < 40; ++i) many += "never,moss,1\n";
  const auto most = read_tray_log(many, {}, also);
  CHECK(most.problems.size() == 51);
  CHECK(says(most.problems.back(), "30 more"));
}

TEST_CASE("headers of a tray log that will not do") {
  CHECK(says(at(read_tray_log("grain [kg]\n1\n"), 1, "date sown"), "no column of dates"));
  CHECK(says(at(read_tray_log("sown,room max [degC]\n2026-01-01,9\n"), 1, "room min"), "come together"));
  CHECK(says(at(read_tray_log("sown,date\n2026-01-01,9\n"), 1, "date sown"), "twice"));
  CHECK_FALSE(at(read_tray_log("sown,grain [degC]\n2026-01-01,9\n"), 1, "dry grain").why.empty());
  CHECK_FALSE(at(read_tray_log("sown,grain [\n2026-01-01,9\n"), 2, "dry grain").why.empty());
  CHECK(says(at(read_tray_log(""), 0, "date sown"), "empty"));
  CHECK(says(at(read_tray_log("sown\n"), 0, "date sown"), "no tray"));
}

TEST_CASE("quotes and sizes of a tray log that will not do") {
  const auto open = read_tray_log("sown,notes\n2026-01-01,\"never closed\n2026-01-02,x\n");
  CHECK(says(at(open, 2, ""), "never closed"));
  const auto behind = read_tray_log("sown,notes\n2026-01-01,\"a\"b\n");
  CHECK(says(at(behind, 2, ""), "closing quote"));
  const auto longer = read_tray_log("sown,notes\n2026-01-01," + std::string(20000, 'x') + "\n");
  CHECK(says(at(longer, 2, ""), "longer than 10000"));
  std::string many = "sown\n";
  for (int i = 0; i < 20001; ++i) many += "2026-01-01\n";
  CHECK(says(at(read_tray_log(many), 20002, ""), "more than 20000 trays"));
  std::string wrong = "sown\n";
  for (int i = 0; i < 200; ++i) wrong += "never\n";
  const auto all = read_tray_log(wrong);
  CHECK(all.problems.size() == 51);
  CHECK(says(all.problems.back(), "150 more"));
  CHECK(says(read_tray_log_file("/no/such/log.csv").problems.at(0), "no such file"));
}
