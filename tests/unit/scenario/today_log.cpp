// What stands on the rack by a log of trays: which rows count, as which batches, and what is said of the others.
#include "sim/scenario/today_log.hpp"

#include "models/design/rack.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"
#include "tests/program.hpp"

using namespace rackwright;
using std::chrono::sys_days;

namespace {

constexpr sys_days july(unsigned day) { return std::chrono::year(2026) / 7 / std::chrono::day(day); }
constexpr When morning{july(14), 6 * 60};  // before the round at 7:00

/// The rows under a header of everything a row of these tests says.
LoggedToday derived(const std::string& rows, const When& at = morning, const Scenario& farm = test::small_farm()) {
  const TrayLogReading reading = read_tray_log("date sown,lot,species,germination [%],dry grain [kg],soak [h],room max [degC],room min [degC],days,fresh weight [kg],spoiled\n" + rows);
  for (const Problem& problem : reading.problems) UNSCOPED_INFO(problem.line << ": " << problem.key << ": " << problem.why);
  REQUIRE(reading.log);
  return today_from_log(*reading.log, farm, at);
}

/// Trays on the rack and in soak.
std::pair<int, int> trays(const LoggedToday& told) {
  for (const Problem& problem : told.problems) UNSCOPED_INFO(problem.line << ": " << problem.key << ": " << problem.why);
  REQUIRE(told.today);
  int sown = 0, wet = 0;
  for (const Today::Batch& batch : told.today->batches) sown += batch.trays;
  for (const Today::Soaking& tub : told.today->soaking) wet += tub.trays;
  return {sown, wet};
}

bool remarks(const LoggedToday& told, const std::string& part) {
  for (const std::string& remark : told.remarks)
    if (remark.find(part) != std::string::npos) return true;
  return false;
}

}  // namespace

TEST_CASE("today by a log: rows sown and not over are batches, oldest first, by day, round, grain and soak") {
  const auto told = derived(
      "2026-07-08,A,barley,,0.9,10,24,16,,,\n"
      "2026-07-07,A,barley,,0.9,10,24,16,,,\n"
      "2026-07-07,A,barley,,0.9,10,,,,,\n"
      "2026-07-07,B,wheat,,0.9,10,,,,,\n"
      "2026-07-07 07:10,A,barley,,0.9,12,,,,,\n"
      "2026-07-09T18:00,,,,0.9,,,,,,\n");
  REQUIRE(told.problems.empty());
  const auto& batches = told.today->batches;
  REQUIRE(batches.size() == 5);
  CHECK(told.today->at == morning);
  CHECK(batches[0].sown.day == july(7));
  CHECK(batches[0].grain == "barley");
  CHECK(batches[0].session == 0);
  CHECK(batches[0].trays == 2);
  CHECK(batches[0].soak == Hours(10.0));
  CHECK(batches[1].soak == Hours(12.0));
  CHECK(batches[1].trays == 1);
  CHECK(batches[2].grain == "wheat");
  CHECK(batches[2].session == 1);           // whose turn is the evening
  CHECK(batches[3].sown.day == july(8));
  CHECK(batches[4].session == 1);           // by its time
  CHECK(batches[4].grain == "wheat");       // whose turn that was
  CHECK_FALSE(batches[4].soak);
  CHECK(told.today->soaking.empty());
  CHECK(told.today->store.empty());
  CHECK(told.today->orders.empty());
  CHECK(told.remarks.size() == 1);
}

TEST_CASE("today by a log: a tray is gone at its sowing and its days") {
  // Sown at 7:00 on the 7th: seven days are over at 7:00 on the 14th.
  CHECK(trays(derived("2026-07-07,A,barley,,0.9,,,,7,4.4,no\n", {july(14), 6 * 60 + 59})).first == 1);
  CHECK(trays(derived("2026-07-07,A,barley,,0.9,,,,7,4.4,no\n", {july(14), 7 * 60})).first == 0);
  CHECK(trays(derived("2026-07-07,A,barley,,0.9,,,,7,4.4,no\n", {july(14), std::nullopt})).first == 1);  // the day begins
  CHECK(trays(derived("2026-07-07,A,barley,,0.9,,,,6,4.4,no\n")).first == 0);
  CHECK(trays(derived("2026-07-07,A,barley,,0.9,,,,8,,\n")).first == 1);      // days that are planned
  CHECK(trays(derived("2026-07-07,A,barley,,0.9,,,,0,,\n")).first == 0);
  CHECK(trays(derived("2026-07-10,A,barley,,0.9,,,,8,,mould\n")).first == 0);  // never to be fed, whatever its days
  CHECK(trays(derived("2026-07-10,A,barley,,0.9,,,,,,yes\n")).first == 0);
}

