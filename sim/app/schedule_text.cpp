// The worklist for the wall.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/app/schedule_sheet.hpp"
#include "sim/replication/plan.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

std::string degrees(const Sheet& sheet, double celsius) {
  return sheet.scenario.units == Units::us ? fmt::format("{:.0f}", 32.0 + 1.8 * celsius) : fmt::format("{:.0f}", celsius);
}

std::string day_head(const Sheet& sheet, int day) {
  std::string text = "\n" + long_date(sheet.first + std::chrono::days(day));
  const auto d = static_cast<std::size_t>(day);
  if (d >= sheet.list.days.size()) return text + "\n";
  const DailyRow& row = sheet.list.days[d];
  const char* unit = sheet.scenario.units == Units::us ? "degF" : "degC";
  text += fmt::format(": room {} to {} {}", degrees(sheet, static_cast<double>(row.room_min)), degrees(sheet, static_cast<double>(row.room_max)), unit);
  const auto known = std::find_if(sheet.opening.weather.begin(), sheet.opening.weather.end(), [&](const auto& w) { return w.day == day; });
  if (known != sheet.opening.weather.end())
    text += fmt::format(", outdoors {} to {}", degrees(sheet, known->minimum), degrees(sheet, known->maximum));
  return text + fmt::format("; about {:.0f} min of work\n", static_cast<double>(row.labour));
}

std::string grain_lines(const Sheet& sheet) {
  std::string text = "\nGrain\n";
  const bool us = sheet.scenario.units == Units::us;
  for (std::size_t g = 0; g < sheet.grains.size(); ++g) {
    const study::GrainOutlook& out = sheet.grains[g];
    if (!out.lasts_days) continue;
    const auto on = [&](double days_from_now) {
      const double day = static_cast<double>(sheet.opening.now) / minutes_per_day + days_from_now;
      return short_date(sheet.first + std::chrono::days(static_cast<int>(std::floor(std::max(0.0, day)))));
    };
    text += fmt::format("  {}: {} there{}, {} a day, lasts until {}; {}\n", sheet.scenario.grains[g].name, write_quantity(out.at_hand, "kg", us, 3),
                        out.on_the_way > 0.0 ? fmt::format(", {} ordered", write_quantity(out.on_the_way, "kg", us, 3)) : "",
                        write_quantity(out.per_day, "kg", us, 3), on(*out.lasts_days),
                        *out.order_within_days <= 0.0 ? "order today: a late delivery would come too late already"
                                                      : fmt::format("order by {} at the latest", on(*out.order_within_days)));
  }
  return text;
}

std::string standing(const Sheet& sheet) {
  if (!sheet.from_state) return "The rack is empty at the start.\n";
  int trays = 0;
  for (const Opening::Sown& sown : sheet.opening.sown) trays += sown.trays;
  const double off = std::abs(sheet.ahead);
  const std::string pace = off < 0.5 ? "on schedule" : fmt::format("{:.2g} batch{} {}", off, off < 1.05 && off > 0.95 ? "" : "es", sheet.ahead < 0.0 ? "behind" : "ahead");
  std::string text = fmt::format("{} {} on the rack: {}.\n", trays, trays == 1 ? "tray stands" : "trays stand", pace);
  // By its days a line may be as it should be and its mats late all the same, in the cold above all.
  const std::vector<study::Task> tasks = shown_tasks(sheet);
  const auto lacks = std::count_if(tasks.begin(), tasks.end(), [&](const study::Task& task) { return is_short(sheet, task); });
  if (off < 0.5 && lacks > 0)
    text += report::wrapped(fmt::format("That is by its days; even so {} of the feedings below {} marked SHORT: too little will have grown by then.", lacks, lacks == 1 ? "is" : "are"));
  return text;
}

}  // namespace

std::vector<study::Task> shown_tasks(const Sheet& sheet) {
  std::vector<study::Task> all;
  for (const study::Task& task : sheet.list.tasks) {
    if (task.minute < minutes_per_day * sheet.days) all.push_back(task);
  }
  return all;
}

std::string schedule_text(const Sheet& sheet) {
  std::string text = fmt::format("{}: {} day{} from {}\n", sheet.scenario.title, sheet.days, sheet.days == 1 ? "" : "s", long_date(sheet.first));
  text += standing(sheet);
  for (const std::string& remark : sheet.remarks) text += report::wrapped(remark);
  for (const std::string& warning : advice_words(sheet)) text += report::wrapped("! " + warning, 0, 2);
  int day = -1;
  std::int64_t minute = -1;
  for (const study::Task& task : shown_tasks(sheet)) {
    const int on = static_cast<int>(task.minute / minutes_per_day);
    for (; day < on; minute = -1) text += day_head(sheet, ++day);
    const auto of_day = task.minute - minutes_per_day * on;
    text += task.minute == minute ? "         " : fmt::format("  {:02d}:{:02d}  ", of_day / 60, of_day % 60);
    minute = task.minute;
    text += task_words(sheet, task) + "\n";
  }
  while (day + 1 < sheet.days) text += day_head(sheet, ++day);
  text += grain_lines(sheet);
  if (sheet.recovery) text += "\n" + recovery_text(sheet.scenario, sheet.ahead, *sheet.recovery);
  text += "\n" + report::wrapped("As it comes with ordinary luck; amounts of fodder are means. Look every mat over before it is fed: never a mouldy "
                                 "or sour one.");
  return text;
}

}  // namespace rackwright::app
