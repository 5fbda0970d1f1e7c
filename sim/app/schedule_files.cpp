// The worklist for other programs: comma-separated, JSON, and a calendar.

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include "sim/app/icalendar.hpp"
#include "sim/app/schedule_sheet.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/rounds.hpp"
#include "sim/scenario/today.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

using study::Task;
using Json = nlohmann::ordered_json;

struct At { std::chrono::sys_days day; int minute; };
At at(const Sheet& sheet, std::int64_t minute) {
  const auto day = minute / minutes_per_day;
  return {sheet.first + std::chrono::days(day), static_cast<int>(minute - day * minutes_per_day)};
}
std::string iso(std::chrono::sys_days day) {
  const std::chrono::year_month_day d(day);
  return fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(d.year()), static_cast<unsigned>(d.month()), static_cast<unsigned>(d.day()));
}

std::string name_of(const Sheet& sheet, const Task& task) {
  if (task.which < 0) return "";
  const auto which = static_cast<std::size_t>(task.which);
  return task.kind == Task::Kind::feed ? sheet.scenario.groups[which].name : sheet.scenario.grains[which].name;
}
bool of_batch(Task::Kind kind) {
  using enum Task::Kind;
  return kind == soak || kind == throw_out || kind == harvest || kind == sow || kind == pour_out;
}
/// A sheet takes what begins so for a formula.
std::string quoted(std::string text) {
  if (!text.empty() && std::string_view("=+-@").find(text.front()) != std::string_view::npos) text.insert(0, "'");
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

/// What a harvest is never read without: a phone or a sheet shows a task by itself, far from what the list says of them all.
constexpr std::string_view look_over = "look every mat over: never feed a mouldy, slimy or sour one; throw it out whole, in gloves and a fine-dust mask (P2 or N95)";
constexpr std::string_view make_up = "make it up with hay or their usual feed, not with dry grain";

/// The words of a task where it stands alone.
std::string lone_words(const Sheet& sheet, const Task& task) {
  std::string words = task_words(sheet, task);
  if (task.kind == Task::Kind::harvest && task.trays > 0) words += fmt::format("; {}", look_over);
  if (task.kind == Task::Kind::feed && is_short(sheet, task)) words += fmt::format("; {}", make_up);
  return words;
}

/// Minutes that the work of one moment takes, without the way.
double minutes_of(const Sheet& sheet, const std::vector<Task>& tasks) {
  const route::Times& times = sheet.scenario.keeper.times;
  double minutes = 0.0;
  for (const Task& task : tasks) {
    using enum Task::Kind;
    switch (task.kind) {
      case soak: minutes += task.trays > 0 ? times.soak_per_batch + times.drain_per_batch : 0.0; break;
      case harvest: minutes += times.harvest_per_tray * task.trays; break;
      case feed: minutes += times.feed_per_group; break;
      case sow: minutes += times.sow_per_tray * task.trays; break;
      case move: minutes += times.move_per_tray * task.trays; break;
      case wash: minutes += times.wash_per_tray * task.trays; break;
      case lay_trial: minutes += sheet.scenario.grains.at(static_cast<std::size_t>(task.which)).policy.trial_minutes; break;
      case throw_out: case order: case receive: case count_trial: case pour_out: case discard: break;
    }
  }
  return minutes;
}

using Moments = std::map<std::int64_t, std::vector<Task>>;

/// Whole minutes of a day's moments, which sum to what the day's head says: the way there is laid on its rounds, and the largest
/// remainders are rounded up.
std::map<std::int64_t, int> day_minutes(const Sheet& sheet, const Moments& moments, int day) {
  const auto d = static_cast<std::size_t>(day);
  std::map<std::int64_t, double> exact;
  double sum = 0.0;
  for (auto at = moments.lower_bound(minutes_per_day * day); at != moments.end() && at->first < minutes_per_day * (day + 1); ++at) {
    exact[at->first] = minutes_of(sheet, at->second);
    sum += exact[at->first];
  }
  if (exact.empty()) return {};
  std::vector<std::int64_t> rounds;
  for (const auto& [minute, unused] : exact) {
    for (int session = 0; session < rounds_a_day(sheet.scenario); ++session)
      if (minute - minutes_per_day * day == round_minute(sheet.scenario, session)) rounds.push_back(minute);
  }
  if (rounds.empty()) rounds.push_back(exact.begin()->first);
  const double total = d < sheet.list.days.size() ? std::max(0.0, work_minutes(sheet, d)) : sum, way = std::max(0.0, total - sum);
  for (const std::int64_t minute : rounds) exact[minute] += way / static_cast<double>(rounds.size());
  std::map<std::int64_t, int> whole;
  std::vector<std::pair<double, std::int64_t>> remainders;
  int left = static_cast<int>(std::nearbyint(total));  // as it is written
  for (const auto& [minute, minutes] : exact) {
    const double scaled = sum + way > 0.0 ? minutes * total / (sum + way) : 0.0;
    whole[minute] = static_cast<int>(std::floor(scaled));
    left -= whole[minute];
    remainders.emplace_back(whole[minute] - scaled, minute);
  }
  std::sort(remainders.begin(), remainders.end());
  for (const auto& [unused, minute] : remainders)
    if (left > 0) ++whole[minute], --left;
  return whole;
}

std::string summary_of(const Sheet& sheet, const std::vector<Task>& tasks) {
  if (tasks.size() == 1) return task_words(sheet, tasks.front());
  std::string text;
  for (const Task& task : tasks) {
    const std::string name(task_name(task.kind));
    if (text.find(name) != std::string::npos) continue;
    text += (text.empty() ? "" : ", ") + name;
  }
  const bool unripe = std::any_of(tasks.begin(), tasks.end(), [](const Task& task) { return task.unripe > 0.0; });
  return "Rack: " + text + (unripe ? " (UNRIPE)" : "");
}

}  // namespace

