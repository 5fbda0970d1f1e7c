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
std::string figure(double value, int digits) { return write_quantity(value, "1", false, digits); }
const std::string& grain(const Sheet& sheet, int which) {
  static const std::string unknown = "grain";
  return which < 0 ? unknown : sheet.scenario.grains[static_cast<std::size_t>(which)].name;
}
const LotPolicy& policy(const Sheet& sheet, const Task& task) { return sheet.scenario.grains.at(static_cast<std::size_t>(task.which)).policy; }

std::string round_words(const Sheet& sheet, int day, int session) {
  const bool twice = sheet.scenario.line.batches_per_day > 1;
  return short_date(sheet.first + std::chrono::days(day)) + (!twice ? "" : session == 0 ? ", morning" : ", evening");
}

std::string undone(const Task& task, const std::string& why) {
  return task.undone > 0 ? fmt::format("; {} left undone: {}", trays(task.undone), why) : std::string();
}

std::string why_words(const Sheet& sheet, const Task& task) {
  std::vector<std::string> all;
  for (const Task::Why why : task.why) {
    using enum Task::Why;
    switch (why) {
      case grain: all.push_back(fmt::format("too little {} in store", app::grain(sheet, task.which))); break;
      case too_old: {
        const double days = in_days(sheet.scenario.grains.at(static_cast<std::size_t>(task.which)).store.use_by);
        all.push_back(fmt::format("the {} in store is too old (past its use-by of {} d)", app::grain(sheet, task.which), figure(days, 3)));
        break;
      }
      case bucket: all.emplace_back("no bucket is free"); break;
      case frost: all.emplace_back("the room is below freezing"); break;
      case nobody: all.emplace_back("nobody is there"); break;
      case not_wanted: all.emplace_back("no fodder will be wanted when they are ripe"); break;
      case place: all.emplace_back("no place is free on the rack"); break;
      case time: all.emplace_back("no time is left"); break;
      case mould: all.emplace_back("mouldy"); break;
      case sour: all.emplace_back("sour"); break;
      case killed: all.emplace_back("killed by frost"); break;
      case past: all.emplace_back(task.trays == 1 ? "past its time, or its place is wanted" : "past their time, or their places are wanted"); break;
    }
  }
  return fmt::format("{}", fmt::join(all, "; "));
}

std::string soak_words(const Sheet& sheet, const Task& task) {
  const std::string& name = grain(sheet, task.which);
  const std::string when = round_words(sheet, task.day, task.session);
  if (has(task, Task::Why::not_wanted) && task.undone == 0 && task.trays == 0)
    return fmt::format("soak nothing (to be sown {}): no fodder will be wanted when it is ripe", when);
  if (task.trays == 0) return fmt::format("{}: soak no {} for {} (to be sown {})", why_words(sheet, task), name, trays(task.undone), when);
  return fmt::format("soak {} of {} for {} (to be sown {}, after {:.3g} h){}", mass(sheet, task.kilograms), name, trays(task.trays), when, task.hours,
                     undone(task, why_words(sheet, task)));
}

std::string meal_words(const Sheet& sheet, const Task& task) {
  const std::string& name = sheet.scenario.groups[static_cast<std::size_t>(task.which)].name;
  const bool lacks = is_short(sheet, task);
  std::string text = lacks ? fmt::format("feed {} {} of the {} they want: SHORT{}", name, mass(sheet, task.kilograms), mass(sheet, task.wanted),
                                         has(task, Task::Why::time) ? ", as no time is left to harvest more" : "")
                           : fmt::format("feed {} {}", name, mass(sheet, task.kilograms));
  const auto chance = short_chance(sheet, task);
  if (!chance) return text;
  const double mean = sheet.luck->meals.at({task.minute, task.which}).given;
  constexpr double worth_a_word = 0.05;
  const bool less = task.kilograms - mean > worth_a_word * task.wanted;
  const bool may = !lacks && *chance >= maybe_short;
  if (may)
    text += fmt::format(": {} (in {:.0f} % of plays; {} on the mean)", *chance >= likely_short ? "likely SHORT" : "may be short", 100.0 * *chance, mass(sheet, mean));
  else if (less)
    text += fmt::format(" ({} with luck)", mass(sheet, mean));
  return text;
}

