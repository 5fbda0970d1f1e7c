// A worklist in words: every kind of work, what is left undone, what the weather asks for, and the same in files for other programs.
#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "sim/app/schedule_sheet.hpp"
#include "tests/catch.hpp"
#include "tests/unit/app/sheet_sample.hpp"

using namespace rackwright;
using namespace rackwright::app;
using namespace rackwright::test;
using study::Task;
using Kind = study::Task::Kind;
using Why = study::Task::Why;

namespace {

std::string words(const Task& t) { return task_words(sheet_of({}), t); }

/// A spell in which the batches of 15 and 16 July would sour.
study::HeatAdvice hot() {
  study::HeatAdvice heat;
  heat.batches = {{1, 0}, {2, 1}};
  heat.usual = 0.01;
  heat.risk = 0.3;
  return heat;
}

std::vector<std::string> advice(const study::HeatAdvice& heat) {
  Sheet sheet = sheet_of({});
  sheet.advice.heat = heat;
  return advice_words(sheet);
}

}  // namespace

TEST_CASE("each kind of work is one sentence, of one tray or of many") {
  Task soak = task(Kind::soak, 3, 4.5, 1);
  soak.day = 1, soak.session = 1, soak.hours = 10.0;
  CHECK(words(soak) == "soak 4.5 kg of wheat for 3 trays (to be sown 15 July, evening, after 10 h)");
  soak.undone = 1, soak.why = {Why::grain};
  CHECK(words(soak).ends_with("after 10 h); 1 tray left undone: too little wheat in store"));
  soak.trays = 0, soak.undone = 3;
  const auto undone = [&](std::vector<Why> why) {
    soak.why = std::move(why);
    return words(soak);
  };
  const std::string what = ": soak no wheat for 3 trays (to be sown 15 July, evening)";
  CHECK(undone({Why::grain}) == "too little wheat in store" + what);
  CHECK(undone({Why::too_old}) == "the wheat in store is too old (past its use-by of 365 d)" + what);
  CHECK(undone({Why::bucket, Why::grain}) == "no bucket is free; too little wheat in store" + what);
  CHECK(undone({Why::frost}) == "the room is below freezing" + what);
  CHECK(undone({Why::nobody}) == "nobody is there" + what);
  soak.undone = 0;
  CHECK(undone({Why::not_wanted}) == "soak nothing (to be sown 15 July, evening): no fodder will be wanted when it is ripe");
  const auto thrown = [&](int trays, Why why) {
    Task t = task(Kind::throw_out, trays, 0.0);
    t.why = {why};
    return words(t);
  };
  CHECK(thrown(1, Why::past) == "throw out 1 tray of barley sown 6 July, morning: past its time, or its place is wanted");
  CHECK(thrown(2, Why::past) == "throw out 2 trays of barley sown 6 July, morning: past their time, or their places are wanted");
  CHECK(thrown(8, Why::killed) == "throw out 8 trays of barley sown 6 July, morning: killed by frost");
  CHECK(thrown(1, Why::mould).ends_with(": mouldy"));
  CHECK(thrown(1, Why::sour).ends_with(": sour"));
  Task foul = task(Kind::pour_out, 8, 0.0);
  foul.why = {Why::frost};
  CHECK(words(foul) == "pour out the grain soaked for 8 trays (to be sown 6 July, morning): it lay in ice and is foul");
  CHECK(words(task(Kind::harvest, 3, 15.25)) == "harvest 3 trays of barley sown 6 July, morning, about 15.2 kg");
  CHECK(words(task(Kind::sow, 3, 0.0, 1)) == "sow 3 trays of wheat");
  Task nowhere = task(Kind::sow, 0, 0.0);
  nowhere.undone = 3;
  nowhere.why = {Why::place};
  CHECK(words(nowhere) == "no place is free on the rack: 3 trays not sown");
  nowhere.why = {Why::time};
  CHECK(words(nowhere) == "no time is left: 3 trays not sown");
  CHECK(words(task(Kind::move, 12, 0.0)) == "move 12 trays one place on");
  Task wash = task(Kind::wash, 4, 0.0, -1);
  CHECK(words(wash) == "wash 4 trays");
  wash.undone = 2;
  CHECK(words(wash) == "wash 4 trays; 2 trays left undone: no time or room");
  Task order = task(Kind::order, 0, 300.0);
  order.hours = 84.0;
  CHECK(words(order) == "order 300 kg of barley (comes in about 3.5 d)");
  CHECK(words(task(Kind::discard, 0, 260.0)) == "throw out 260 kg of barley from the store: past its use-by of 365 d");
  CHECK(words(task(Kind::receive, 0, 300.0)) == "300 kg of barley comes");
  CHECK(words(task(Kind::receive, 0, 300.0, -1)) == "300 kg of grain comes");  // an order of no grain in particular
  Sheet once = sheet_of({});
  once.scenario.line.batches_per_day = 1;
  CHECK(task_words(once, task(Kind::harvest, 1, 5.0)) == "harvest 1 tray of barley sown 6 July, about 5 kg");
}

