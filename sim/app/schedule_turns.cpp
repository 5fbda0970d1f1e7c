// What begins or ends on a day of the worklist: groups that come or go, first fodder, shade, doors and windows.

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

/// Is it the group's first fodder since it came, or for those that were here the first of the list after a week without?
bool first_fodder(const Sheet& sheet, const Group& group, int day) {
  if (served(sheet, day) <= 0.0 || !herd::presence(group.stay, day).here) return false;
  for (int before = day;; --before) {
    if (before < day && served(sheet, before) > 0.0) return false;
    if (comes(group, before)) return true;
    if (before == 0) return day >= new_feed_days;
  }
}

/// A new feed given at once, to those to whom the scenario brings it in over less time than it takes.
std::string sudden_feed(const Sheet& sheet, int day) {
  std::string names;
  bool all_at_once = true;
  for (const Group& group : sheet.scenario.groups) {
    if (group.introduction >= herd::shortest_introduction || group.count == 0 || !first_fodder(sheet, group, day)) continue;
    names += (names.empty() ? "" : ", ") + group.name;
    all_at_once = all_at_once && group.introduction <= Hours{};
  }
  if (names.empty()) return "";
  return fmt::format("First fodder: bring it in over 7 to 14 days, with hay or other long fibre before the animals. The list gives {} all that they want {}; introduction = \"10 d\" "
                     "in their group brings it in.", names, all_at_once ? "at once" : "sooner");
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
  const int now = plain_day_of_year(sheet.first + std::chrono::days(day));
  if (shaded.stated() && sheet.scenario.room.shade > 0.0 && (now == shaded.from || now == shaded.until))
    turns.push_back(now == shaded.from ? Turn{"shade up", "", "put the shade up"} : Turn{"shade down", "", "take the shade down"});
  if (opened.stated() && (now == opened.from || now == opened.until))
    turns.push_back(now == opened.from ? Turn{"open", "", "open doors and windows"} : Turn{"shut", "", "shut doors and windows"});
  if (std::string sudden = sudden_feed(sheet, day); !sudden.empty()) turns.push_back({"first fodder", "", std::move(sudden)});
  return turns;
}

}  // namespace rackwright::app
