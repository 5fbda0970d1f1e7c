#include "sim/scenario/cautions_dates.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "models/herd/breeding.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/horizon.hpp"
#include "sim/scenario/presence.hpp"

namespace rackwright {
namespace {

std::string date(const Scenario& s, double day) {
  const std::chrono::year_month_day at{std::chrono::sys_days(s.run.start) + std::chrono::days(static_cast<int>(std::floor(day)))};
  return fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(at.year()), static_cast<unsigned>(at.month()), static_cast<unsigned>(at.day()));
}

/// What begins on that day of the run and is over on the other, against a run from 0 to `end`; empty where they meet.
std::string outside(const Scenario& s, double first, double over, double end) {
  if (over > 0.0 && first < end) return "";
  return fmt::format("it begins on {}, and the run goes from {} to {}, so it does nothing", date(s, first), date(s, 0.0), date(s, end - 1.0));
}

/// A lot or an order that is yet to come may be hit after the day stated.
bool waits(HardTimeKind kind) { return kind == HardTimeKind::poor_lot || kind == HardTimeKind::late_delivery; }

std::string out_of_run(const Scenario& s, const climate::Overlay& spell, double end) { return outside(s, spell.first_day, spell.first_day + spell.length_days, end); }
std::string out_of_run(const Scenario& s, const HardTime& hard, double end) {
  return outside(s, hard.first_day, waits(hard.kind) ? end : static_cast<double>(ends(hard)) / 1440.0, end);
}

}  // namespace

std::string laid_words(const Scenario& s) {
  const double end = horizon_days(s);
  std::string laid;
  for (std::size_t i = 0; i < s.spells.size(); ++i)
    if (out_of_run(s, s.spells[i], end).empty()) laid += fmt::format("{}spell {}", laid.empty() ? "" : ", ", i + 1);
  for (const HardTime& hard : s.hard_times)
    if (out_of_run(s, hard, end).empty()) laid += (laid.empty() ? "" : ", ") + hard.name;
  if (laid.empty()) return laid;
  return fmt::format("Every run is played with what the scenario lays upon it: {}. The figures are those of such years; for ordinary ones leave that out.", laid);
}

void date_cautions(const Scenario& s, std::vector<std::string>& out) {
  const double end = horizon_days(s);
  for (std::size_t i = 0; i < s.spells.size(); ++i)
    if (const std::string why = out_of_run(s, s.spells[i], end); !why.empty()) out.push_back(fmt::format("spell.{}: {}.", i + 1, why));
  for (const HardTime& hard : s.hard_times)
    if (const std::string why = out_of_run(s, hard, end); !why.empty()) out.push_back(fmt::format("hard_time.{}: {}.", hard.name, why));
  if (std::string laid = laid_words(s); !laid.empty()) out.push_back(std::move(laid));
  for (const std::string& name : absent_groups(s))
    out.push_back(fmt::format("group.{}: it is not here on any day of the run, which goes from {} to {}.", name, date(s, 0.0), date(s, end - 1.0)));
  for (const Group& group : s.groups) {
    if (group.count <= 0 || group.breeding.first_birth_day < end || herd::first_season_felt(group.breeding, 0.0) < end) continue;
    out.push_back(fmt::format("group.{}: its first births fall on {}, after the run ends on {}: no young are fed in it.", group.name,
                              date(s, group.breeding.first_birth_day), date(s, end - 1.0)));
  }
}

}  // namespace rackwright
