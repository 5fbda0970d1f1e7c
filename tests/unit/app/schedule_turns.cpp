// What begins or ends on a day of the worklist, in every form it is written in.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "models/base/quantity.hpp"
#include "tests/catch.hpp"
#include "tests/unit/app/sheet_sample.hpp"

using namespace rackwright;
using namespace rackwright::app;
using rackwright::test::contains;
using rackwright::test::sheet_of;
using rackwright::test::task;
using Kind = study::Task::Kind;

namespace {

/// Six days of a rack that runs, with one group of goats.
Sheet running() {
  Sheet sheet = sheet_of({});
  sheet.days = 6;
  sheet.list.days.assign(6, DailyRow{});
  for (DailyRow& day : sheet.list.days) day.served = 8.0F;
  sheet.scenario.groups.resize(1);
  sheet.scenario.groups[0].name = "goats";
  sheet.scenario.groups[0].introduction = Hours(0.0);
  return sheet;
}

/// Days on which first fodder is told, as a text of their numbers.
std::string told_on(const Sheet& sheet) {
  std::string days;
  for (int day = 0; day < sheet.days; ++day)
    for (const Turn& turn : turns_of_day(sheet, day))
      if (turn.what == "first fodder") days += std::to_string(day);
  return days;
}

}  // namespace

TEST_CASE("a turn of 1 March is told once in a leap year") {
  Sheet sheet = running();
  sheet.first = std::chrono::sys_days(std::chrono::year(2028) / 2 / 27);
  sheet.scenario.room.shade = 0.5;
  sheet.scenario.shaded.from = 60;
  sheet.scenario.shaded.until = 275;
  std::string told;
  for (int day = 0; day < sheet.days; ++day)
    for (const Turn& turn : turns_of_day(sheet, day))
      if (turn.what == "shade up") told += std::to_string(day);
  CHECK(told == "3");
}

TEST_CASE("first fodder is told of a group on the day it comes, whoever was fed before") {
  Sheet sheet = running();
  CHECK(told_on(sheet).empty());
  Group goats = sheet.scenario.groups[0];
  sheet.scenario.groups.push_back(goats);
  sheet.scenario.groups[1].name = "bought goats";
  sheet.scenario.groups[1].stay.arrives = 2.0;
  CHECK(told_on(sheet) == "2");
  CHECK(contains(schedule_text(sheet), "The list gives bought goats all"));
  CHECK_FALSE(contains(schedule_text(sheet), "gives goats"));
  sheet.scenario.groups[1].stay.arrives = 0.0;
  CHECK(told_on(sheet) == "0");
  sheet.scenario.groups[1].introduction = days(7);
  CHECK(told_on(sheet).empty());
  sheet.scenario.groups[1].introduction = days(6);
  CHECK(told_on(sheet) == "0");
  sheet.scenario.groups[1].count = 0;
  CHECK(told_on(sheet).empty());
  // It waits for fodder, away and back is a new beginning, and of a rack that begins all are told once.
  sheet.scenario.groups[1] = goats;
  sheet.scenario.groups[1].stay.arrives = 4.0, sheet.scenario.groups[1].stay.leaves = 1.0;
  sheet.list.days[4].served = 0.0F;
  CHECK(told_on(sheet) == "5");
  for (std::size_t d = 0; d < 5; ++d) sheet.list.days[d].served = 0.0F;
  CHECK(told_on(sheet) == "5");
  CHECK(turns_of_day(sheet, 1).front().what == "animals go");
  CHECK(turns_of_day(sheet, 4).front().of == "goats");
}