std::string feed_words(const Sheet& sheet, const Task& task) {
  const std::string unripe = unripe_words(sheet, task);
  return meal_words(sheet, task) + (unripe.empty() ? "" : "; ") + unripe;
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
    // Less grain on a tray is less fodder of it, however sound.
    const auto thinner = [&](const char* what, const study::HeatAdvice::Step& to) {
      step(what, write_quantity(to.value, "kg/m2", us, 3), now, to.risk);
      const double trays = (1.0 - heat.risk) * sheet.scenario.line.sowing_density.value() / std::max(1e-9, (1.0 - to.risk) * to.value);
      constexpr double worth_telling = 1.05;
      if (trays > worth_telling) out.back() += fmt::format(" For as much sound fodder that takes {:.1f} times as many trays.", trays);
    };
    if (heat.charge) thinner("Sow them thinner, down", *heat.charge);
    if (heat.both && heat.soak) thinner("Do both, sowing down", *heat.both);
    if (!heat.soak && !heat.charge)
      out.push_back("Neither a shorter soak nor thinner sowing helps: cool or air the room, or sow fewer trays on those days.");
  }
  if (!heat.standing.empty())
    out.push_back(fmt::format("Already sown or in soak: {}. A tray of the worst spoils with a chance of {} (usual {}) before it is cut: look them "
                              "over at every round, cut the oldest first, and never feed a mouldy or sour mat.",
                              batches_words(sheet, heat.standing), percent(heat.standing_risk), percent(heat.standing_usual)));
}

/// Which of those batches the list cuts all the same, before they are ripe.
std::string fed_unripe_words(const Sheet& sheet, const study::BatchKeys& batches) {
  int count = 0;
  std::int64_t first = 0;
  for (const auto& key : batches) {
    const auto at = sheet.list.batches.find(key);
    if (at == sheet.list.batches.end() || !at->second.first_unripe) continue;
    if (count++ == 0 || *at->second.first_unripe < first) first = *at->second.first_unripe;
  }
  if (count == 0) return "";
  const std::string on = short_date(sheet.first + std::chrono::days(first / minutes_per_day));
  if (batches.size() == 1) return fmt::format(" By the list it is fed unripe, for want of riper mats, on {}.", on);
  return fmt::format(" By the list {} of these {} {} fed unripe, for want of riper mats, {}on {}.", count, batches.size(), count == 1 ? "is" : "are", count == 1 ? "" : "first ", on);
}

std::string cold_words(const Sheet& sheet, const study::ColdAdvice& cold) {
  const int days = sheet.scenario.line.days_on_rack;
  if (cold.never.size() == cold.batches.size())
    return fmt::format("Cold spell: {} {} not ripen in this cold.{} No early start makes up for that: keep the room warmer.", batches_words(sheet, cold.batches),
                       cold.batches.size() == 1 ? "does" : "do", fed_unripe_words(sheet, cold.batches));
  const double more = cold.late - cold.usual_late, earlier = 0.5 * std::ceil(2.0 * more - 1e-9);
  const std::string what = 2.0 * more > days ? "No early start makes up for that: keep the room warmer."
                                             : fmt::format("What must be ready on its day is to be started {:.1f} d earlier, or the room kept warmer.", earlier);
  std::string text = fmt::format("Cold spell: {} ripen{} up to {:.1f} d after {} {} days on the rack ({:.1f} d more than usual for the season). {}",
                                 batches_words(sheet, cold.batches), cold.batches.size() == 1 ? "s" : "", cold.late, cold.batches.size() == 1 ? "its" : "their", days, more, what);
  if (!cold.never.empty())
    text += fmt::format(" Of them {} {} not ripen at all.", batches_words(sheet, cold.never), cold.never.size() == 1 ? "does" : "do");
  return text + fed_unripe_words(sheet, cold.batches);
}

/// Once for all days: what frost asks for.
std::string frost_words(const Sheet& sheet) {
  int days = 0, first = -1;
  for (int day = 0; day < std::min(sheet.days, static_cast<int>(sheet.list.days.size())); ++day) {
    if (static_cast<double>(sheet.list.days[static_cast<std::size_t>(day)].room_min) >= 0.0) continue;
    if (first < 0) first = day;
    ++days;
  }
  if (days == 0) return "";
  return fmt::format("Frost: the room freezes on {} of these days, first on {}. Drain pump, pipes and tank before, or the water freezes in them: while it freezes none runs, and nothing "
                     "can be soaked; mats that have sprouted die below {}: throw out what froze, and feed none of it. A heater keeps it from freezing: fixed, guarded, away from bedding and dust, and none that burns "
                     "fuel without a flue.",
                     days, short_date(sheet.first + std::chrono::days(first)), write_quantity(sheet.scenario.frost.kill.value(), "degC", sheet.scenario.units == Units::us, 3));
}

}  // namespace

std::string unripe_advice(const Sheet& sheet) {
  int mats = 0, days = 0;
  std::int64_t first = 0, last = -1;
  for (const Task& task : shown_tasks(sheet)) {
    if (task.kind != Task::Kind::harvest || task.unripe <= 0.0) continue;
    const std::int64_t day = task.minute / minutes_per_day;
    if (mats == 0) first = day;
    if (day != last) ++days;
    last = day;
    mats += task.trays;
  }
  if (mats == 0) return "";
  const bool one = mats == 1;
  return fmt::format("Unripe: {} of those that the list cuts, on {}{}, {} not grown to {:.0f} % of a ripe mat (line.ready): mostly soaked grain rather than fodder, and much of it at once sours the gut. Give little of it "
                     "and make up with hay or the animals' usual feed, or leave {} on the rack, where {} may ripen if it is warmer.",
                     trays(mats), days == 1 ? "" : fmt::format("{} days, first on ", days), short_date(sheet.first + std::chrono::days(first)), one ? "has" : "have",
                     100.0 * sheet.scenario.line.ready, one ? "it" : "them", one ? "it" : "they");
}

