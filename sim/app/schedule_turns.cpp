// What begins or ends on a day of the worklist: groups that come or go, first fodder, shade, doors and windows.

#include <optional>

#include <fmt/format.h>

#include "models/herd/animals.hpp"
#include "models/herd/stay.hpp"
#include "sim/app/schedule_sheet.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/year_day.hpp"

namespace rackwright::app {

namespace {

double served(const Sheet& sheet, int day) {
  return day >= 0 && day < std::ssize(sheet.list.days) ? static_cast<double>(sheet.list.days[static_cast<std::size_t>(day)].served) : 0.0;
}

/// Does the group come on that day? What was before the first day only its stay knows.
bool comes(const Group& group, int day) {
  if (!herd::comes_or_goes(group.stay)) return false;
  const herd::Presence now = herd::presence(group.stay, day);
  return now.here && (day > 0 ? !herd::presence(group.stay, day - 1).here : now.since == 0.0);
}

/// Days without fodder before the group's first since it came, or before the first of the list; nothing if it is fed on.
struct Beginning { int without = 0; bool again = false; };  ///< again: it was fed before, and the introduction that its group states is over
std::optional<Beginning> beginning(const Sheet& sheet, const Group& group, int day) {
  if (served(sheet, day) <= 0.0 || !herd::presence(group.stay, day).here) return std::nullopt;
  for (int before = day;; --before) {
    const int without = day - before - 1;
    if (before < day && served(sheet, before) > 0.0) return without >= new_feed_days ? std::optional(Beginning{without, true}) : std::nullopt;
    if (comes(group, before)) return Beginning{};
    if (before == 0) return day >= new_feed_days ? std::optional(Beginning{day, false}) : std::nullopt;
  }
}

/// A new feed given at once, to those to whom the scenario brings it in over less time than it takes.
std::string sudden_feed(const Sheet& sheet, int day) {
  std::string names;
  bool all_at_once = true;
  for (const Group& group : sheet.scenario.groups) {
    const auto begins = beginning(sheet, group, day);
    if (group.introduction >= herd::shortest_introduction || group.count == 0 || !begins || begins->again) continue;
    names += (names.empty() ? "" : ", ") + group.name;
    all_at_once = all_at_once && group.introduction <= Hours{};
  }
  if (names.empty()) return "";
  return fmt::format("First fodder: bring it in over 7 to 14 days, with hay or other long fibre before the animals. The list gives {} all that they want {}; introduction = \"10 d\" "
                     "in their group brings it in.", names, all_at_once ? "at once" : "sooner");
}

/// Fodder again after a week or more without, which a stated introduction does not bring in.
std::string fodder_again(const Sheet& sheet, int day) {
  std::string names;
  int without = 0;
  for (const Group& group : sheet.scenario.groups) {
    const auto begins = beginning(sheet, group, day);
    if (group.count == 0 || !begins || !begins->again) continue;
    names += (names.empty() ? "" : ", ") + group.name;
    without = begins->without;
  }
  if (names.empty()) return "";
  return fmt::format("Fodder again after {} days without: bring it in anew over 7 to 14 days, with hay or other long fibre before the animals. The list gives {} all that is there at once.",
                     without, names);
}

}  // namespace

std::vector<Turn> turns_of_day(const Sheet& sheet, int day) {
  std::vector<Turn> turns;
  for (const Group& group : sheet.scenario.groups) {
    if (!herd::comes_or_goes(group.stay) || group.count == 0) continue;
    if (comes(group, day)) turns.push_back({"animals come", group.name, fmt::format("{}: fed here from today", group.name)});
    else if (day > 0 && !herd::presence(group.stay, day).here && herd::presence(group.stay, day - 1).here)
      turns.push_back({"animals go", group.name, fmt::format("{}: fed here no more from today", group.name)});
  }
  const YearPart &shaded = sheet.scenario.shaded, &opened = sheet.scenario.opened;
  const std::chrono::sys_days today = sheet.first + std::chrono::days(day);
  // 29 February counts as the day after it, on which the turn is made.
  const int now = plain_day_of_year(today) == plain_day_of_year(today + std::chrono::days(1)) ? 0 : plain_day_of_year(today);
  if (shaded.stated() && sheet.scenario.room.shade > 0.0 && (now == shaded.from || now == shaded.until))
    turns.push_back(now == shaded.from ? Turn{"shade up", "", "put the shade up"} : Turn{"shade down", "", "take the shade down"});
  if (opened.stated() && (now == opened.from || now == opened.until))
    turns.push_back(now == opened.from ? Turn{"open", "", "open doors and windows"} : Turn{"shut", "", "shut doors and windows"});
  if (std::string sudden = sudden_feed(sheet, day); !sudden.empty()) turns.push_back({"first fodder", "", std::move(sudden), "First fodder: bring it in over 7 to 14 days"});
  if (std::string again = fodder_again(sheet, day); !again.empty()) turns.push_back({"fodder again", "", std::move(again), "Fodder again: bring it in over 7 to 14 days"});
  return turns;
}

}  // namespace rackwright::app
