// The worklist for the wall.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/app/schedule_sheet.hpp"
#include "sim/replication/plan.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/rounds.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

double thrown_in_list(const Sheet& sheet, int day) {
  double trays = 0.0;
  for (const study::Task& task : sheet.list.tasks) {
    const bool past = has(task, study::Task::Why::past);
    if (task.kind == study::Task::Kind::throw_out && !past && task.minute / minutes_per_day == day) trays += task.trays;
  }
  return trays;
}

/// "3.2 mats spoil", "and 5 die of frost".
std::string lost_words(const study::Luck::Day& day) {
  constexpr double worth_naming = 0.05;
  std::string text = fmt::format("{} mats spoil", report::plain(day.spoiled, day.spoiled < 9.95 ? 1 : 0));
  return day.killed < worth_naming ? text : text + fmt::format(" and {} die of frost", report::plain(day.killed, day.killed < 9.95 ? 1 : 0));
}

std::string degrees(const Sheet& sheet, double celsius) {
  return sheet.scenario.units == Units::us ? fmt::format("{:.0f}", 32.0 + 1.8 * celsius) : fmt::format("{:.0f}", celsius);
}

// What the plays with luck make of a day, where it is otherwise than the list has it.
std::string luck_of_day(const Sheet& sheet, std::size_t d) {
  if (!sheet.luck || d >= sheet.luck->days.size()) return "";
  const study::Luck::Day& day = sheet.luck->days[d];
  constexpr double worth_a_mat = 0.5, worth_a_word = 0.05;
  const bool spoils = day.spoiled + day.killed - thrown_in_list(sheet, static_cast<int>(d)) >= worth_a_mat;
  const bool lacks = static_cast<double>(sheet.list.days[d].served) - day.served > worth_a_word * day.wanted;
  if (!spoils && !lacks) return "";
  const bool us = sheet.scenario.units == Units::us;
  std::string text = "  with luck, on the mean: ";
  if (lacks) text += fmt::format("{} fed of {} wanted{}", write_quantity(day.served, "kg", us, 2), write_quantity(day.wanted, "kg", us, 2), spoils ? ", " : "");
  if (spoils) text += fmt::format("{}, {} are cut", lost_words(day), report::plain(day.cut, day.cut < 9.95 ? 1 : 0));
  return text + "\n";
}

std::string luck_summary(const Sheet& sheet) {
  if (!sheet.luck) return "";
  const auto days = static_cast<std::size_t>(sheet.days);
  const study::Luck::Day sum = sheet.luck->sum(days);
  double served = 0.0;
  for (std::size_t d = 0; d < std::min(days, sheet.list.days.size()); ++d) served += static_cast<double>(sheet.list.days[d].served);
  const bool us = sheet.scenario.units == Units::us;
  const auto mass = [&](double kilograms) { return write_quantity(kilograms, "kg", us, 3); };
  std::string text = fmt::format("Played {} times with luck as it comes, ", sheet.luck->plays);
  const std::string span = sheet.days == 1 ? "this day" : fmt::format("these {} days", sheet.days);
  if (sum.wanted > 0.0)
    text += fmt::format("{} feed{} {} of the {} wanted on the mean, and {}; the list below is one play in which luck falls out evenly, and feeds {}.",
                        span, sheet.days == 1 ? "s" : "", mass(sum.served), mass(sum.wanted), lost_words(sum), mass(served));
  else
    text += fmt::format("{} in {} on the mean; the list below is one play in which luck falls out evenly.", lost_words(sum), span);
  return report::wrapped(text);
}

std::string turn_lines(const Sheet& sheet, int day) {
  std::string text;
  for (const Turn& turn : turns_of_day(sheet, day)) text += !turn.brief.empty() ? report::wrapped(turn.words, 2, 2) : "  " + turn.words + "\n";
  return text;
}

/// Why a day holds more minutes than the keeper has.
std::string beyond_limit(const Sheet& sheet, std::size_t day) {
  const double limit = sheet.scenario.keeper.minutes_per_day;
  constexpr double worth_a_word = 0.5;
  if (work_minutes(sheet, day) < limit + worth_a_word) return "";
  const bool counted = static_cast<double>(sheet.list.days[day].labour) > limit + worth_a_word;
  return fmt::format("  more than the {} min there are: {}\n", write_quantity(limit, "1", false, 3),
                     counted ? "animals are fed in any case" : "what is put to soak after the last round counts as the next day's");
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
  return text + fmt::format("; about {:.0f} min of work\n", work_minutes(sheet, d)) + beyond_limit(sheet, d) + luck_of_day(sheet, d) + turn_lines(sheet, day);
}

