#include "sim/study/sweep_run.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <limits>

#include <fmt/format.h>

#include "sim/replication/replicate.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/limits.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/size.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {
namespace {

double a_year(const Outcome& o, double amount) { return o.days > 0.0 ? amount * 365.0 / o.days : 0.0; }

constexpr std::array<SweepColumn, sweep_column_count> columns{{
    {"fill_rate", "1", "share of the fodder wanted that is served", [](const Outcome& o) { return o.fill_rate; }},
    {"cost_year", "1", "money a year, currency", [](const Outcome& o) { return a_year(o, o.cost_total); }},
    {"short_days", "1", "days a year with a short feeding", [](const Outcome& o) { return a_year(o, o.short_days); }},
    {"longest_short_run", "1", "most short days in a row", [](const Outcome& o) { return double(o.longest_short_run); }},
    {"spoiled_trays", "1", "mats lost to mould or souring a year",
     [](const Outcome& o) { return a_year(o, o.spoiled_mould + o.spoiled_sour); }},
    {"spoiled_fed", "1", "spoiled mats a year fed unnoticed", [](const Outcome& o) { return a_year(o, o.spoiled_fed); }},
    {"unripe_fed", "1", "mats a year fed unripe", [](const Outcome& o) { return a_year(o, o.unripe_fed); }},
    {"overdue_trays", "1", "mats past their best a year", [](const Outcome& o) { return a_year(o, o.overdue_trays); }},
    {"labour", "h", "work a year", [](const Outcome& o) { return a_year(o, o.labour); }},
    {"grain_used", "kg", "grain sown a year", [](const Outcome& o) { return a_year(o, o.grain_used); }},
    {"water_used", "L", "fresh water a year", [](const Outcome& o) { return a_year(o, o.water_used); }},
    {"energy_used", "kW h", "electricity a year",
     [](const Outcome& o) { return a_year(o, o.energy_heater + o.energy_cooler + o.energy_pump); }},
    {"reserve_feed", "kg", "feed bought a year when the rack fell short",
     [](const Outcome& o) { return a_year(o, o.reserve_feed); }},
    {"cost_per_kg_dry_matter", "kg-1", "money for a kilogram of the fodder's dry matter (of each replication), currency",
     [](const Outcome& o) { return o.cost_per_kg_dry_matter; }},
}};

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Spread spread_of(std::vector<double>& values) {
  Moments moments;
  for (const double value : values) moments.add(value);  // in the order of replications: fixed bits
  std::sort(values.begin(), values.end());
  const auto quantile = [&](double p) {
    const double rank = std::ceil(p * static_cast<double>(values.size()));
    return values[static_cast<std::size_t>(std::max(rank, 1.0)) - 1];
  };
  const bool alone = values.size() < 2;  // one replication says nothing of the spread
  return {moments.mean(), alone ? nan : moments.standard_error(), alone ? nan : moments.sd(), quantile(0.05), quantile(0.5), quantile(0.95)};
}

}  // namespace

const std::array<SweepColumn, sweep_column_count>& sweep_columns() { return columns; }

bool SweepRow::has_numbers() const { return !std::isnan(success); }

SweepPlayer::SweepPlayer(const Scenario& scenario, const Sweep& sweep, const std::atomic<bool>* stop)
    : scenario_(scenario), sweep_(sweep), stop_(stop), points_(sweep) {
  scenario_.choose.choices.clear();  // the keys of a sweep take their place
}

std::optional<std::vector<SweepRow>> SweepPlayer::play(std::uint64_t first, std::uint64_t count) {
  std::vector<SweepRow> rows;
  for (std::uint64_t point = first; point < first + count; ++point) {
    auto row = play_point(point);
    if (!row) return std::nullopt;
    rows.push_back(*std::move(row));
  }
  return rows;
}

std::optional<SweepRow> SweepPlayer::play_point(std::uint64_t point) {
  SweepRow row;
  row.point = point;
  row.success = row.gap = nan;
  row.spreads.fill({nan, nan, nan, nan, nan, nan});
  const auto values = points_.at(point);
  row.values.assign(values.begin(), values.end());

  Scenario design = scenario_;
  Problems problems;
  for (std::size_t a = 0; a < values.size(); ++a)
    if (auto problem = set_axis(design, sweep_.axes[a], values[a])) problems.push_back(*problem);
  if (problems.empty()) problems = check_scenario(design);
  if (!problems.empty()) {
    row.status = PointStatus::invalid;
    for (const Problem& p : problems) row.why += fmt::format("{}{}: {}", row.why.empty() ? "" : "; ", p.key, p.why);
    return row;
  }
  const bool play_all = sweep_.play_all || sweep_.method == SweepMethod::sensitivity;
  row.why = screen(design);
  if (!row.why.empty()) row.status = PointStatus::hopeless;
  if (!row.why.empty() && !play_all) return row;
  if (!replicate(design, row)) return std::nullopt;
  return row;
}

bool SweepPlayer::replicate(const Scenario& design, SweepRow& row) {
  std::uint32_t replication = 0;
  try {
    const Plan plan = make_plan(design);
    Replicator replicator(plan);
    Keeping keeping;
    for (auto& column : values_) column.clear();
    for (; replication < sweep_.replications; ++replication) {
      if (stop_ != nullptr && replication % 16 == 0 && stop_->load()) return false;
      const Outcome outcome = replicator.run(sweep_.random_seed, replication);
      for (std::size_t c = 0; c < columns.size(); ++c) values_[c].push_back(columns[c].get(outcome));
      keeping.add(given_by(outcome, design.target));
    }
    const std::vector<Kept> kept = keeping.kept(design.target);
    row.success = kept.front().value.mean;
    row.gap = gap(kept);
    for (std::size_t c = 0; c < columns.size(); ++c) row.spreads[c] = spread_of(values_[c]);
  } catch (const std::exception& fault) {
    row.status = PointStatus::failed;
    row.why = fmt::format("replication {}: {}", replication, fault.what());
  }
  return true;
}

}  // namespace rackwright::study
