// What brings a line back that is behind or ahead, told.

#include <cmath>

#include <fmt/format.h>

#include "sim/app/schedule_sheet.hpp"
#include "sim/report/words.hpp"
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

std::string recovery_text(const Scenario& scenario, double ahead, const study::Recovery& recovery) {
  const bool us = scenario.units == Units::us;
  const double scale = us ? convert(1.0, "kg", "lb") : 1.0;
  std::string text = report::wrapped(
      fmt::format("{:.2g} batch{} {}: what each move changes over {} days against going on as usual, mean of {} runs on the same luck with its "
                  "95 % interval. As usual {:.1f} meals are short (each group's counted by itself), and {} of fodder are missing. Least loss first: the money spent, with fodder that nobody made up for priced as reserve feed, less the worth of the grain growing at the end.",
                  std::abs(ahead), std::abs(std::abs(ahead) - 1.0) < 0.05 ? "" : "es", ahead < 0.0 ? "behind" : "ahead", recovery.days, recovery.replications, recovery.short_feedings.mean,
                  write_quantity(recovery.missing.mean, "kg", us, 2)));
  std::string before;
  for (const study::Tried& tried : recovery.tried) {
    const std::string figures = fmt::format("      loss {} {}, short meals {}, missing {} {}{}\n", interval(tried.loss, 1), scenario.currency, interval(tried.short_feedings, 1),
                        interval(tried.missing, 0, scale), us ? "lb" : "kg",
                        shown(tried.loss) || shown(tried.short_feedings) ? "" : ": no difference shown");
    // Moves that come to the same, as what is not fed costs as much as the reserve feed for it, stand over one line of figures.
    if (figures == before) text.erase(text.size() - before.size());
    text += "  " + tried.what + "\n" + figures;
    before = figures;
  }
  return text;
}

}  // namespace rackwright::app