TEST_CASE("a trial of a lot is laid out and counted by the rule of its grain") {
  Sheet sheet = sheet_of({});
  sheet.scenario.grains[1].policy.trial = 100;
  sheet.scenario.grains[1].policy.accept = 0.8;
  sheet.scenario.grains[1].policy.trial_minutes = 25.0;
  Task laid = task(Kind::lay_trial, 0, 0.0, 1);
  laid.hours = 72.0;
  CHECK(task_words(sheet, laid) == "lay out 100 kernels of the wheat that came to see how many sprout; count them in 3 d");
  CHECK(task_words(sheet, task(Kind::count_trial, 0, 0.0, 1)) ==
        "count the trial of wheat: keep the lot if 80 or more of 100 sprouted, else send it back and order again");
  sheet.list.tasks = {laid};
  CHECK(contains(schedule_calendar(sheet), "DURATION:PT25M\r\n"));
  CHECK(contains(schedule_csv(sheet), ",lay out a trial,0,,,wheat,"));
  sheet.list.tasks = {task(Kind::count_trial, 0, 0.0, 1)};
  CHECK(contains(schedule_csv(sheet), ",count a trial,0,,,wheat,"));
}

TEST_CASE("a round's appointment is as long as all of its work, and names each kind once") {
  Task soak = task(Kind::soak, 3, 4.5), none = task(Kind::soak, 0, 0.0);
  none.undone = 3;
  Sheet sheet = sheet_of({task(Kind::throw_out, 1, 0.0), soak, none, task(Kind::feed, 0, 6.0), task(Kind::feed, 0, 1.0, 1), task(Kind::sow, 3, 0.0), task(Kind::move, 4, 0.0),
                          task(Kind::wash, 2, 0.0, -1)});
  route::Times& times = sheet.scenario.keeper.times;
  times.soak_per_batch = 5.0, times.drain_per_batch = 3.0, times.feed_per_group = 4.0, times.sow_per_tray = 2.0, times.move_per_tray = 1.0, times.wash_per_tray = 6.0;
  CHECK(contains(schedule_calendar(sheet), "DURATION:PT38M\r\nSUMMARY:Rack: throw out\\, soak\\, feed\\, sow\\, move\\, wash\r\n"));  // 8 + 2 x 4 + 3 x 2 + 4 x 1 + 2 x 6
}

TEST_CASE("a meal is short only beyond what the farm tolerates, and then says of how much") {
  Task meal = task(Kind::feed, 0, 6.7, 0);
  meal.wanted = 6.75;
  CHECK(words(meal) == "feed goats 6.7 kg");
  meal.kilograms = 3.0;
  CHECK(words(meal) == "feed goats 3 kg of the 6.8 kg they want: SHORT");
  Sheet us = sheet_of({});
  us.scenario.units = Units::us;
  CHECK(task_words(us, meal) == "feed goats 6.6 lb of the 15 lb they want: SHORT");
}

