#include "sim/study/remedy.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include <fmt/format.h>

#include "sim/replication/replicate.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/size.hpp"
#include "sim/study/tally.hpp"
#include "sim/study/verdict_words.hpp"

namespace rackwright::study {
namespace {

using Change = std::function<std::string(Scenario&, int step)>;  ///< changes the design; says how, empty: no such step

int scaled(int value, double factor) { return std::max(value + 1, static_cast<int>(std::lround(value * factor))); }
constexpr double factors[] = {1.0, 1.2, 1.4, 1.7, 2.0, 2.5, 3.0};
constexpr int steps = 6;

std::string now(const char* key, double to, double from, const char* unit = "") {
  return fmt::format("{} = {:.4g}{} (now {:.4g})", key, to, unit, from);
}

/// A whole number scaled up.
Change more(const char* key, int& (*field)(Scenario&)) {
  return [=](Scenario& s, int step) {
    const int from = field(s);
    field(s) = scaled(from, factors[step]);
    return now(key, field(s), from);
  };
}

std::string trays_and_places(Scenario& s, int step) {
  const int batch = s.line.trays_per_batch, places = s.rack.trays_per_tier;
  s.line.trays_per_batch = scaled(batch, factors[step]);
  // Places in step with the trays, and at least what such batches stand on for their days.
  const int standing = s.line.trays_per_batch * s.line.batches_per_day * (s.line.days_on_rack + 1);
  s.rack.trays_per_tier = std::max(static_cast<int>(std::ceil(places * static_cast<double>(s.line.trays_per_batch) / batch)),
                                   (standing + s.rack.tiers - 1) / s.rack.tiers);
  return now("line.trays_per_batch", s.line.trays_per_batch, batch) + " with " +
         now("rack.trays_per_tier", s.rack.trays_per_tier, places);
}

std::string density(Scenario& s, int step) {
  if (step > 3) return {};
  const double from = s.line.sowing_density.value();
  s.line.sowing_density = KilogramsPerSquareMetre(from * (1.0 + 0.15 * step));
  return now("line.sowing_density", s.line.sowing_density.value(), from, " kg/m2");
}

std::string days_on_rack(Scenario& s, int by) {
  const int from = s.line.days_on_rack;
  s.line.days_on_rack = from + by;
  return by == 0 || from + by < 3 ? std::string() : now("line.days_on_rack", from + by, from);
}

std::string shorter_soak(Scenario& s, int step) {
  const double from = s.line.soak.value(), to = from - 2.0 * step;
  if (to < 4.0) return {};
  s.line.soak = Hours(to);
  return now("line.soak", to, from, " h");
}

std::string heater(Scenario& s, int step) {
  if (step > 4) return {};
  const double from = s.room.heater.value();
  s.room.heater = Watts(from + 500.0 * step);
  return now("room.heater", from + 500.0 * step, from, " W");
}

std::string minutes(Scenario& s, int step) {
  const double from = s.keeper.minutes_per_day;
  s.keeper.minutes_per_day = std::ceil(from * factors[step]);
  return now("keeper.minutes_per_day", s.keeper.minutes_per_day, from);
}

std::vector<Change> levers() {
  return {more("line.trays_per_batch", [](Scenario& s) -> int& { return s.line.trays_per_batch; }),
          more("rack.trays_per_tier", [](Scenario& s) -> int& { return s.rack.trays_per_tier; }),
          more("rack.tiers", [](Scenario& s) -> int& { return s.rack.tiers; }),
          trays_and_places,
          density,
          [](Scenario& s, int step) { return step > 3 ? std::string() : days_on_rack(s, -step); },
          [](Scenario& s, int step) { return step > 3 ? std::string() : days_on_rack(s, step); },
          more("keeper.soak_buckets", [](Scenario& s) -> int& { return s.keeper.soak_buckets; }),
          minutes,
          shorter_soak,
          heater};
}

/// What a step comes to.
struct Reached { double gap = 0.0, success = 0.0, cost_year = 0.0; };

/// One row, or none where the change cannot be simulated: it is then no remedy.
std::vector<Reached> play(const Scenario& design, std::uint64_t random_seed, std::uint32_t years) try {
  if (!check_scenario(design).empty() || !screen(design).empty()) return {};
  const Plan plan = make_plan(design);
  Replicator replicator(plan);
  Tally tally;
  Candidate candidate;
  for (std::uint32_t year = 0; year < years; ++year) {
    tally.add(replicator.run(random_seed, year), design.target);
    if (year + 1 != years / 3) continue;  // hopeless already?
    tally.describe(candidate, design.target);
    if (gap(candidate) < -0.4) break;
  }
  tally.describe(candidate, design.target);
  return {{gap(candidate), candidate.success.mean, candidate.cost_year.mean}};
} catch (const std::exception&) {
  return {};
}

}  // namespace

std::vector<Remedy> remedies(const Scenario& design, std::uint64_t random_seed, std::uint32_t years,
                             const std::atomic<bool>* stop, PieceMemory* memory) {
  std::vector<Remedy> reached;
  std::optional<Remedy> best;
  for (const Change& lever : levers()) {
    for (int step = 1; step <= steps; ++step) {
      if (stop != nullptr && stop->load()) return reached;
      Scenario changed = design;
      std::string setting = lever(changed, step);
      if (setting.empty()) break;
      const auto rows = remembered(memory, "remedy-" + setting, stop, [&] { return play(changed, random_seed, years); });
      if (rows.empty()) continue;
      const Reached& row = rows.front();
      Remedy tried{std::move(setting), row.gap >= 0.0, row.gap, row.success, row.cost_year};
      if (!best || tried.gap > best->gap) best = tried;
      if (!tried.reaches) continue;
      reached.push_back(std::move(tried));
      break;
    }
  }
  std::stable_sort(reached.begin(), reached.end(),
                   [](const Remedy& a, const Remedy& b) { return a.cost_year < b.cost_year; });
  if (reached.empty() && best) reached.push_back(*best);
  return reached;
}

std::string remedy_words(const Remedy& remedy, const std::string& currency) {
  const std::string money = money_words(remedy.cost_year, currency);
  return remedy.reaches
             ? fmt::format("{}: the target holds in {:.3g} % of years, at {}", remedy.setting, 100.0 * remedy.success, money)
             : fmt::format("no single change that was tried is enough; the best is {}, with which it holds in {:.3g} % of "
                           "years, at {}", remedy.setting, 100.0 * remedy.success, money);
}

}  // namespace rackwright::study
