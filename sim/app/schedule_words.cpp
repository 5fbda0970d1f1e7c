// How tasks and warnings are worded.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/grain/acceptance.hpp"
#include "sim/app/schedule_sheet.hpp"
#include "sim/replication/plan.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

using study::Task;
constexpr const char* months[] = {"January", "February", "March",     "April",   "May",      "June",
                                  "July",    "August",   "September", "October", "November", "December"};
constexpr const char* weekdays[] = {"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

std::string trays(int count) { return fmt::format("{} tray{}", count, count == 1 ? "" : "s"); }
std::string mass(const Sheet& sheet, double kilograms) { return write_quantity(kilograms, "kg", sheet.scenario.units == Units::us, kilograms < 10.0 ? 2 : 3); }
const std::string& grain(const Sheet& sheet, int which) {
  static const std::string unknown = "grain";
  return which < 0 ? unknown : sheet.scenario.grains[static_cast<std::size_t>(which)].name;
}
const LotPolicy& policy(const Sheet& sheet, const Task& task) { return sheet.scenario.grains.at(static_cast<std::size_t>(task.which)).policy; }

std::string round_words(const Sheet& sheet, int day, int session) {
  const bool twice = sheet.scenario.line.batches_per_day > 1;
  return short_date(sheet.first + std::chrono::days(day)) + (!twice ? "" : session == 0 ? ", morning" : ", evening");
}

std::string undone(const Task& task, const char* why) {
  return task.undone > 0 ? fmt::format("; {} left undone for want of {}", trays(task.undone), why) : std::string();
}

std::string feed_words(const Sheet& sheet, const Task& task) {
  const std::string& name = sheet.scenario.groups[static_cast<std::size_t>(task.which)].name;
  return is_short(sheet, task) ? fmt::format("feed {} {} of the {} they want: SHORT", name, mass(sheet, task.kilograms), mass(sheet, task.wanted))
                  : fmt::format("feed {} {}", name, mass(sheet, task.kilograms));
}

std::string batches_words(const Sheet& sheet, const study::BatchKeys& batches) {
  const auto& [first_day, first_session] = batches.front();
  const auto& [last_day, last_session] = batches.back();
  const std::string first = round_words(sheet, first_day, first_session);
  return batches.size() == 1 ? "the batch of " + first
                             : fmt::format("the {} batches of {} to {}", batches.size(), first, round_words(sheet, last_day, last_session));
}

std::string percent(double share) { return fmt::format("{:.{}f} %", 100.0 * share, share < 0.0995 ? 1 : 0); }

void heat_words(const Sheet& sheet, const study::HeatAdvice& heat, std::vector<std::string>& out) {
  const bool us = sheet.scenario.units == Units::us;
  if (!heat.batches.empty()) {
    out.push_back(fmt::format("Warm spell: {} would spoil with a chance of {} a tray; usual for the season is {}.",
                              batches_words(sheet, heat.batches), percent(heat.risk), percent(heat.usual)));
    const auto step = [&](const char* what, const std::string& value, const std::string& now, double risk) {
      const bool back = risk <= heat.usual + study::worth_a_word;
      out.push_back(fmt::format("{} to {} (now {}): the chance falls to {}{}.", what, value, now, percent(risk), back ? "" : ", still above usual"));
    };
    const std::string soak_now = write_quantity(sheet.scenario.line.soak.value(), "h", us, 3);
    const std::string now = write_quantity(sheet.scenario.line.sowing_density.value(), "kg/m2", us, 3);
    if (heat.soak) step("Shorten their soak", write_quantity(heat.soak->value, "h", us, 3), soak_now, heat.soak->risk);
    if (heat.charge) step("Sow them thinner, down", write_quantity(heat.charge->value, "kg/m2", us, 3), now, heat.charge->risk);
    if (heat.both && heat.soak)
      step("Do both, sowing down", write_quantity(heat.both->value, "kg/m2", us, 3), now, heat.both->risk);
    if (!heat.soak && !heat.charge)
      out.push_back("Neither a shorter soak nor thinner sowing helps: cool or air the room, or sow fewer trays on those days.");
  }
  if (!heat.standing.empty())
    out.push_back(fmt::format("Already sown or in soak: {}. A tray of the worst spoils with a chance of {} (usual {}) before it is cut: look them "
                              "over at every round, cut the oldest first, and never feed a mouldy or sour mat.",
                              batches_words(sheet, heat.standing), percent(heat.standing_risk), percent(heat.standing_usual)));
}

}  // namespace

