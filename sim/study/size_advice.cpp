// What is worth knowing beyond the choice: what more money buys, what would help, how long the rack lasts.
#include <algorithm>
#include <variant>

#include <fmt/format.h>

#include "sim/study/design_runs.hpp"
#include "sim/study/remedy.hpp"
#include "sim/study/runway.hpp"
#include "sim/study/size_search.hpp"
#include "sim/study/verdict_words.hpp"
#include "sim/study/year_memory.hpp"

namespace rackwright::study {
namespace {

constexpr std::uint32_t enough_years = 96;  // for a point of the frontier
constexpr std::size_t most_steps = 3, most_remedies = 4;

/// Does it feed too many mats unripe in more years than not? Day-old soaked grain is no fodder that money could buy more of.
bool mostly_unripe(const Tally& tally) {
  const auto at = tally.broken.find("unripe mats fed");
  return at != tally.broken.end() && 2 * at->second > tally.years;
}

std::vector<CostAndService> curve_of(const Search& search) {
  std::vector<CostAndService> played;
  for (std::size_t d = 0; d < search.alive.size(); ++d) {
    const Tally& tally = search.tallies[d];
    if (tally.years > 0 && search.faults[d].empty() && !mostly_unripe(tally)) played.push_back({d, tally.cost_year.mean(), tally.fill_rate.mean()});
  }
  return frontier(std::move(played));
}

// Points of the frontier that were dropped after a few years get more, on the same fortunes; their verdicts stand.
void play_on(Search& search, const std::vector<CostAndService>& curve) {
  const auto most = static_cast<std::uint32_t>(search.scenario.choose.most_replications);
  std::vector<Elimination::Work> work;
  for (const CostAndService& point : curve) {
    const auto years = static_cast<std::uint32_t>(search.tallies[point.design].years);
    const std::uint32_t goal = std::min(enough_years, most);
    if (years < goal) work.push_back({point.design, years, goal - years});
  }
  if (work.empty()) return;
  run_or_recall(search.scenario, search.values, work, search.request, [&](const DesignYears& years) {
    if (!years.fault.empty()) return;
    for (const Outcome& outcome : years.outcomes) search.keep(years.design, outcome);
    search.result.replications += years.outcomes.size();
  });
}

double mean_of_first(const std::vector<double>& years, std::size_t count) {
  double sum = 0.0;
  for (std::size_t y = 0; y < count; ++y) sum += years[y];
  return sum / static_cast<double>(count);
}

// The curve over the same years for all: means over more of them for one than for another are not to be held against each other. What is shown
// of a design are its means over all its years; of points that these would put below another, none is on it either.
std::vector<CostAndService> paired_curve(const Search& search) {
  std::size_t common = enough_years;
  for (const CostAndService& point : curve_of(search)) common = std::min(common, search.years[point.design].cost.size());
  std::vector<CostAndService> played;
  for (std::size_t d = 0; d < search.alive.size(); ++d) {
    const YearValues& years = search.years[d];
    if (common == 0 || years.cost.size() < common || !search.faults[d].empty() || mostly_unripe(search.tallies[d])) continue;
    played.push_back({d, mean_of_first(years.cost, common), mean_of_first(years.fill_rate, common)});
  }
  std::vector<CostAndService> shown;
  const auto bought = frontier(std::move(played));
  for (const CostAndService& point : bought) {
    const Tally& tally = search.tallies[point.design];
    shown.push_back({point.design, tally.cost_year.mean(), tally.fill_rate.mean()});
  }
  return frontier(std::move(shown));
}

void find_frontier(Search& search) {
  SizeResult& result = search.result;
  const auto curve = paired_curve(search);
  for (const CostAndService& point : curve) result.frontier.push_back(static_cast<int>(search.alive[point.design]));
  if (const int bend = knee(curve); bend >= 0) result.knee = result.frontier[static_cast<std::size_t>(bend)];
  const int from = result.chosen >= 0 ? result.chosen : result.nearest;
  const auto base = std::find(search.alive.begin(), search.alive.end(), static_cast<std::size_t>(std::max(from, 0)));
  if (from < 0 || base == search.alive.end()) return;
  const auto b = static_cast<std::size_t>(base - search.alive.begin());
  for (const CostAndService& point : curve) {
    if (point.design == b || result.buys.size() == most_steps) continue;
    const Step step = step_up(search.years[b], search.years[point.design]);
    if (!(step.cost.mean > 0.0) || !buys_something(step)) continue;
    const Candidate& dearer = result.candidates[search.alive[point.design]];
    result.buys.push_back(fmt::format("{}: {}", design_words(result.keys, dearer.values), step_words(step, search.scenario.currency)));
  }
}

void find_help(Search& search) {
  SizeResult& result = search.result;
  if (result.chosen >= 0 || result.nearest < 0 || result.stopped) return;
  const Candidate& nearest = result.candidates[static_cast<std::size_t>(result.nearest)];
  const auto design = design_of(search.scenario, nearest.values);
  if (!std::holds_alternative<Scenario>(design)) return;
  if (nearest.replications > 0 && gap(nearest) >= 0.0) {  // it misses nothing but years to show it
    const std::uint64_t needed = std::max(least_replications(search.scenario, search.alive.size()), std::uint64_t{2} * nearest.replications);
    result.help.push_back(fmt::format("more replications: as far as it was played it reaches the target, and choose.most_replications = {} or more (now {}) may show it", needed,
                                      search.scenario.choose.most_replications));
    return;
  }
  for (const Remedy& remedy : remedies(std::get<Scenario>(design), search.request.random_seed, 64, search.request.stop, search.request.pieces)) {
    if (result.help.size() < most_remedies) result.help.push_back(remedy_words(remedy, search.scenario.currency, whole_years(search.scenario)));
  }
  if (result.help.empty() && (search.request.stop == nullptr || !search.request.stop->load()))
    result.help.emplace_back("nothing that was tried brings the target nearer: neither trays, places, tiers, buckets, minutes, more grain on a tray, other days on the rack, a shorter soak, "
                             "a heater, insulation, somebody who stands in, nor a larger store, one by one or two at once");
}

void find_thrift(Search& search) {
  SizeResult& result = search.result;
  if (result.chosen < 0 || result.stopped || std::find(result.keys.begin(), result.keys.end(), "line.sow") != result.keys.end()) return;
  const auto design = design_of(search.scenario, result.candidates[static_cast<std::size_t>(result.chosen)].values);
  if (const auto* chosen = std::get_if<Scenario>(&design))
    result.thrift = thrift_words(*chosen, search.request.random_seed, 48, search.request.stop, search.request.pieces);
}

void find_runway(Search& search) {
  SizeResult& result = search.result;
  if (result.chosen < 0 || result.stopped || !grows(search.scenario) || search.scenario.choose.look_ahead.value() < 24.0)
    return;
  const auto scenario_at = [&](int i) {
    return std::get<Scenario>(design_of(search.scenario, result.candidates[static_cast<std::size_t>(i)].values));
  };
  std::vector<int> order;
  for (const std::size_t i : search.alive) {
    const Candidate& c = result.candidates[i];
    if (static_cast<int>(i) != result.chosen && c.replications > 0 && c.verdict != Verdict::fails)
      order.push_back(static_cast<int>(i));
  }
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return result.candidates[static_cast<std::size_t>(a)].cost_year.mean < result.candidates[static_cast<std::size_t>(b)].cost_year.mean;
  });
  std::vector<std::pair<std::string, Scenario>> others;
  others.reserve(order.size());
  for (const int i : order)
    others.emplace_back(design_words(result.keys, result.candidates[static_cast<std::size_t>(i)].values), scenario_at(i));
  const Scenario chosen = scenario_at(result.chosen);
  RunwayRequest request{.random_seed = search.request.random_seed};
  request.threads = search.request.threads;
  request.stop = search.request.stop;
  request.memory = search.request.pieces;
  result.runway = runway(chosen, others, request);
  if (result.runway.look_ahead > 0) result.runway_words = runway_words(result.runway, chosen);
}

}  // namespace

void play_frontier(Search& search) {
  if (!search.result.stopped && search.request.advice) play_on(search, curve_of(search));
}

void advise(Search& search) {
  find_frontier(search);
  if (!search.request.advice) return;
  find_help(search);
  find_thrift(search);
  find_runway(search);
}

}  // namespace rackwright::study