TEST_CASE("today by a log: an end without its days is an end, and told where that may be wrong") {
  const auto told = derived("2026-07-03,A,barley,,0.9,,,,,4.4,\n2026-07-10,A,barley,,0.9,,,,,4.4,\n2026-07-11,A,barley,,0.9,,,,,,no\n2026-07-12,A,barley,,0.9,,,,,,\n");
  CHECK(trays(told).first == 1);
  CHECK(remarks(told, "Lines 3 and 4 are over"));  // the first had its eight days by then
}

TEST_CASE("today by a log: rows of the room are none of trays, and rows of nothing are told") {
  const auto told = derived("2026-07-12,,,,,,25,17,,,\n2026-07-13,,,,,,,,,,\n2026-07-13,A,,,,,25,17,,,\n");
  CHECK(trays(told).first == 1);
  CHECK(remarks(told, "Line 3 with a date and nothing of a tray"));
}

TEST_CASE("today by a log: what was never over goes after 45 days, and is told") {
  const std::string rows = "2026-05-29,A,barley,,0.9,,,,,,\n2026-05-30,A,barley,,0.9,,,,,,\n2026-05-31,A,barley,,0.9,,,,,,\n";
  const auto told = derived(rows, {july(14), 8 * 60});
  CHECK(trays(told).first == 1);  // 45 days and an hour before: gone; the 31st: 44 days and an hour
  CHECK(remarks(told, "Lines 2 and 3 are sown more than 45 days before"));
  CHECK(trays(derived(rows, {july(14), 7 * 60})).first == 2);
}

TEST_CASE("today by a log: sowings to come are in the bucket once their soak began, else left out by line") {
  const auto told = derived(
      "2026-07-14,A,barley,,0.9,9,,,,,\n"         // 7:00 less 9 h: since 22:00 the day before
      "2026-07-14,A,barley,,0.9,9,,,,,\n"
      "2026-07-14T18:30,B,wheat,,0.9,13,,,,,\n"   // since 5:30
      "2026-07-14T18:30,B,wheat,,0.9,12,,,,,\n"   // from 6:30 on: not yet
      "2026-07-15,A,barley,,0.9,,,,,,\n"
      "2027-07-15,A,barley,,0.9,,,,7,4.4,no\n");
  CHECK(trays(told) == std::pair(0, 3));
  const auto& tubs = told.today->soaking;
  REQUIRE(tubs.size() == 2);
  CHECK(tubs[0].since == When{july(13), 22 * 60});
  CHECK(tubs[0].trays == 2);
  CHECK(tubs[0].grain == "barley");
  CHECK(tubs[1].since == When{july(14), 5 * 60 + 30});
  CHECK(tubs[1].grain == "wheat");
  CHECK(remarks(told, "Lines 5 to 7 are of a later sowing, not in soak by 2026-07-14 06:00: left out."));
  // Where the log says no soak, it is the line's.
  Scenario farm = test::small_farm();
  farm.line.soak = Hours(8.0);
  CHECK(trays(derived("2026-07-14,A,barley,,0.9,,,,,,\n", morning, farm)) == std::pair(0, 1));
  farm.line.soak = Hours(0.5);
  CHECK(trays(derived("2026-07-14,A,barley,,0.9,,,,,,\n", morning, farm)) == std::pair(0, 0));
}

TEST_CASE("today by a log: where nothing tells the round, the day's first rows are the morning's") {
  Scenario farm = test::small_farm();
  farm.line.grains = {"barley"};
  std::string rows;
  for (int tray = 0; tray < 5; ++tray) rows += "2026-07-09,A,,,0.9,,,,,,\n";
  const auto told = derived(rows, morning, farm);
  REQUIRE(told.today);
  REQUIRE(told.today->batches.size() == 2);
  CHECK(told.today->batches[0].session == 0);
  CHECK(told.today->batches[0].trays == 3);
  CHECK(told.today->batches[1].session == 1);
  CHECK(told.today->batches[1].trays == 2);
  farm.line.batches_per_day = 1;
  const auto one = derived(rows + "2026-07-14T18:30,A,,,0.9,1,,,,,\n", {july(14), 12 * 60}, farm);
  CHECK(trays(one) == std::pair(5, 0));  // written for the evening, which is to come
  CHECK(remarks(one, "Line 7"));
}