std::string schedule_csv(const Sheet& sheet) {
  const bool us = sheet.scenario.units == Units::us;
  std::string text = fmt::format("date,time,task,trays,amount [{0}],wanted [{0}],grain or animals,batch sown on,batch round,soak or delivery [h],trays left undone,in words{1},of it unripe [{0}]\r\n", us ? "lb" : "kg",
                                 sheet.luck ? fmt::format(",short with luck [%],given with luck [{}]", us ? "lb" : "kg") : "");
  const auto amount = [&](double kilograms) { return kilograms > 0.0 ? fmt::format("{:.3f}", convert(kilograms, "kg", us ? "lb" : "kg")) : std::string(); };
  const auto luck_cells = [&](const Task& task) -> std::string {
    if (!sheet.luck) return "";
    const auto chance = short_chance(sheet, task);
    if (!chance) return ",,";
    return fmt::format(",{:.1f},{:.3f}", 100.0 * *chance, convert(sheet.luck->meals.at({task.minute, task.which}).given, "kg", us ? "lb" : "kg"));
  };
  int day = -1;
  // What begins or ends on a day stands before its tasks.
  const auto turns_until = [&](int last) {
    while (day < last) {
      ++day;
      for (const Turn& turn : turns_of_day(sheet, day))
        text += fmt::format("{},,{},,,,{},,,,,{}{},\r\n", iso(sheet.first + std::chrono::days(day)), turn.what, quoted(turn.of), quoted(turn.words), sheet.luck ? ",," : "");
    }
  };
  for (const Task& task : shown_tasks(sheet)) {
    turns_until(static_cast<int>(task.minute / minutes_per_day));
    const At when = at(sheet, task.minute);
    const bool batch = of_batch(task.kind);
    text += fmt::format("{},{:02d}:{:02d},{},{},{},{},{},{},{},{},{},{}{},{}\r\n", iso(when.day), when.minute / 60, when.minute % 60, task_name(task.kind),
                        task.trays, amount(task.kilograms), amount(task.wanted), quoted(name_of(sheet, task)),
                        batch ? iso(sheet.first + std::chrono::days(task.day)) : "", batch ? (task.session == 0 ? "morning" : "evening") : "",
                        task.hours > 0.0 ? fmt::format("{:.2f}", task.hours) : "", task.undone, quoted(lone_words(sheet, task)), luck_cells(task), amount(task.unripe));
  }
  turns_until(sheet.days - 1);
  return text;
}

