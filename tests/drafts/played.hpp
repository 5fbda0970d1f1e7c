#pragma once
// Plays a scenario and says what is wrong with what came of it.

#include <cmath>
#include <ctime>
#include <exception>
#include <string>

#include <fmt/format.h>

#include "sim/replication/columns.hpp"
#include "sim/replication/replicate.hpp"

namespace rackwright::test {

/// Empty when all is well: nothing thrown (a balance that does not close throws), no value that is no number, shares within
/// bounds, fewer feedings short than there were, no more mats fed, lost and left than were sown or can have stood on the rack's
/// `places` at the start.
inline std::string fault_of(const Outcome& o, std::span<const DailyRow> rows, int places) {
  for (const Column& column : outcome_columns()) {
    if (!std::isfinite(column.get(o))) return fmt::format("{} is {}", column.name, column.get(o));
  }
  for (const DailyRow& row : rows) {
    for (const DailyColumn& column : daily_columns()) {
      if (!std::isfinite(row.*column.member)) return fmt::format("daily {} is {}", column.name, row.*column.member);
    }
  }
  const auto share = [](double x) { return x >= 0.0 && x <= 1.0 + 1e-9; };
  if (!share(o.fill_rate) || !share(o.worst_season_fill_rate)) return "a fill rate is no share";
  if (!share(o.germination)) return "germination is no share";
  if (o.served > o.wanted * (1.0 + 1e-9)) return "more was served than wanted";
  if (o.short_feedings > o.feedings) return "more feedings short than there were";
  const int gone = o.trays_fed + o.spoiled_mould + o.spoiled_sour + o.frost_killed + o.composted_surplus + o.composted_overdue + o.composted_unripe;
  if (gone + o.trays_on_rack > o.trays_sown + places) return "more mats fed, lost and left than were sown";
  for (const double v : {o.water_used, o.energy_heater, o.energy_cooler, o.energy_pump, o.labour, o.dry_hours, o.grain_used,
                         o.fodder_fresh, o.fodder_dry_matter, o.condensed}) {
    if (v < -1e-9) return "an amount is below zero";
  }
  return {};
}

inline std::string fault_of(const Scenario& scenario, std::uint32_t replications) {
  try {
    const Plan plan = make_plan(scenario);
    Replicator replicator(plan);
    for (std::uint32_t r = 0; r < replications; ++r) {
      const Outcome outcome = replicator.run(scenario.run.random_seed, r);
      if (std::string fault = fault_of(outcome, replicator.daily(), plan.positions); !fault.empty()) return fmt::format("replication {}: {}", r, fault);
    }
  } catch (const std::exception& error) {
    return fmt::format("threw: {}", error.what());
  }
  return {};
}

/// Seconds of processor time that `work` takes.
template <class Work>
double seconds_of(Work&& work) {
  const std::clock_t begin = std::clock();
  work();
  return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

}  // namespace rackwright::test
