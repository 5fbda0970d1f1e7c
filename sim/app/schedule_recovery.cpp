// What brings a line back that is behind or ahead, told.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/app/schedule_sheet.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/cautions_place.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

using study::Estimate;

bool shown(const Estimate& e) { return e.low > 0.0 || e.high < 0.0; }

std::string interval(const Estimate& e, int decimals, double scale = 1.0) {
  const auto with_sign = [&](double value) {
    const std::string bare = report::plain(scale * value, decimals);  // nought has no sign
    return (bare.front() == '-' || bare.find_first_not_of("0.") == std::string::npos ? "" : "+") + bare;
  };
  return fmt::format("{} ({} to {})", with_sign(e.mean), with_sign(e.low), with_sign(e.high));
}

}  // namespace

namespace {

using study::Tried;

std::string counted(double ahead) {
  const double off = std::abs(ahead);
  return fmt::format("{} batch{} {}", write_quantity(off, "1", false, 2), std::abs(off - 1.0) < 0.05 ? "" : "es", ahead < 0.0 ? "behind" : "ahead");
}

/// Which days the figures are of, and which of them the list shows.
std::string usual_words(const Sheet& sheet, const study::Recovery& recovery) {
  const bool us = sheet.scenario.units == Units::us;
  const auto mass = [&](double kilograms) { return write_quantity(kilograms, "kg", us, 2); };
  std::string text = fmt::format("As usual {:.1f} meals are short (each group's counted by itself) and {} of fodder are missing in these {} days", recovery.short_feedings.mean,
                                 mass(recovery.missing.mean), recovery.days);
  if (!sheet.luck || sheet.days >= recovery.days) return text + ".";
  const study::Luck::Day shown = sheet.luck->sum(static_cast<std::size_t>(sheet.days));
  const std::vector<study::Task> tasks = shown_tasks(sheet);
  const auto marked = std::count_if(tasks.begin(), tasks.end(), [&](const study::Task& task) { return is_short(sheet, task); });
  return text + fmt::format(", {:.1f} and {} of them in the {} listed above, where one play with even luck has {} short.", shown.shorts, mass(shown.wanted - shown.served),
                            sheet.days == 1 ? "day" : fmt::format("{} days", sheet.days), marked);
}

std::string figures_words(const Scenario& scenario, const Tried& tried) {
  const bool us = scenario.units == Units::us;
  const double scale = us ? convert(1.0, "kg", "lb") : 1.0;
  return fmt::format("      loss {} {}, short meals {}, missing {} {}{}\n", interval(tried.loss, 1), scenario.currency, interval(tried.short_feedings, 1),
                     interval(tried.missing, 0, scale), us ? "lb" : "kg",
                     shown(tried.loss) || shown(tried.short_feedings) || shown(tried.missing) ? "" : ": no difference shown");
}

std::string_view heading(Tried::Verdict verdict) {
  switch (verdict) {
    case Tried::Verdict::feeds_more: return "These feed more; those that feed most first:";
    case Tried::Verdict::alike: return "These feed as much as going on as usual; the cheapest first:";
    case Tried::Verdict::both_ways: return "These spare short meals but lack more fodder in all, or the other way round:";
    case Tried::Verdict::feeds_less: return "These make meals short that would not be; they are no way back:";
  }
  return "";
}

/// What stands against doing nothing.
std::string verdict_words(const study::Recovery& recovery) {
  const auto any = [&](const auto& is) { return std::any_of(recovery.tried.begin(), recovery.tried.end(), is); };
  if (any([](const Tried& tried) { return tried.verdict == Tried::Verdict::feeds_more; })) return "";
  if (any([](const Tried& tried) { return tried.verdict == Tried::Verdict::alike && tried.loss.high < 0.0; }))
    return "Nothing feeds more than going on as usual; something is cheaper.\n";
  return "Nothing beats going on as usual.\n";
}

}  // namespace

bool behind_unless_soaking(const Sheet& sheet) { return sheet.unseen_soak > 0 && sheet.ahead <= -0.5; }

std::string unseen_soak_words(const Sheet& sheet) {
  if (sheet.unseen_soak == 0) return "";
  return fmt::format("The log shows nothing in soak, where a line that keeps its days has {} tray{} there now. If a bucket is full, write its row now rather than at its sowing (date sown: when it will be sown, with its "
                     "soak), and ask again: {}the list takes every bucket for empty.",
                     sheet.unseen_soak, sheet.unseen_soak == 1 ? "" : "s", behind_unless_soaking(sheet) ? "the line is less far behind then, or not at all, and " : "");
}

std::string soak_proviso(const Sheet& sheet) {
  if (!behind_unless_soaking(sheet)) return "";
  return "All that follows holds only if no bucket is full: with its row in the log the line is less far behind, or not at all, and to sow double would be too much.";
}

std::string recovery_text(const Sheet& sheet, const study::Recovery& recovery) {
  std::string text = report::wrapped(soak_proviso(sheet)) + report::wrapped(fmt::format(
      "{}: what each move changes over {} day{}, to {}, against going on as usual, mean of {} plays on the same luck with its 95 % interval. {} "
      "Loss: the money spent, with fodder that nobody made up for priced as reserve feed, less the worth of the grain growing at the end.",
      counted(sheet.ahead), recovery.days, recovery.days == 1 ? "" : "s", short_date(sheet.first + std::chrono::days(recovery.days - 1)), recovery.replications,
      usual_words(sheet, recovery)));
  text += verdict_words(recovery);
  std::string before;
  const Tried* last = nullptr;
  for (const Tried& tried : recovery.tried) {
    if (last == nullptr || last->verdict != tried.verdict) text += std::string(heading(tried.verdict)) + "\n", before.clear();
    last = &tried;
    const std::string figures = figures_words(sheet.scenario, tried);
    // Moves that come to the same, as what is not fed costs as much as the reserve feed for it, stand over one line of figures.
    if (figures == before) text.erase(text.size() - before.size());
    text += "  " + tried.what + "\n" + figures;
    before = figures;
  }
  if (std::any_of(recovery.tried.begin(), recovery.tried.end(), [](const Tried& tried) { return tried.what.find("heater") != std::string::npos; }))
    text += report::wrapped(heater_caution());
  return text;
}

}  // namespace rackwright::app
