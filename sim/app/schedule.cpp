// `rackwright schedule`: the keeper's worklist for the days to come, from what stands in the barn today.

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <ctime>

#include <fmt/core.h>

#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/load.hpp"
#include "sim/app/output.hpp"
#include "sim/app/say.hpp"
#include "sim/app/schedule_sheet.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/results/output_file.hpp"
#include "sim/scenario/forecast.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/today.hpp"
#include "sim/scenario/today_log.hpp"
#include "sim/study/line_today.hpp"
#include "sim/study/recovery.hpp"

namespace rackwright::app {

namespace {

constexpr std::uint64_t most_days = 60;
constexpr std::uint32_t plays_with_luck = 200;

const std::string* given(const Options& options, Option option) {
  const auto at = options.texts.find(option);
  return at == options.texts.end() ? nullptr : &at->second;
}

int whole_option(const Options& options, Option option, int otherwise, std::uint64_t least, std::uint64_t most) {
  const std::string* text = given(options, option);
  if (text == nullptr) return otherwise;
  const auto value = read_whole(*text, least, most);
  if (!value) throw BadInput(fmt::format("--{} {}: not a whole number from {} to {}", option_name(option), *text, least, most));
  return static_cast<int>(*value);
}

std::chrono::sys_days this_day() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  return std::chrono::sys_days(std::chrono::year(local.tm_year + 1900) / (local.tm_mon + 1) / local.tm_mday);
}

/// --from: a day, and where a log is read also its time.
std::optional<When> from_when(const Options& options) {
  const std::string* from = given(options, Option::first_day);
  if (from == nullptr) return std::nullopt;
  const auto when = read_when(*from);
  if (!when) throw BadInput(fmt::format("--from {}: write a day: 2026-07-14", *from));
  if (when->minute && given(options, Option::log) == nullptr)
    throw BadInput(fmt::format("--from {}: write a day: 2026-07-14; a time goes with --log only", *from));
  return when;
}

Today today_of_log(const std::string& path, const Scenario& scenario, const When& when, Sheet& sheet) {
  LoggedToday reading = today_from_log_file(path, scenario, when);
  if (!reading.today) throw BadInput(problems_text(path, reading.problems));
  sheet.remarks = std::move(reading.remarks);
  return std::move(*reading.today);
}

/// What stands in the barn: as a file of the keeper's says, as usual but for some batches, or nothing.
Today today_of(const Options& options, const Scenario& scenario, Sheet& sheet) {
  const std::string *state = given(options, Option::state), *log = given(options, Option::log);
  const int behind = whole_option(options, Option::behind, 0, 1, 1000), ahead = whole_option(options, Option::ahead, 0, 1, 1000);
  if ((state != nullptr) + (log != nullptr) + (behind > 0) + (ahead > 0) > 1)
    throw BadInput("--state, --log, --behind and --ahead each say what stands on the rack: one of them, please");
  const std::optional<When> when = from_when(options);
  sheet.from_state = state != nullptr || log != nullptr || behind > 0 || ahead > 0;
  if (state != nullptr) {
    TodayReading reading = read_today_file(*state, scenario);
    if (!reading.today) throw BadInput(problems_text(*state, reading.problems));
    if (when && when->day != reading.today->at.day)
      throw BadInput(fmt::format("--from {}: the state file speaks of another day", *given(options, Option::first_day)));
    return std::move(*reading.today);
  }
  const std::chrono::sys_days day = when ? when->day : this_day();
  if (log != nullptr) return today_of_log(*log, scenario, when.value_or(When{day, {}}), sheet);
  if (!sheet.from_state) return study::empty_today(day);
  Today today = study::usual_today(scenario, day, behind, ahead);
  const double off = study::batches_ahead(scenario, today);
  if (ahead > 0 && off < ahead - 0.5) {
    const double more = std::max(0.0, std::floor(off));
    int usual = 0;
    for (const Today::Batch& batch : study::usual_today(scenario, day, 0, 0).batches) usual += batch.trays;
    throw BadInput(fmt::format("--ahead {}: beside the {} trays that usually stand there the rack has places for {:.0f} batch{} more", ahead, usual, more, more == 1.0 ? "" : "es"));
  }
  return today;
}

Sheet make_sheet(const Options& options, const Loaded& loaded) {
  Sheet sheet;
  const Today today = today_of(options, loaded.scenario, sheet);
  sheet.first = today.at.day;
  sheet.days = whole_option(options, Option::days, 7, 1, most_days);
  if (!loaded.scenario.hard_times.empty() || !loaded.scenario.spells.empty())
    sheet.remarks.emplace_back("The scenario's hard times and spells are not in this list: nobody is away, nothing fails, and the weather is as usual or as forecast.");
  Forecast forecast;
  if (const std::string* text = given(options, Option::forecast)) {
    auto read = read_forecast(*text, sheet.first, loaded.scenario);
    if (auto* problems = std::get_if<Problems>(&read)) throw BadInput(problems_text("--forecast", *problems));
    forecast = std::get<Forecast>(std::move(read));
  }
  // Long enough for what is sown on the last day to be cut.
  const Line& line = loaded.scenario.line;
  const int length = sheet.days + 2 * line.days_on_rack + line.grace_days + 1;
  const Scenario from_now = study::from_day(loaded.scenario, sheet.first, length);
  sheet.scenario = without_luck(from_now);
  sheet.opening = study::opening_of(from_now, today, forecast, std::chrono::sys_days(loaded.scenario.run.start));
  sheet.opening.sound = study::usual_sound(from_now, sheet.opening);
  sheet.opening.usual_luck = true;
  const Plan plan = make_plan(sheet.scenario, sheet.opening);
  sheet.list = study::work(plan);
  sheet.grains = study::grain_outlook(plan, sheet.list, from_now.grains);
  sheet.advice = study::weather_advice(sheet.scenario, sheet.opening, sheet.days);
  sheet.ahead = sheet.from_state ? study::batches_ahead(loaded.scenario, today) : 0.0;
  if (given(options, Option::log) != nullptr && today.soaking.empty()) sheet.unseen_soak = study::usual_in_soak(loaded.scenario, today);
  constexpr double worth_trying = 0.95;
  Opening lucky = sheet.opening;
  lucky.usual_luck = false;
  Scenario scenario = from_now;
  scenario.run.ignorance = false;
  const study::PairRequest request{.random_seed = scenario.run.random_seed, .replications = plays_with_luck};
  sheet.luck = study::luck_of(make_plan(scenario, lucky), request);
  if (sheet.luck->plays == 0) sheet.luck.reset();
  if (std::abs(sheet.ahead) >= worth_trying && !scenario.groups.empty()) sheet.recovery = study::recover(scenario, lucky, sheet.ahead, request);
  return sheet;
}

std::string as_written(const Sheet& sheet, const std::string& path) {
  const auto dot = path.rfind('.');
  const std::string ending = dot == std::string::npos ? "" : path.substr(dot);
  if (ending == ".ics") return schedule_calendar(sheet);
  if (ending == ".csv") return schedule_csv(sheet);
  if (ending == ".txt") return schedule_text(sheet);
  throw BadInput(fmt::format("--out {}: the name's ending decides what is written: .txt, .csv for a spreadsheet, .ics for a calendar", path));
}

}  // namespace

int schedule(const Options& options) {
  const Loaded loaded = load(options);
  if (options.out) {
    output_path(options, loaded.path);
    results::check_output(*options.out, options.force);
  }
  const Sheet sheet = make_sheet(options, loaded);
  if (!options.out) {
    fmt::print("{}", options.json ? schedule_json(sheet) : schedule_text(sheet));
    return good;
  }
  const std::string text = as_written(sheet, *options.out);
  results::OutputFile out(*options.out, options.force);
  write_whole(text, out);
  out.put_in_place();
  talk(options.quiet, "written: " + *options.out);
  if (const std::string soak = unseen_soak_words(sheet); !soak.empty()) talk(options.quiet, "! " + soak);
  for (const std::string& remark : sheet.remarks) talk(options.quiet, remark);
  for (const std::string& warning : advice_words(sheet)) talk(options.quiet, "! " + warning);
  return good;
}

}  // namespace rackwright::app
