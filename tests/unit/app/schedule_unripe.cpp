// Mats that the list cuts before they are ripe, and a log that shows nothing in soak: told wherever the worklist is.
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

namespace {

/// One line, its blanks single.
std::string flat(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  text.erase(std::unique(text.begin(), text.end(), [](char a, char b) { return a == ' ' && b == ' '; }), text.end());
  return text;
}

/// Two trays cut unripe on the first day, and what of them is fed.
Sheet unripe_sheet() {
  Task harvest = task(Kind::harvest, 2, 5.3, 1), all = task(Kind::feed, 0, 3.2), part = task(Kind::feed, 0, 2.0, 1);
  harvest.unripe = 5.3, all.unripe = 3.2, part.unripe = 0.8;
  all.wanted = 3.2, part.wanted = 2.0;
  Sheet sheet = sheet_of({harvest, all, part});
  sheet.list.days.resize(2);
  return sheet;
}

}  // namespace

TEST_CASE("a harvest of unripe mats and what is fed of them are marked, with what to do") {
  const Sheet sheet = unripe_sheet();
  const auto& tasks = sheet.list.tasks;
  CHECK(task_words(sheet, tasks[0]) == "harvest 2 trays of wheat sown 6 July, morning, about 5.3 kg: UNRIPE, mostly soaked grain: feed little of it, or leave it on the rack");
  CHECK(task_words(sheet, tasks[1]) == "feed goats 3.2 kg; all of it UNRIPE, mostly soaked grain: give little of that, make up with hay or their usual feed");
  CHECK(contains(task_words(sheet, tasks[2]), "2 kg; 0.8 kg of it UNRIPE, mostly soaked grain"));
  const std::string text = flat(schedule_text(sheet));
  CHECK(contains(text, "! Unripe: 2 trays of those that the list cuts, on 14 July, have not grown to 75 % of a ripe mat (line.ready): mostly soaked grain"));
  CHECK(contains(text, "sours the gut"));
  const std::string csv = schedule_csv(sheet), head = csv.substr(0, csv.find("\r\n"));
  CHECK(head.ends_with(",in words,of it unripe [kg]"));
  CHECK(contains(csv, "or leave it on the rack; look every mat over: never feed a mouldy, slimy or sour one; throw it out whole, in gloves and a fine-dust mask (P2 or N95)\",5.300\r\n"));
  CHECK(contains(csv, "make up with hay or their usual feed\",0.800\r\n"));
  const auto json = nlohmann::json::parse(schedule_json(sheet));
  CHECK(json["tasks"][0]["unripe_kilograms"] == 5.3);
  CHECK(json["tasks"][2]["unripe_kilograms"] == 0.8);
  CHECK(contains(json["tasks"][1]["caution"].get<std::string>(), "all of it UNRIPE"));
  CHECK(contains(json["warnings"][0].get<std::string>(), "Unripe: 2 trays"));
  const std::string calendar = schedule_calendar(sheet);
  CHECK(contains(calendar, "SUMMARY:Rack: harvest\\, feed (UNRIPE)\r\n"));
  CHECK(contains(calendar, "SUMMARY:Unripe mats: see to the rack\r\n"));
  CHECK(contains(calendar, "mostly soaked grain"));
}

TEST_CASE("nothing is said of unripe mats where none are cut in the days that are shown") {
  Sheet sheet = unripe_sheet();
  for (Task& task : sheet.list.tasks) task.minute += 2 * 1440;
  CHECK(advice_words(sheet).empty());
  for (Task& task : sheet.list.tasks) task.minute -= 2 * 1440, task.unripe = 0.0;
  CHECK_FALSE(contains(schedule_text(sheet), "nripe"));
  CHECK_FALSE(contains(schedule_calendar(sheet), "UNRIPE"));
  CHECK_FALSE(contains(schedule_json(sheet), "unripe"));
  CHECK(contains(schedule_csv(sheet), "about 5.3 kg; look every mat over: never feed a mouldy, slimy or sour one; throw it out whole, in gloves and a fine-dust mask (P2 or N95)\",\r\n"));
}