TEST_CASE("heat: what would spoil, each step that helps and how far, or that none does") {
  study::HeatAdvice heat = hot();
  CHECK(advice(heat) == std::vector<std::string>{
                            "Warm spell: the 2 batches of 15 July, morning to 16 July, evening would spoil with a chance of 30 % a tray; usual for the season is 1.0 %.",
                            "Neither a shorter soak nor thinner sowing helps: cool or air the room, or sow fewer trays on those days."});
  heat.batches = {{1, 0}};
  heat.soak = study::HeatAdvice::Step{6.0, 0.02};
  auto told = advice(heat);
  REQUIRE(told.size() == 2);
  CHECK(told[0].starts_with("Warm spell: the batch of 15 July, morning would spoil"));
  CHECK(told[1] == "Shorten their soak to 6 h (now 10 h): the chance falls to 2.0 %.");
  heat.charge = study::HeatAdvice::Step{2.0, 0.2};
  heat.both = study::HeatAdvice::Step{3.0, 0.015};
  told = advice(heat);
  REQUIRE(told.size() == 4);
  CHECK(told[2] == "Sow them thinner, down to 2 kg/m2 (now 5 kg/m2): the chance falls to 20 %, still above usual. For as much sound fodder that takes 2.2 times as many trays.");
  CHECK(told[3] == "Do both, sowing down to 3 kg/m2 (now 5 kg/m2): the chance falls to 1.5 %. For as much sound fodder that takes 1.2 times as many trays.");
  heat.charge = study::HeatAdvice::Step{4.9, 0.02};
  CHECK(advice(heat)[2].ends_with("the chance falls to 2.0 %."));  // more sound fodder than now
}

TEST_CASE("heat over what stands already asks for eyes, not for another sowing") {
  study::HeatAdvice heat;
  heat.standing = {{-3, 0}};
  heat.standing_usual = 0.05;
  heat.standing_risk = 0.4;
  const auto told = advice(heat);
  REQUIRE(told.size() == 1);
  CHECK(told[0].starts_with("Already sown or in soak: the batch of 11 July, morning. A tray of the worst spoils with a chance of 40 % (usual 5.0 %)"));
}

TEST_CASE("cold: an earlier start where it can make up for it, else a warmer room") {
  Sheet sheet = sheet_of({});
  sheet.advice.cold = study::ColdAdvice{{{0, 0}}, 0.2, 1.5, {}};
  auto told = advice_words(sheet);
  REQUIRE(told.size() == 1);
  CHECK(told[0] == "Cold spell: the batch of 14 July, morning ripens up to 1.5 d after its 8 days on the rack (1.3 d more than usual for the season). "
                   "What must be ready on its day is to be started 1.5 d earlier, or the room kept warmer.");
  sheet.advice.cold->late = 5.0;
  CHECK(advice_words(sheet)[0].ends_with("No early start makes up for that: keep the room warmer."));
  // What never ripens is not said to ripen in hundreds of days.
  sheet.advice.cold->batches = {{0, 0}, {0, 1}};
  sheet.advice.cold->never = {{0, 1}};
  CHECK(advice_words(sheet)[0].ends_with("keep the room warmer. Of them the batch of 14 July, evening does not ripen at all."));
  sheet.advice.cold->never = sheet.advice.cold->batches;
  CHECK(advice_words(sheet)[0] == "Cold spell: the 2 batches of 14 July, morning to 14 July, evening do not ripen in this cold. No early start makes up for that: keep the room warmer.");
}

TEST_CASE("frost is told once for all days, with what it does to the water") {
  Sheet sheet = sheet_of({});
  sheet.list.days.resize(3);
  CHECK(advice_words(sheet).empty());
  sheet.list.days[1].room_min = -2.0F, sheet.list.days[2].room_min = -5.0F;  // the third is not shown
  const auto told = advice_words(sheet);
  REQUIRE(told.size() == 1);
  CHECK(told[0].starts_with("Frost: the room freezes on 1 of these days, first on 15 July. Drain pump, pipes and tank before, or the water freezes in them"));
  CHECK(contains(told[0], "die below -3 degC: throw out what froze, and feed none of it."));
  CHECK(contains(told[0], "A heater keeps it from freezing: fixed, guarded, away from bedding and dust, and none that burns fuel without a flue."));
  sheet.scenario.units = Units::us;
  CHECK(contains(advice_words(sheet)[0], "die below 26.6 degF"));
}

TEST_CASE("a day's minutes have what is put to soak in its own night, not in the night before") {
  Task soak = task(Kind::soak, 3, 4.5);
  soak.minute = 21 * 60;
  Sheet sheet = sheet_of({soak});
  soak.minute += 1440;
  sheet.list.tasks.push_back(soak);
  sheet.list.days.resize(3);
  for (DailyRow& row : sheet.list.days) row.labour = 100.0F;
  sheet.scenario.keeper.times.soak_per_batch = 3.0, sheet.scenario.keeper.times.drain_per_batch = 2.0;
  CHECK(work_minutes(sheet, 0) == Approx(105.0));
  CHECK(work_minutes(sheet, 1) == Approx(100.0));
  CHECK(work_minutes(sheet, 2) == Approx(95.0));
}