TEST_CASE("today by a log: the last lot of a grain is the one in store, with its germination where it was tried") {
  Scenario farm = test::small_farm();
  farm.grains[0].on_hand = Kilograms(70.0);
  const auto told = derived("2026-07-01,A,barley,95,0.9,,,,7,4.4,no\n2026-07-08,B,barley,88,0.9,,,,,,\n2026-07-09,B,barley,,0.9,,,,,,\n2026-07-09,C,wheat,,0.9,,,,,,\n"
                            "2026-07-10,,barley,100,0.9,,,,,,\n",
                            morning, farm);
  REQUIRE(told.today);
  REQUIRE(told.today->store.size() == 1);
  CHECK(told.today->store[0].grain == "barley");
  CHECK(told.today->store[0].amount == Kilograms(70.0));
  CHECK(told.today->store[0].germination == Approx(0.88));
  REQUIRE(told.today->batches.size() == 4);
  CHECK(told.today->batches[0].germination == Approx(0.88));
  CHECK(told.today->batches[1].germination == Approx(0.88));  // of the same lot
  CHECK_FALSE(told.today->batches[2].germination);
  CHECK(told.today->batches[3].germination == Approx(0.999));  // none is surer
  CHECK(remarks(told, "Grain in store and orders, which a log does not tell, are taken from the scenario. The lot in store is taken to be the last one named: "
                      "\"B\" of barley, germinating 88 %; \"C\" of wheat, germinating as the scenario says."));
}

TEST_CASE("today by a log: a grain goes by its name or its species, and a strange one counts only while it stands there") {
  Scenario farm = test::small_farm();
  farm.grains[0].name = farm.line.grains[0] = "feed barley";
  CHECK(derived("2026-07-08,A,barley,,0.9,,,,,,\n", morning, farm).today->batches.at(0).grain == "feed barley");
  CHECK(derived("2026-07-08,A,feed barley,,0.9,,,,,,\n", morning, farm).today->batches.at(0).grain == "feed barley");
  const auto strange = derived("2026-05-08,A,rye,,0.9,,,,7,4.4,no\n2026-07-08,A,barly,,0.9,,,,,,\n2026-07-09,A,rye,,0.9,,,,,,\n2026-07-14,A,oats,,0.9,9,,,,,\n", morning, farm);
  CHECK_FALSE(strange.today);
  REQUIRE(strange.problems.size() == 3);
  CHECK(strange.problems[0].line == 3);
  CHECK(strange.problems[0].suggestion == "barley");
  CHECK(strange.problems[1].line == 4);
  CHECK(strange.problems[1].why.find("it has feed barley, wheat") != std::string::npos);
  CHECK(strange.problems[2].line == 5);
}

TEST_CASE("today by a log: more than fits is refused once, at the first row that finds no place") {
  std::string rows;
  for (int tray = 0; tray < 20000; ++tray) rows += "2026-07-09,A,barley,,0.9,,,,,,\n";
  const auto full = derived(rows);
  CHECK_FALSE(full.today);
  REQUIRE(full.problems.size() == 1);
  CHECK(full.problems[0].line == 54);  // 52 places, below the header
  CHECK(full.problems[0].why.find("the rack has 52") != std::string::npos);
  rows.clear();
  for (int tray = 0; tray < 60; ++tray) rows += "2026-07-14,A,barley,,0.9,9,,,,,\n";
  CHECK(derived(rows).problems.at(0).line == 54);
  CHECK(derived("2026-07-14,A,barley,,0.9,120,,,,,\n").problems.at(0).why.find("that grain is dead") != std::string::npos);
  rows.clear();
  for (int tray = 0; tray < 20000; ++tray) rows += tray % 2 == 0 ? "2026-07-09,A,rye,,0.9,,,,,,\n" : "2026-07-20,A,rye,,0.9,,,,,,\n";
  const auto many = derived(rows);
  CHECK(many.problems.size() == 51);
  CHECK(many.problems.back().why == "and 9951 more like these");
}