TEST_CASE("cold: batches that do not ripen are said to be fed unripe where the list feeds them so") {
  Sheet sheet = sheet_of({});
  sheet.advice.cold = study::ColdAdvice{{{-8, 0}, {-7, 0}, {1, 0}}, 0.2, 1.5, {{-8, 0}, {-7, 0}, {1, 0}}};
  sheet.list.batches[{-8, 0}].first_unripe = 1440 + 420;
  sheet.list.batches[{-7, 0}].first_unripe = 420;
  sheet.list.batches[{1, 0}].ripe = 3 * 1440;
  CHECK(contains(advice_words(sheet)[0], "do not ripen in this cold. By the list 2 of these 3 are fed unripe, for want of riper mats, first on 14 July. No early start"));
  sheet.advice.cold->never = {{1, 0}};
  CHECK(advice_words(sheet)[0].ends_with("does not ripen at all. By the list 2 of these 3 are fed unripe, for want of riper mats, first on 14 July."));
  sheet.advice.cold = study::ColdAdvice{{{-8, 0}}, 0.2, 1.5, {{-8, 0}}};
  CHECK(contains(advice_words(sheet)[0], "By the list it is fed unripe, for want of riper mats, on 15 July."));
}

TEST_CASE("a log that shows nothing in soak is asked for the row of a full bucket before double sowing is advised") {
  Sheet sheet = sheet_of({});
  sheet.from_state = true;
  sheet.ahead = -1.0;
  sheet.recovery.emplace();
  sheet.recovery->tried = {{"sow double in the next sowing", {}, {}, {}, {}, study::Tried::Verdict::feeds_more}};
  CHECK_FALSE(contains(schedule_text(sheet), "bucket"));
  CHECK_FALSE(contains(schedule_json(sheet), "nothing_in_soak"));
  sheet.unseen_soak = 4;
  const std::string text = flat(schedule_text(sheet));
  CHECK(contains(text, "1 batch behind, if no bucket is full."));
  CHECK(contains(text, "! The log shows nothing in soak, where a line that keeps its days has 4 trays there now. If a bucket is full, write its row now"));
  const auto proviso = text.find("All that follows holds only if no bucket is full");
  REQUIRE(proviso != std::string::npos);
  CHECK(proviso < text.find("sow double in the next sowing"));
  const auto json = nlohmann::json::parse(schedule_json(sheet));
  CHECK(contains(json["nothing_in_soak"].get<std::string>(), "write its row now"));
  CHECK(contains(json["recovery"]["proviso"].get<std::string>(), "only if no bucket is full"));
  // A line that is not behind is asked all the same, without the count.
  sheet.ahead = 0.0;
  CHECK(contains(flat(schedule_text(sheet)), "on schedule. ! The log shows nothing in soak"));
  CHECK(soak_proviso(sheet).empty());
}

TEST_CASE("where a harvest or a short meal stands alone, its caution stands with it") {
  Task meal = task(Kind::feed, 0, 3.0, 0);
  meal.wanted = 6.75;
  const Task cut = task(Kind::harvest, 3, 15.0), wash = task(Kind::wash, 4, 0.0, -1);
  const std::string caution = "look every mat over: never feed a mouldy", hay = "make it up with hay or their usual feed";
  const auto calendar = [&](const std::vector<Task>& tasks) {
    std::string text = schedule_calendar(sheet_of(tasks));
    for (std::size_t fold = 0; (fold = text.find("\r\n ")) != std::string::npos;) text.erase(fold, 3);
    return text;
  };
  CHECK(contains(calendar({cut}), caution));
  CHECK(contains(schedule_csv(sheet_of({cut})), caution));
  CHECK(contains(calendar({meal}), hay));
  CHECK(contains(schedule_csv(sheet_of({meal})), hay));
  CHECK(nlohmann::json::parse(schedule_json(sheet_of({cut})))["caution"].get<std::string>().starts_with("At every harvest " + caution));
  meal.kilograms = meal.wanted;
  for (const auto& text : {calendar({meal, wash}), schedule_csv(sheet_of({meal, wash}))}) {
    CHECK_FALSE(contains(text, caution));
    CHECK_FALSE(contains(text, hay));
  }
}
