// What luck makes of a worklist, and of moves that bring a line back, in words and in files.
#include <algorithm>

#include <nlohmann/json.hpp>

#include "sim/app/schedule_sheet.hpp"
#include "tests/catch.hpp"
#include "tests/unit/app/sheet_sample.hpp"

using namespace rackwright;
using namespace rackwright::app;
using namespace rackwright::test;
using study::Task;
using Kind = study::Task::Kind;

TEST_CASE("what luck makes of the list stands at its head, at the days and at feedings, and in files") {
  Task meal = task(Kind::feed, 0, 6.7, 0), other = task(Kind::feed, 0, 1.2, 1);
  meal.wanted = 6.75, other.wanted = 1.2;
  Sheet sheet = sheet_of({meal, other});
  sheet.list.days.resize(2);
  sheet.list.days[0].served = 7.9F;
  CHECK_FALSE(contains(schedule_text(sheet), "luck as it comes"));
  study::Luck luck;
  luck.plays = 200;
  luck.meals[{420, 0}] = {5.0, 120};
  luck.meals[{420, 1}] = {1.19, 3};
  luck.days = {{8.0, 6.2, 2.3, 0.0, 1.1, 1.2}, {8.0, 8.0, 0.1, 0.0, 2.0, 0.0}, {100.0, 0.0, 9.0, 9.0, 0.0, 9.0}};
  sheet.luck = luck;
  std::string text = schedule_text(sheet);
  std::string flat = text;
  std::replace(flat.begin(), flat.end(), '\n', ' ');
  CHECK(contains(flat, "Played 200 times with luck as it comes, these 2 days feed 14.2 kg of the 16 kg wanted on the mean, and 2.4 mats spoil; the list below is one play in which "
                       "luck falls out evenly, and feeds 7.9 kg."));
  CHECK(contains(text, "  with luck, on the mean: 6.2 kg fed of 8 kg wanted, 2.3 mats spoil, 1.1 are cut\n"));
  CHECK(text.find("with luck, on the mean") == text.rfind("with luck, on the mean"));  // the second day is as listed
  CHECK(contains(text, "feed goats 6.7 kg: likely SHORT (in 60 % of plays; 5 kg on the mean)\n"));
  CHECK(contains(text, "feed hens 1.2 kg\n"));
  sheet.luck->meals[{420, 1}].shorts = 60;
  CHECK(task_words(sheet, other) == "feed hens 1.2 kg: may be short (in 30 % of plays; 1.2 kg on the mean)");
  meal.kilograms = 6.0;  // short by the list itself
  CHECK(task_words(sheet, meal) == "feed goats 6 kg of the 6.8 kg they want: SHORT (5 kg with luck)");
  sheet.from_state = true;
  CHECK(contains(schedule_text(sheet), "1 of the feedings below is marked SHORT or likely SHORT"));
  sheet.luck->days[0].killed = 12.0;
  CHECK(contains(schedule_text(sheet), "2.3 mats spoil and 12 die of frost, 1.1 are cut"));
  const std::string csv = schedule_csv(sheet);
  CHECK(contains(csv, "in words,short with luck [%],given with luck [kg],of it unripe [kg]\r\n"));
  CHECK(contains(csv, ",60.0,5.000,\r\n"));
  const auto all = nlohmann::json::parse(schedule_json(sheet));
  CHECK(all["tasks"][0]["with_luck"]["short_chance"] == 0.6);
  CHECK(all["plays_with_luck"] == 200);
  REQUIRE(all["days_with_luck"].size() == 2);
  CHECK(all["days_with_luck"][0]["served"] == 6.2);
  CHECK(all["days_with_luck"][0]["spoiled_trays"] == 2.3);
}