std::string unripe_words(const Sheet& sheet, const Task& task) {
  constexpr double all = 0.995;
  if (task.unripe <= 0.0) return "";
  if (task.kind == Task::Kind::harvest) return "UNRIPE, mostly soaked grain: feed little of it, or leave it on the rack";
  return fmt::format("{} UNRIPE, mostly soaked grain: give little of that, make up with hay or their usual feed",
                     task.unripe > all * task.kilograms ? std::string("all of it") : mass(sheet, task.unripe) + " of it");
}

std::optional<double> short_chance(const Sheet& sheet, const study::Task& task) {
  if (!sheet.luck || task.kind != study::Task::Kind::feed) return std::nullopt;
  const auto meal = sheet.luck->meals.find({task.minute, task.which});
  if (meal == sheet.luck->meals.end()) return std::nullopt;
  return static_cast<double>(meal->second.shorts) / sheet.luck->plays;
}

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
    case pour_out: return "pour out";
    case discard: return "throw out grain";
  }
  return "";
}

std::string task_words(const Sheet& sheet, const Task& task) {
  using enum Task::Kind;
  switch (task.kind) {
    case soak: return soak_words(sheet, task);
    case throw_out:
      return fmt::format("throw out {} of {} sown {}: {}", trays(task.trays), grain(sheet, task.which), round_words(sheet, task.day, task.session), why_words(sheet, task));
    case pour_out:
      return fmt::format("pour out the grain soaked for {} (to be sown {}): {}", trays(task.trays), round_words(sheet, task.day, task.session),
                         has(task, Task::Why::frost) ? "it lay in ice and is foul" : "it stood in water too long");
    case harvest:
      if (task.trays == 0) return fmt::format("{}: {} of {} sown {} not harvested", why_words(sheet, task), trays(task.undone), grain(sheet, task.which), round_words(sheet, task.day, task.session));
      return fmt::format("harvest {} of {} sown {}, about {}{}{}", trays(task.trays), grain(sheet, task.which), round_words(sheet, task.day, task.session), mass(sheet, task.kilograms),
                         task.unripe > 0.0 ? ": " : "", unripe_words(sheet, task));
    case feed: return feed_words(sheet, task);
    case sow:
      if (task.trays == 0) return fmt::format("{}: {} not sown", why_words(sheet, task), trays(task.undone));
      return fmt::format("sow {} of {}", trays(task.trays), grain(sheet, task.which));
    case move:
      if (task.trays == 0) return fmt::format("{}: {} not moved", why_words(sheet, task), trays(task.undone));
      return fmt::format("move {} one place on", trays(task.trays));
    case wash: return fmt::format("wash {}{}", trays(task.trays), undone(task, "no time or room"));
    case discard:
      return fmt::format("throw out {} of {} from the store: past its use-by of {} d", mass(sheet, task.kilograms), grain(sheet, task.which),
                         figure(in_days(sheet.scenario.grains.at(static_cast<std::size_t>(task.which)).store.use_by), 3));
    case order:
      return fmt::format("order {} of {} (comes in about {} d)", mass(sheet, task.kilograms), grain(sheet, task.which), figure(task.hours / 24.0, 2));
    case receive: return fmt::format("{} of {} comes", mass(sheet, task.kilograms), grain(sheet, task.which));
    case lay_trial:
      return fmt::format("lay out {} kernels of the {} that came to see how many sprout; count them in {} d", policy(sheet, task).trial,
                         grain(sheet, task.which), figure(task.hours / 24.0, 2));
    case count_trial:
      return fmt::format("count the trial of {}: keep the lot if {} or more of {} sprouted, else send it back and order again", grain(sheet, task.which),
                         grain::least_sprouted({policy(sheet, task).trial, policy(sheet, task).accept}), policy(sheet, task).trial);
  }
  return "";
}

std::vector<std::string> advice_words(const Sheet& sheet) {
  std::vector<std::string> out;
  if (sheet.advice.heat) heat_words(sheet, *sheet.advice.heat, out);
  if (sheet.advice.cold) out.push_back(cold_words(sheet, *sheet.advice.cold));
  if (std::string unripe = unripe_advice(sheet); !unripe.empty()) out.push_back(std::move(unripe));
  if (const std::string frost = frost_words(sheet); !frost.empty()) out.push_back(frost);
  return out;
}

}  // namespace rackwright::app
