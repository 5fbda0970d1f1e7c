// What the keeper's minutes leave undone, and how they are told in every form of the worklist.
#include <nlohmann/json.hpp>

#include "sim/scenario/today.hpp"
#include "tests/catch.hpp"
#include "tests/unit/app/sheet_sample.hpp"

using namespace rackwright;
using namespace rackwright::app;
using rackwright::test::contains;
using rackwright::test::sheet_of;
using rackwright::test::task;
using Task = study::Task;
using Kind = study::Task::Kind;

TEST_CASE("what is left undone for want of minutes is told of every kind, and why a meal is short then") {
  Task move = task(Kind::move, 0, 0.0), cut = task(Kind::harvest, 0, 0.0), meal = task(Kind::feed, 0, 2.0);
  move.undone = 24, cut.undone = 2, meal.wanted = 6.0;
  move.why = cut.why = meal.why = {study::Task::Why::time};
  Sheet sheet = sheet_of({cut, meal, move});
  CHECK(task_words(sheet, move) == "no time is left: 24 trays not moved");
  CHECK(task_words(sheet, cut) == "no time is left: 2 trays of barley sown 6 July, morning not harvested");
  CHECK(task_words(sheet, meal) == "feed goats 2 kg of the 6 kg they want: SHORT, as no time is left to harvest more");
  for (const std::string& written : {schedule_csv(sheet), schedule_text(sheet)})
    for (const Task& one : sheet.list.tasks) CHECK(contains(written, task_words(sheet, one)));
  CHECK(contains(schedule_csv(sheet), ",move,0,,,"));
  const auto all = nlohmann::json::parse(schedule_json(sheet))["tasks"];
  for (const auto& one : all) CHECK(one["no_time"] == true);
  CHECK(all[2]["undone_trays"] == 24);
  CHECK_FALSE(contains(schedule_calendar(sheet), "harvest 0"));
  meal.kilograms = 6.0;
  CHECK(task_words(sheet, meal) == "feed goats 6 kg");
}

TEST_CASE("appointments of a day are together as long as its head says, the way on its rounds") {
  Sheet sheet = sheet_of({task(Kind::feed, 0, 6.0), task(Kind::soak, 3, 2.7), task(Kind::feed, 0, 6.0), task(Kind::order, 0, 300.0)});
  sheet.scenario.keeper.times = {};
  sheet.list.tasks[1].minute = 600;
  sheet.list.tasks[2].minute = rackwright::round_minute(sheet.scenario, 1);
  sheet.list.tasks[3].minute = 1260;
  sheet.list.days.resize(2);
  sheet.list.days[0].labour = 3.0F + 5.0F + 3.0F + 5.0F;  // five minutes of way on two rounds
  CHECK(contains(schedule_text(sheet), "about 16 min of work"));
  const std::string calendar = schedule_calendar(sheet);
  int sum = 0;
  for (auto at = calendar.find("DURATION:PT"); at != std::string::npos; at = calendar.find("DURATION:PT", at + 1)) sum += std::stoi(calendar.substr(at + 11));
  CHECK(sum == 16);
  CHECK(contains(calendar, "T070000\r\nDURATION:PT6M"));
  CHECK(contains(calendar, "T100000\r\nDURATION:PT5M"));
  CHECK(contains(calendar, "T210000\r\nSUMMARY:order"));
  CHECK(nlohmann::json::parse(schedule_json(sheet))["work"][0]["minutes"] == 16.0);
}

TEST_CASE("a day of more minutes than there are says why") {
  Sheet sheet = sheet_of({task(Kind::feed, 0, 6.0)});
  sheet.scenario.keeper.minutes_per_day = 20.0;
  sheet.list.days.resize(2);
  sheet.list.days[0].labour = 20.4F, sheet.list.days[1].labour = 20.0F;
  CHECK_FALSE(contains(schedule_text(sheet), "more than"));
  sheet.list.days[0].labour = 23.0F;
  CHECK(contains(schedule_text(sheet), "about 23 min of work\n  more than the 20 min there are: animals are fed in any case\n"));
  Task soak = task(Kind::soak, 3, 2.7);
  soak.minute = 1440 + 1260;
  sheet.list.tasks.push_back(soak);
  CHECK(contains(schedule_text(sheet), "about 25 min of work\n  more than the 20 min there are: what is put to soak after the last round counts as the next day's\n"));
  // What was put to soak before the list begins is in the first day's minutes, and no work of it.
  sheet.opening.now = 360;
  sheet.opening.wet = {{-180, 0, 0, 3, 0}, {-720, 0, 0, 3, 0}};
  CHECK(contains(schedule_text(sheet), "about 18 min of work\n"));
}