TEST_CASE("the sheet tells where the rack stands, what the days are like and when grain must be ordered") {
  Sheet sheet = sheet_of({task(Kind::harvest, 3, 15.0), task(Kind::move, 12, 0.0)});
  sheet.list.tasks.back().minute = 430;
  CHECK(contains(schedule_text(sheet), "Stone barn: 2 days from Tuesday 14 July 2026\nThe rack is empty at the start.\n"));
  CHECK(contains(schedule_text(sheet), "\nTuesday 14 July 2026\n  07:00  harvest 3 trays"));  // no weather, no room: the day alone
  CHECK(contains(schedule_text(sheet), "\n  07:10  move 12 trays one place on\n\nWednesday 15 July 2026\n"));
  sheet.from_state = true;
  sheet.opening.sown = {{-8, 0, 3, 0}, {-7, 0, 4, 0}};
  const auto pace = [&](double ahead) {
    sheet.ahead = ahead;
    const std::string text = schedule_text(sheet);
    const auto from = text.find("7 trays stand on the rack: ");
    REQUIRE(from != std::string::npos);
    return text.substr(from + 27, text.find('\n', from) - from - 27);
  };
  CHECK(pace(0.2) == "on schedule.");
  CHECK(pace(-1.0) == "1 batch behind.");
  CHECK(pace(2.5) == "2.5 batches ahead.");
  CHECK_FALSE(contains(schedule_text(sheet), "marked SHORT"));
  study::Task meal = task(Kind::feed, 0, 3.0);
  meal.wanted = 4.0;
  meal.which = 0;
  if (sheet.scenario.groups.empty()) sheet.scenario.groups.emplace_back().name = "goats";
  sheet.list.tasks.push_back(meal);
  CHECK(pace(0.2) == "on schedule.");
  CHECK(contains(schedule_text(sheet), "That is by its days; even so 1 of the feedings below is marked SHORT"));
  pace(-1.0);
  CHECK_FALSE(contains(schedule_text(sheet), "That is by its days"));  // told already
  sheet.list.tasks.pop_back();
  sheet.list.days.resize(1);
  sheet.list.days[0].room_min = 15.0F, sheet.list.days[0].room_max = 21.0F, sheet.list.days[0].labour = 64.0F;
  CHECK(contains(schedule_text(sheet), "Tuesday 14 July 2026: room 15 to 21 degC; about 64 min of work\n"));
  sheet.opening.weather = {{0, 38.0, 22.0}};
  CHECK(contains(schedule_text(sheet), ": room 15 to 21 degC, outdoors 22 to 38; about 64 min of work\n"));
  sheet.grains = {{80.0, 100.0, 6.0, 13.4, 4.0}, {50.0, 0.0, 0.0, {}, {}}};
  CHECK(contains(schedule_text(sheet), "  barley: 80 kg there, 100 kg ordered, 6 kg a day, lasts until 27 July; order by 18 July at the latest\n"));
  CHECK_FALSE(contains(schedule_text(sheet), "wheat:"));  // none is used
  sheet.grains[0] = {80.0, 0.0, 6.0, 13.4, -0.5};
  CHECK(contains(schedule_text(sheet), "  barley: 80 kg there, 6 kg a day, lasts until 27 July; order today: a late delivery would come too late already\n"));
  sheet.scenario.grains[0].store.use_by = days(90);
  sheet.grains[0] = {80.0, 0.0, 6.0, 3.0, 1.0, 62.0, 3.0};
  CHECK(contains(schedule_text(sheet), "  barley: 80 kg there, 6 kg a day, lasts until 17 July (62 kg of it will be too old by 17 July: use-by 90 d); order by 15 July at the latest\n"));
  sheet.grains[0] = {80.0, 100.0, 6.0, 0.6, -2.4, 80.0, 0.0};
  CHECK(contains(schedule_text(sheet), "  barley: 80 kg there, too old to sow (use-by 90 d), 100 kg ordered, 6 kg a day, lasts until 14 July; order today"));
  sheet.grains[0] = {80.0, 0.0, 6.0, 13.4, -0.5};
  sheet.scenario.units = Units::us;
  CHECK(contains(schedule_text(sheet), "room 59 to 70 degF, outdoors 72 to 100;"));
  CHECK(contains(schedule_text(sheet), "barley: 176 lb there"));
  sheet.days = 1;
  CHECK(contains(schedule_text(sheet), "Stone barn: 1 day from Tuesday"));
}