TEST_CASE("moves are told with what they change, in the farm's units, and what makes meals short stands below going on as usual") {
  using Verdict = study::Tried::Verdict;
  Sheet sheet = sheet_of({});
  sheet.ahead = -1.0;
  study::Recovery recovery;
  recovery.replications = 32;
  recovery.days = 21;
  recovery.short_feedings = {6.0, 5.0, 7.0, 0, 0, 0};
  recovery.missing = {40.0, 30.0, 50.0, 0, 0, 0};
  recovery.tried = {{"sow double in the next sowing", {}, {12.0, 9.0, 15.0, 0, 0, 0}, {-2.0, -3.0, -1.0, 0, 0, 0}, {-10.0, -12.0, -8.0, 0, 0, 0}, Verdict::feeds_more},
                    {"cut a day younger", {}, {-1.0, -2.0, -0.5, 0, 0, 0}, {-0.05, -0.5, 0.4, 0, 0, 0}, {}, Verdict::alike},
                    {"skip a ration", {}, {-5.2, -5.5, -4.9, 0, 0, 0}, {30.0, 29.0, 31.0, 0, 0, 0}, {71.0, 70.0, 72.0, 0, 0, 0}, Verdict::feeds_less}};
  const auto flat = [](std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
  };
  const std::string text = recovery_text(sheet, recovery);
  CHECK(text.starts_with("1 batch behind: what each move changes over 21 days, to 3 August,"));
  CHECK(contains(text, "These feed more; those that feed most first:\n  sow double in the next sowing\n      loss +12.0 (+9.0 to +15.0) EUR, short meals -2.0 (-3.0 to -1.0), missing -10 (-12 to -8) kg\n"));
  CHECK(contains(text, "These feed as much as going on as usual; the cheapest first:\n  cut a day younger\n"));
  CHECK(contains(text, "These make meals short that would not be; they are no way back:\n  skip a ration\n"));
  CHECK(text.find("skip a ration") > text.find("cut a day younger"));
  CHECK_FALSE(contains(text, "beats going on"));
  CHECK(contains(flat(text), "As usual 6.0 meals are short (each group's counted by itself) and 40 kg of fodder are missing in these 21 days."));
  // Over which days, and how many of them the list shows.
  Task meal = task(Kind::feed, 0, 3.0, 0);
  meal.wanted = 6.0;
  sheet.list.tasks = {meal};
  sheet.luck.emplace();
  sheet.luck->plays = 32;
  sheet.luck->days = {{10.0, 8.0, 0.0, 0.0, 2.0, 1.5}, {10.0, 9.0, 0.0, 0.0, 2.0, 0.5}, {10.0, 0.0, 0.0, 0.0, 2.0, 4.0}};
  CHECK(contains(flat(recovery_text(sheet, recovery)), "missing in these 21 days, 2.0 and 3 kg of them in the 2 days listed above, where one play with even luck has 1 short. Loss:"));
  // A heater among the moves comes with what it may do.
  CHECK_FALSE(contains(text, "heater"));
  study::Recovery warmed = recovery;
  warmed.tried[1].what = "put in a heater of 1000 W, set to 24 degC, for 8 days";
  CHECK(contains(flat(recovery_text(sheet, warmed)), "A heater in a wet, dusty barn is a risk of fire and shock"));
  // Nothing feeds more: said, and whether anything is cheaper.
  recovery.tried.erase(recovery.tried.begin());
  CHECK(contains(recovery_text(sheet, recovery), "Nothing feeds more than going on as usual; something is cheaper.\n"));
  recovery.tried[0].loss = {0.5, -0.5, 1.5, 0, 0, 0};
  CHECK(contains(recovery_text(sheet, recovery), "Nothing beats going on as usual.\n"));
  CHECK(contains(recovery_text(sheet, recovery), "missing 0 (0 to 0) kg: no difference shown\n"));
  // What comes to the same stands over one line of figures.
  study::Recovery same = recovery;
  same.tried[1] = same.tried[0];
  same.tried[1].what = "wait";
  CHECK(contains(recovery_text(sheet, same), "  cut a day younger\n  wait\n      loss +0.5"));
  sheet.scenario.units = Units::us;
  CHECK(contains(recovery_text(sheet, recovery), "missing +157 (+154 to +159) lb\n"));
  sheet.ahead = 2.0;
  CHECK(recovery_text(sheet, recovery).starts_with("2 batches ahead:"));
}