TEST_CASE("today by a log: any day may be asked of") {
  for (const sys_days day : {sys_days(std::chrono::year(1800) / 1 / 1), sys_days(std::chrono::year(2200) / 12 / 31)})
    CHECK(trays(derived("1980-01-01,A,barley,,0.9,,,,,,\n2199-12-31,A,barley,,0.9,,,,,,\n", {day, std::nullopt})) == std::pair(0, 0));
}

TEST_CASE("a log's file tells what its text does, and what is wrong with it instead") {
  const test::Folder folder;
  const std::string head = "date sown,lot,species,dry grain [kg],days\n", rows = "2026-07-12,A,barley,0.9,\n2026-07-13,A,barley,0.9,\n";
  const LoggedToday told = today_from_log_file(folder.write("log.csv", head + rows), test::small_farm(), morning);
  const TrayLogReading reading = read_tray_log(head + rows);
  REQUIRE(reading.log);
  CHECK(trays(told) == trays(today_from_log(*reading.log, test::small_farm(), morning)));
  CHECK(trays(told).first + trays(told).second == 2);
  const LoggedToday wrong = today_from_log_file(folder.write("wrong.csv", head + "soon,A,barley,0.9,\n"), test::small_farm(), morning);
  CHECK_FALSE(wrong.today);
  REQUIRE(wrong.problems.size() == 1);
  CHECK(wrong.problems.front().line == 2);
}

TEST_CASE("lines are told in few words") {
  CHECK(lines_words({7}) == "Line 7");
  CHECK(lines_words({7, 8}) == "Lines 7 and 8");
  CHECK(lines_words({3, 4, 5, 9, 12}) == "Lines 3 to 5, 9 and 12");
  std::vector<int> odd;
  for (int line = 1; line < 2000; line += 2) odd.push_back(line);
  CHECK(lines_words(odd) == "Lines 1, 3, 5, 7, 9, 11, 13, 15 and 992 more");
}

TEST_CASE("today by a log: a batch is as heavy as the mean of its trays that were weighed, and it is said by whose word") {
  const double usual = test::small_farm().line.sowing_density.value() * design::tray_area(test::small_farm().rack).value();
  const auto grain = [&](double share) { return std::to_string(share * usual); };
  const auto told = derived("2026-07-07,A,barley,," + grain(0.5) + ",,,,,,\n2026-07-07,A,barley,," + grain(0.75) + ",,,,,,\n2026-07-07,A,barley,,,,,,,,\n2026-07-08,A,barley,,,,,,,,\n" +
                            "2026-07-09,A,barley,," + grain(1.0) + ",,,,,,\n2026-07-14,A,barley,," + grain(1.5) + ",10,,,,,\n");
  CHECK(trays(told) == std::pair{5, 1});
  REQUIRE(told.today->batches.size() == 3);
  CHECK(told.today->batches[0].charge == 0.63);  // mean of the two, in hundredths
  CHECK(told.today->batches[1].charge == 1.0);
  CHECK(told.today->batches[2].charge == 1.0);
  CHECK(told.today->soaking[0].charge == 1.5);
  CHECK(remarks(told, "Read from the tray log, dry grain of the trays that stand or soak with it: "));
  CHECK(remarks(told, "2 trays without are taken to be as heavy as the others of the batch, or as the scenario sows"));
  const auto none = derived("2026-07-07,A,barley,,,,,,,,\n");
  CHECK(none.today->batches[0].charge == 1.0);
  CHECK(remarks(none, "no tray that stands or soaks has its dry grain"));
}

TEST_CASE("today by a log: grain that the models do not hold for is refused, of a tray that stands") {
  const auto heavy = derived("2026-07-07,A,barley,,150,,,,,,\n2026-07-07,A,barley,,0.01,,,,,,\n");
  REQUIRE(heavy.problems.size() == 2);
  CHECK(heavy.problems[0].key == "dry grain");
  CHECK(heavy.problems[1].line == 3);
  CHECK(heavy.problems[1].why.find("the models hold from 0.5") != std::string::npos);
  CHECK(derived("2026-06-07,A,barley,,150,,,,8,,\n").problems.empty());
}