TEST_CASE("a spreadsheet gets amounts in its units, quotes what needs them, and no text it would take for a formula") {
  Task soak = task(Kind::soak, 3, 4.5, 1);
  soak.hours = 10.0, soak.undone = 1, soak.session = 1, soak.day = 0;
  Task meal = task(Kind::feed, 0, 3.0, 0);
  meal.wanted = 6.75;
  Sheet sheet = sheet_of({soak, meal, task(Kind::wash, 4, 0.0, -1)});
  sheet.scenario.groups[0].name = "=goats \"best\"";
  const std::string csv = schedule_csv(sheet);
  CHECK(contains(csv, "date,time,task,trays,amount [kg],wanted [kg],"));
  CHECK(contains(csv, "2026-07-14,07:00,soak,3,4.500,,wheat,2026-07-14,evening,10.00,1,\"soak 4.5 kg of wheat for 3 trays (to be sown 14 July, evening, after 10 h); 1 tray left undone"));
  CHECK(contains(csv, "2026-07-14,07:00,feed,0,3.000,6.750,\"'=goats \"\"best\"\"\",,,,0,"));
  CHECK(contains(csv, "2026-07-14,07:00,wash,4,,,,,,,0,wash 4 trays,\r\n"));
  sheet.scenario.units = Units::us;
  CHECK(contains(schedule_csv(sheet), "amount [lb],wanted [lb]"));
  CHECK(contains(schedule_csv(sheet), "soak,3,9.921,,"));
}

TEST_CASE("other programs get every task with what counts of it, in kilograms, and days that are not known as none") {
  Task soak = task(Kind::soak, 3, 4.5, 1);
  soak.undone = 1;
  Sheet sheet = sheet_of({soak, task(Kind::move, 12, 0.0), task(Kind::receive, 0, 300.0, 0)});
  sheet.grains = {{80.0, 100.0, 6.0, 13.4, 4.0}, {50.0, 0.0, 0.0, {}, {}}};
  sheet.scenario.units = Units::us;  // JSON is metric whatever people read
  sheet.remarks = {"The log ends on 13 July."};
  const auto all = nlohmann::json::parse(schedule_json(sheet));
  CHECK(all["tasks"][0]["undone_trays"] == 1);
  CHECK(all["tasks"][0]["of"] == "wheat");
  CHECK(all["tasks"][0]["batch"]["date"] == "2026-07-06");
  CHECK(all["tasks"][0]["kilograms"] == 4.5);
  CHECK_FALSE(all["tasks"][1].contains("of"));
  CHECK_FALSE(all["tasks"][1].contains("kilograms"));
  CHECK_FALSE(all["tasks"][2].contains("trays"));
  CHECK(all["grain"][0]["lasts_days"] == 13.4);
  CHECK(all["grain"][1]["lasts_days"].is_null());
  CHECK(all["grain"][1]["order_within_days"].is_null());
  CHECK(all["remarks"][0] == "The log ends on 13 July.");
  CHECK(all["warnings"].empty());
  CHECK_FALSE(all.contains("recovery"));
  study::Recovery recovery;
  recovery.replications = 32;
  recovery.days = 21;
  recovery.tried = {{"cut a day younger", {1.0, -2.0, 4.0, 0, 0, 0}, {-3.0, -4.0, -2.0, 0, 0, 0}, {-1.0, -2.0, -0.5, 0, 0, 0}, {-7.0, -9.0, -5.0, 0, 0, 0}, study::Tried::Verdict::feeds_more}};
  sheet.recovery = recovery;
  const auto told = nlohmann::json::parse(schedule_json(sheet))["recovery"];
  CHECK(told["replications"] == 32);
  CHECK(told["days"] == 21);
  REQUIRE(told["moves"].size() == 1);
  CHECK(told["moves"][0]["move"] == "cut a day younger");
  CHECK(told["moves"][0]["verdict"] == "feeds more");
  CHECK(told["moves"][0]["loss"]["low"] == -4.0);
  CHECK(told["moves"][0]["money"]["mean"] == 1.0);
  CHECK(told["moves"][0]["short_feedings"]["high"] == -0.5);
  CHECK(told["moves"][0]["missing"]["mean"] == -7.0);
}