namespace {

std::string_view verdict_name(study::Tried::Verdict verdict) {
  using enum study::Tried::Verdict;
  return verdict == feeds_more ? "feeds more" : verdict == alike ? "alike" : verdict == both_ways ? "both ways" : "feeds less";
}

}  // namespace

std::string schedule_json(const Sheet& sheet) {
  Json all = {{"first", iso(sheet.first)}, {"days", sheet.days}, {"batches_ahead", sheet.ahead}, {"warnings", advice_words(sheet)}, {"caution", fmt::format("At every harvest {}.", look_over)}};
  if (!sheet.remarks.empty()) all["remarks"] = sheet.remarks;
  if (sheet.unseen_soak > 0) all["nothing_in_soak"] = unseen_soak_words(sheet);
  all["turns"] = Json::array();
  for (int day = 0; day < sheet.days; ++day) {
    for (const Turn& turn : turns_of_day(sheet, day)) {
      Json one = {{"date", iso(sheet.first + std::chrono::days(day))}, {"what", turn.what}, {"words", turn.words}};
      if (!turn.of.empty()) one["of"] = turn.of;
      all["turns"].push_back(std::move(one));
    }
  }
  all["work"] = Json::array();
  for (int day = 0; day < std::min(sheet.days, static_cast<int>(sheet.list.days.size())); ++day)
    all["work"].push_back({{"date", iso(sheet.first + std::chrono::days(day))}, {"minutes", work_minutes(sheet, static_cast<std::size_t>(day))}});
  all["tasks"] = Json::array();
  for (const Task& task : shown_tasks(sheet)) {
    const At when = at(sheet, task.minute);
    Json one = {{"time", fmt::format("{}T{:02d}:{:02d}", iso(when.day), when.minute / 60, when.minute % 60)}, {"task", task_name(task.kind)}};
    if (task.trays > 0) one["trays"] = task.trays;
    if (task.kilograms > 0.0) one["kilograms"] = task.kilograms;
    if (task.kind == Task::Kind::feed) one["wanted"] = task.wanted;
    if (task.unripe > 0.0) one["unripe_kilograms"] = task.unripe, one["caution"] = unripe_words(sheet, task);
    if (task.which >= 0 && task.kind != Task::Kind::move && task.kind != Task::Kind::wash) one["of"] = name_of(sheet, task);
    if (of_batch(task.kind)) one["batch"] = {{"date", iso(sheet.first + std::chrono::days(task.day))}, {"round", task.session == 0 ? "morning" : "evening"}};
    if (task.undone > 0) one["undone_trays"] = task.undone;
    if (has(task, Task::Why::time) && (task.undone > 0 || is_short(sheet, task))) one["no_time"] = true;
    if (const auto chance = short_chance(sheet, task)) one["with_luck"] = {{"short_chance", *chance}, {"kilograms", sheet.luck->meals.at({task.minute, task.which}).given}};
    all["tasks"].push_back(std::move(one));
  }
  if (sheet.luck) {
    all["plays_with_luck"] = sheet.luck->plays;
    for (int day = 0; day < std::min(sheet.days, static_cast<int>(sheet.luck->days.size())); ++day) {
      const study::Luck::Day& d = sheet.luck->days[static_cast<std::size_t>(day)];
      all["days_with_luck"].push_back({{"date", iso(sheet.first + std::chrono::days(day))}, {"wanted", d.wanted}, {"served", d.served}, {"spoiled_trays", d.spoiled}, {"frost_killed_trays", d.killed},
                                       {"cut_trays", d.cut}, {"short_feedings", d.shorts}});
    }
  }
  all["grain"] = Json::array();
  for (std::size_t g = 0; g < sheet.grains.size(); ++g) {
    const study::GrainOutlook& out = sheet.grains[g];
    all["grain"].push_back({{"name", sheet.scenario.grains[g].name}, {"kilograms", out.at_hand}, {"ordered", out.on_the_way}, {"per_day", out.per_day},
                            {"lasts_days", out.lasts_days ? Json(*out.lasts_days) : Json()},
                            {"order_within_days", out.order_within_days ? Json(*out.order_within_days) : Json()}, {"too_old", out.too_old}});
  }
  if (sheet.recovery) {
    const auto interval = [](const study::Estimate& e) { return Json{{"mean", e.mean}, {"low", e.low}, {"high", e.high}}; };
    Json& recovery = all["recovery"] = {{"replications", sheet.recovery->replications}, {"days", sheet.recovery->days}};
    if (const std::string proviso = soak_proviso(sheet); !proviso.empty()) recovery["proviso"] = proviso;
    for (const study::Tried& tried : sheet.recovery->tried)
      recovery["moves"].push_back({{"move", tried.what}, {"verdict", verdict_name(tried.verdict)}, {"loss", interval(tried.loss)}, {"money", interval(tried.money)},
                                   {"short_feedings", interval(tried.short_feedings)}, {"missing", interval(tried.missing)}});
  }
  return all.dump(2) + "\n";
}