bool is_short(const Sheet& sheet, const study::Task& task) {
  return task.kind == study::Task::Kind::feed && task.kilograms < (1.0 - sheet.scenario.feed.tolerance) * task.wanted;
}

std::string short_date(std::chrono::sys_days day) {
  const std::chrono::year_month_day d(day);
  return fmt::format("{} {}", static_cast<unsigned>(d.day()), months[static_cast<unsigned>(d.month()) - 1]);
}

std::string long_date(std::chrono::sys_days day) {
  const std::chrono::weekday weekday(day);
  return fmt::format("{} {} {}", weekdays[weekday.c_encoding()], short_date(day), static_cast<int>(std::chrono::year_month_day(day).year()));
}

std::string_view task_name(Task::Kind kind) {
  using enum Task::Kind;
  switch (kind) {
    case soak: return "soak";
    case throw_out: return "throw out";
    case harvest: return "harvest";
    case feed: return "feed";
    case sow: return "sow";
    case move: return "move";
    case wash: return "wash";
    case order: return "order";
    case receive: return "receive";
    case lay_trial: return "lay out a trial";
    case count_trial: return "count a trial";
  }
  return "";
}

std::string task_words(const Sheet& sheet, const Task& task) {
  using enum Task::Kind;
  switch (task.kind) {
    case soak:
      if (task.trays == 0 && task.frozen)
        return fmt::format("the room is below freezing: soak no {} for {} (to be sown {})", grain(sheet, task.which), trays(task.undone), round_words(sheet, task.day, task.session));
      if (task.trays == 0)
        return fmt::format("no grain or bucket to soak {} for {} (to be sown {})", grain(sheet, task.which), trays(task.undone), round_words(sheet, task.day, task.session));
      return fmt::format("soak {} of {} for {} (to be sown {}, after {:.3g} h){}", mass(sheet, task.kilograms), grain(sheet, task.which),
                         trays(task.trays), round_words(sheet, task.day, task.session), task.hours, undone(task, "grain or buckets"));
    case throw_out:
      return fmt::format("throw out {} of {} sown {}: past {} time, or spoiled", trays(task.trays), grain(sheet, task.which),
                         round_words(sheet, task.day, task.session), task.trays == 1 ? "its" : "their");
    case harvest:
      return fmt::format("harvest {} of {} sown {}, about {}", trays(task.trays), grain(sheet, task.which),
                         round_words(sheet, task.day, task.session), mass(sheet, task.kilograms));
    case feed: return feed_words(sheet, task);
    case sow:
      if (task.trays == 0) return fmt::format("no place or time to sow {}", trays(task.undone));
      return fmt::format("sow {} of {}", trays(task.trays), grain(sheet, task.which));
    case move: return fmt::format("move {} one place on", trays(task.trays));
    case wash: return fmt::format("wash {}{}", trays(task.trays), undone(task, "time or room"));
    case order:
      return fmt::format("order {} of {} (comes in about {:.2g} d)", mass(sheet, task.kilograms), grain(sheet, task.which), task.hours / 24.0);
    case receive: return fmt::format("{} of {} comes", mass(sheet, task.kilograms), grain(sheet, task.which));
    case lay_trial:
      return fmt::format("lay out {} kernels of the {} that came to see how many sprout; count them in {:.2g} d", policy(sheet, task).trial,
                         grain(sheet, task.which), task.hours / 24.0);
    case count_trial:
      return fmt::format("count the trial of {}: keep the lot if {} or more of {} sprouted, else send it back and order again", grain(sheet, task.which),
                         grain::least_sprouted({policy(sheet, task).trial, policy(sheet, task).accept}), policy(sheet, task).trial);
  }
  return "";
}

std::vector<std::string> advice_words(const Sheet& sheet) {
  std::vector<std::string> out;
  if (sheet.advice.heat) heat_words(sheet, *sheet.advice.heat, out);
  if (const auto& cold = sheet.advice.cold) {
    const double more = cold->late - cold->usual_late, earlier = 0.5 * std::ceil(2.0 * more - 1e-9);
    const int days = sheet.scenario.line.days_on_rack;
    const std::string what = 2.0 * more > days ? "No early start makes up for that: keep the room warmer."
                                               : fmt::format("What must be ready on its day is to be started {:.1f} d earlier, or the room kept warmer.", earlier);
    out.push_back(fmt::format("Cold spell: {} ripen up to {:.1f} d after their {} days on the rack ({:.1f} d more than usual for the season). {}",
                              batches_words(sheet, cold->batches), cold->late, days, more, what));
  }
  return out;
}

}  // namespace rackwright::app