TEST_CASE("a calendar has one appointment a moment, as long as the work takes, and one for the weather") {
  Sheet sheet = sheet_of({task(Kind::harvest, 3, 15.0), task(Kind::order, 0, 300.0), task(Kind::order, 0, 200.0, 1), task(Kind::throw_out, 2, 0.0)});
  sheet.list.tasks[3].minute = 1440 + 1080;
  sheet.scenario.keeper.times.harvest_per_tray = 4.0;
  std::string calendar = schedule_calendar(sheet);
  CHECK(contains(calendar, "DTSTART:20260714T070000\r\nDURATION:PT12M\r\nSUMMARY:Rack: harvest\\, order\r\n"));
  CHECK(contains(calendar, "DTSTART:20260715T180000\r\nSUMMARY:throw out 2 trays"));  // for which no minutes are counted
  CHECK_FALSE(contains(calendar, "Weather"));
  sheet.advice.heat = hot();
  calendar = schedule_calendar(sheet);
  CHECK(contains(calendar, "UID:2026-07-14-weather@worklist.rackwright.invalid\r\n"));
  CHECK(contains(calendar, "SUMMARY:Weather: see to the rack\r\n"));
  CHECK(contains(calendar, "\\nNeither a shorter soak"));
}

TEST_CASE("what begins or ends on a day is told with it: animals that come or go, shade that is hung or taken down, doors and windows") {
  Sheet sheet = sheet_of({});
  sheet.first = std::chrono::sys_days(std::chrono::year(2028) / 4 / 30);  // of a leap year
  sheet.days = 3;
  sheet.list.days.resize(3);
  const std::string name = sheet.scenario.groups[0].name;
  sheet.scenario.groups[0].stay.arrives = 2.0;
  sheet.scenario.room.shade = 0.5;
  sheet.scenario.shaded = {121, 274};  // 1 May to 1 October
  const std::string text = schedule_text(sheet);
  const auto may = text.find("1 May 2028"), second = text.find("2 May 2028");
  REQUIRE(second != std::string::npos);
  const auto hung = text.find("  put the shade up\n"), come = text.find("  " + name + ": fed here from today\n");
  CHECK((hung > may && hung < second));
  CHECK((come != std::string::npos && come > second));
  sheet.scenario.opened = {122, 121};
  CHECK(contains(schedule_text(sheet), "  put the shade up\n  shut doors and windows\n"));
  CHECK(schedule_text(sheet).find("  open doors and windows\n") > second);
  sheet.scenario.shaded = sheet.scenario.opened = {};
  sheet.scenario.groups[0].stay = {};
  CHECK_FALSE(contains(schedule_text(sheet), "doors"));
  CHECK_FALSE(contains(schedule_text(sheet), "the shade"));
  CHECK_FALSE(contains(schedule_text(sheet), "fed here"));
}

TEST_CASE("the first fodder after a week without is to be brought in, where the scenario does not") {
  Sheet sheet = sheet_of({});
  sheet.days = 9;
  sheet.list.days.assign(9, DailyRow{});
  sheet.list.days[7].served = sheet.list.days[8].served = 8.0F;
  const std::string name = sheet.scenario.groups[0].name;
  const auto count = [&] {
    const std::string text = schedule_text(sheet);
    int found = 0;
    for (auto at = text.find("First fodder: bring it in over 7 to 14 days"); at != std::string::npos; at = text.find("First fodder", at + 1)) ++found;
    return found;
  };
  sheet.scenario.groups[0].introduction = Hours(0.0);
  sheet.scenario.groups.resize(1);
  CHECK(count() == 1);
  CHECK(contains(schedule_text(sheet), name));
  sheet.scenario.groups[0].introduction = days(10);
  CHECK(count() == 0);
  sheet.scenario.groups[0].introduction = days(2);
  CHECK(count() == 1);
  sheet.list.days[0].served = 1.0F;  // it has been fed before
  CHECK(count() == 0);
  sheet.list.days[0].served = 0.0F;
  sheet.list.days[6].served = 1.0F;  // less than a week: introduction would not begin anew
  CHECK(count() == 0);
}