std::string schedule_calendar(const Sheet& sheet) {
  Moments moments;
  for (const Task& task : shown_tasks(sheet)) {
    const bool nothing = has(task, Task::Why::not_wanted) && task.trays == 0 && task.undone == 0;
    if (!nothing) moments[task.minute].push_back(task);
  }
  Calendar calendar;
  calendar.name = sheet.scenario.title;
  calendar.stamp = sheet.first;
  std::map<std::int64_t, int> minutes_long;
  for (int day = 0; day < sheet.days; ++day) minutes_long.merge(day_minutes(sheet, moments, day));
  for (const auto& [minute, tasks] : moments) {
    const At when = at(sheet, minute);
    CalendarEvent& event = calendar.events.emplace_back();
    event.uid = fmt::format("{}T{:02d}{:02d}@worklist.rackwright.invalid", iso(when.day), when.minute / 60, when.minute % 60);
    event.day = when.day;
    event.minute = when.minute;
    event.minutes_long = minutes_long[minute];
    event.summary = summary_of(sheet, tasks);
    for (const Task& task : tasks) event.description += (event.description.empty() ? "" : "\n") + lone_words(sheet, task);
  }
  for (int day = 0; day < sheet.days; ++day) {
    for (const Turn& turn : turns_of_day(sheet, day)) {
      CalendarEvent& event = calendar.events.emplace_back();
      event.day = sheet.first + std::chrono::days(day);
      event.all_day = true;
      event.uid = fmt::format("{}-{}{}@worklist.rackwright.invalid", iso(event.day), turn.what, turn.of.empty() ? "" : "-" + turn.of);
      std::replace(event.uid.begin(), event.uid.end(), ' ', '-');
      event.summary = turn.brief.empty() ? turn.words : std::string(turn.brief);
      if (!turn.brief.empty()) event.description = turn.words;
    }
  }
  const auto warnings = advice_words(sheet);
  if (!warnings.empty()) {
    CalendarEvent& event = calendar.events.emplace_back();
    event.uid = iso(sheet.first) + "-weather@worklist.rackwright.invalid";
    event.day = sheet.first;
    const bool weather = warnings.size() > (unripe_advice(sheet).empty() ? 0U : 1U);
    event.summary = weather ? "Weather: see to the rack" : "Unripe mats: see to the rack";
    event.minute = static_cast<int>(std::lround(60.0 * sheet.scenario.keeper.morning.value()));
    event.minutes_long = 5;
    for (const std::string& warning : warnings) event.description += (event.description.empty() ? "" : "\n") + warning;
  }
  return calendar_text(calendar);
}

}  // namespace rackwright::app
