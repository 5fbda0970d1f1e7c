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
  return fmt::format("{:+.{}f} ({:+.{}f} to {:+.{}f})", scale * e.mean, decimals, scale * e.low, decimals, scale * e.high, decimals);
}

}  // namespace

std::string recovery_text(const Scenario& scenario, double ahead, const study::Recovery& recovery) {
  const bool us = scenario.units == Units::us;
  const double scale = us ? convert(1.0, "kg", "lb") : 1.0;
  std::string text = report::wrapped(
      fmt::format("{:.1f} batches {}: what each move changes over {} days against going on as usual, mean of {} runs on the same luck with its "
                  "95 % interval. As usual {:.1f} feedings are short, and {} are missing. Least loss first: money, with what nobody made up at the reserve's price, less the grain growing at the end.",
                  std::abs(ahead), ahead < 0.0 ? "behind" : "ahead", recovery.days, recovery.replications, recovery.short_feedings.mean,
                  write_quantity(recovery.missing.mean, "kg", us, 3)));
  for (const study::Tried& tried : recovery.tried) {
    text += "  " + tried.what + "\n";
    text += fmt::format("      loss {} {}, short feedings {}, missing {} {}{}\n", interval(tried.loss, 1), scenario.currency, interval(tried.short_feedings, 1),
                        interval(tried.missing, 0, scale), us ? "lb" : "kg",
                        shown(tried.loss) || shown(tried.short_feedings) ? "" : ": no difference shown");
  }
  return text;
}

}  // namespace rackwright::app