TEST_CASE("fodder after a week without in the middle of the list is brought in anew, by whoever states an introduction too") {
  Sheet sheet = running();
  sheet.days = 12;
  sheet.list.days.assign(12, DailyRow{});
  sheet.list.days[0].served = sheet.list.days[1].served = sheet.list.days[8].served = sheet.list.days[9].served = 8.0F;
  CHECK_FALSE(contains(schedule_text(sheet), "Fodder again"));  // six days
  sheet.list.days[8].served = 0.0F;
  const std::string text = schedule_text(sheet);
  CHECK(contains(text, "Fodder again after 7 days without: bring it in anew over 7 to 14 days"));
  CHECK(text.find("Fodder again") == text.rfind("Fodder again"));
  CHECK(told_on(sheet).empty());
  sheet.scenario.groups[0].introduction = days(10);
  CHECK(contains(schedule_text(sheet), "The list gives goats all that is there at once."));
  CHECK(contains(schedule_csv(sheet), "2026-07-23,,fodder again,"));
  CHECK(contains(schedule_calendar(sheet), "SUMMARY:Fodder again: bring it in over 7 to 14 days\r\nDESCRIPTION:Fodder again after"));
  sheet.scenario.groups[0].stay.arrives = 9.0;  // it comes: told as its first
  CHECK_FALSE(contains(schedule_text(sheet), "Fodder again"));
}

TEST_CASE("what begins or ends on a day stands in sheets, calendars and what other programs read") {
  Sheet sheet = running();
  sheet.first = std::chrono::sys_days(std::chrono::year(2026) / 4 / 30);
  study::Task soak = task(Kind::soak, 3, 4.5);
  soak.minute = 1440 + 420;
  sheet.list.tasks = {soak};
  sheet.scenario.groups[0].stay.arrives = 2.0;
  sheet.scenario.room.shade = 0.5;
  sheet.scenario.shaded = {121, 274};  // 1 May to 1 October
  sheet.scenario.opened = {123, 122};  // from 3 May, until 2 May

  const std::string csv = schedule_csv(sheet);
  CHECK(contains(csv, "2026-05-01,,shade up,,,,,,,,,put the shade up,\r\n2026-05-01,07:00,soak,"));
  CHECK(contains(csv, "2026-05-02,,animals come,,,,goats,,,,,goats: fed here from today,\r\n2026-05-02,,shut,,,,,,,,,shut doors and windows,\r\n2026-05-02,,first fodder,,"));
  CHECK(contains(csv, "2026-05-03,,open,,,,,,,,,open doors and windows,\r\n"));
  const auto cells = [](const std::string& line) { return std::count(line.begin(), line.end(), ','); };
  const std::string head = csv.substr(0, csv.find("\r\n"));
  CHECK(cells("2026-05-01,,shade up,,,,,,,,,put the shade up,") == cells(head));
  sheet.luck = study::Luck{};
  const std::string lucky = schedule_csv(sheet);
  CHECK(contains(lucky, "put the shade up,,,\r\n"));
  sheet.luck.reset();

  const auto all = nlohmann::json::parse(schedule_json(sheet));
  REQUIRE(all["turns"].size() == 5);
  CHECK(all["turns"][0] == nlohmann::json({{"date", "2026-05-01"}, {"what", "shade up"}, {"words", "put the shade up"}}));
  CHECK(all["turns"][1]["of"] == "goats");
  CHECK(all["turns"][3]["what"] == "first fodder");
  CHECK(all["turns"][4]["date"] == "2026-05-03");

  const std::string calendar = schedule_calendar(sheet);
  CHECK(contains(calendar, "UID:2026-05-01-shade-up@worklist.rackwright.invalid\r\nDTSTAMP:20260430T000000Z\r\nDTSTART;VALUE=DATE:20260501\r\nSUMMARY:put the shade up\r\n"));
  CHECK(contains(calendar, "UID:2026-05-02-animals-come-goats@"));
  CHECK(contains(calendar, "SUMMARY:First fodder: bring it in over 7 to 14 days\r\nDESCRIPTION:First fodder"));
  CHECK(contains(calendar, "SUMMARY:open doors and windows\r\n"));
  CHECK_FALSE(contains(schedule_calendar(sheet_of({})), "VALUE=DATE"));
  CHECK(nlohmann::json::parse(schedule_json(sheet_of({})))["turns"].empty());
}

TEST_CASE("days of more than two figures are told without an exponent") {
  study::Task order = task(Kind::order, 0, 300.0);
  order.hours = 24.0 * 115.0;
  CHECK(contains(schedule_csv(sheet_of({order})), "(comes in about 120 d)"));
  Sheet sheet = sheet_of({task(Kind::discard, 0, 20.0)});
  sheet.scenario.grains[0].store.use_by = days(3650);
  CHECK(contains(schedule_csv(sheet), "past its use-by of 3650 d"));
}