std::string grain_lines(const Sheet& sheet) {
  std::string text;
  const bool us = sheet.scenario.units == Units::us;
  for (std::size_t g = 0; g < sheet.grains.size(); ++g) {
    const study::GrainOutlook& out = sheet.grains[g];
    if (!out.lasts_days) continue;
    const auto on = [&](double days_from_now) {
      const double day = static_cast<double>(sheet.opening.now) / minutes_per_day + days_from_now;
      return short_date(sheet.first + std::chrono::days(static_cast<int>(std::floor(std::max(0.0, day)))));
    };
    constexpr double worth_a_word = 0.5;  // [kg]
    const std::string use_by = write_quantity(in_days(sheet.scenario.grains[g].store.use_by), "1", us, 3) + " d";
    const bool all_old = out.too_old > out.at_hand - worth_a_word && out.too_old_days <= 0.0;
    std::string old;
    if (out.too_old > worth_a_word)
      old = all_old ? fmt::format(", too old to sow (use-by {})", use_by)
                    : fmt::format(" ({} of it will be too old by {}: use-by {})", write_quantity(out.too_old, "kg", us, 2), on(out.too_old_days), use_by);
    text += fmt::format("  {}: {} there{}{}, {} a day, lasts until {}{}; {}\n", sheet.scenario.grains[g].name, write_quantity(out.at_hand, "kg", us, 3),
                        all_old ? old : "", out.on_the_way > 0.0 ? fmt::format(", {} ordered", write_quantity(out.on_the_way, "kg", us, 3)) : "",
                        write_quantity(out.per_day, "kg", us, 3), on(*out.lasts_days), all_old ? "" : old,
                        *out.order_within_days <= 0.0 ? "order today: a late delivery would come too late already"
                                                      : fmt::format("order by {} at the latest", on(*out.order_within_days)));
  }
  return text.empty() ? text : "\nGrain\n" + text;
}

std::string standing(const Sheet& sheet) {
  if (!sheet.from_state) return "The rack is empty at the start.\n";
  int trays = 0;
  for (const Opening::Sown& sown : sheet.opening.sown) trays += sown.trays;
  const double off = std::abs(sheet.ahead);
  const std::string pace = off < 0.5 ? "on schedule" : fmt::format("{} batch{} {}", write_quantity(off, "1", false, 2), off < 1.05 && off > 0.95 ? "" : "es", sheet.ahead < 0.0 ? "behind" : "ahead");
  std::string text = fmt::format("{} {} on the rack: {}{}.\n", trays, trays == 1 ? "tray stands" : "trays stand", pace, behind_unless_soaking(sheet) ? ", if no bucket is full" : "");
  // By its days a line may be as it should be and its mats late all the same, in the cold above all.
  const std::vector<study::Task> tasks = shown_tasks(sheet);
  const auto lacks = std::count_if(tasks.begin(), tasks.end(), [&](const study::Task& task) { return is_short(sheet, task) || short_chance(sheet, task).value_or(0.0) >= likely_short; });
  const bool hurried = std::any_of(tasks.begin(), tasks.end(), [&](const study::Task& task) { return is_short(sheet, task) && has(task, study::Task::Why::time); });
  if (off < 0.5 && lacks > 0)
    text += report::wrapped(fmt::format("That is by its days; even so {} of the feedings below {} marked SHORT or likely SHORT: {}too little will have grown by then, or too much spoiled.", lacks,
                                        lacks == 1 ? "is" : "are", hurried ? "there is too little time to harvest, " : ""));
  return text;
}

}  // namespace

// The simulator counts what is put to soak after the last round with the next round, which is of the next day.
double work_minutes(const Sheet& sheet, std::size_t day) {
  const Keeper& keeper = sheet.scenario.keeper;
  const double a_batch = keeper.times.soak_per_batch + keeper.times.drain_per_batch;
  double minutes = static_cast<double>(sheet.list.days.at(day).labour);
  if (day == 0) minutes -= a_batch * soaked_since_round(sheet.scenario, sheet.opening);
  const auto last_round = std::llround(60.0 * (rounds_a_day(sheet.scenario) > 1 ? keeper.evening : keeper.morning).value());
  for (const study::Task& task : sheet.list.tasks) {
    const auto of = static_cast<std::size_t>(task.minute / minutes_per_day);
    if (task.kind != study::Task::Kind::soak || task.trays == 0 || task.minute % minutes_per_day < last_round || of > day || of + 1 < day) continue;
    minutes += (of == day ? 1.0 : -1.0) * a_batch;
  }
  return minutes;
}

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
  text += luck_summary(sheet);
  if (const std::string soak = unseen_soak_words(sheet); !soak.empty()) text += report::wrapped("! " + soak, 0, 2);
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
  if (sheet.recovery) text += "\n" + recovery_text(sheet, *sheet.recovery);
  text += "\n" + report::wrapped("Amounts and trays of the list are those of one play with even luck, in which no mat spoils before that is more likely than not; "
                                 "what luck makes of them stands above, at the days and at feedings that it leaves short in half the plays (likely SHORT) or a fifth (may be short). Look every mat over before it "
                                 "is fed: never a mouldy, slimy or sour one. Throw it out whole, in gloves and a fine-dust mask (P2 or N95).");
  return text;
}

}  // namespace rackwright::app
