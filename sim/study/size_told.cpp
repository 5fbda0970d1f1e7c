// What is told after the search: the nearest miss, the runners-up, what binds, the frontier, remedies, the runway.
#include <algorithm>
#include <cmath>
#include <variant>

#include <fmt/format.h>

#include "sim/study/design_runs.hpp"
#include "sim/study/remedy.hpp"
#include "sim/study/runway.hpp"
#include "sim/study/size_search.hpp"
#include "sim/study/verdict_words.hpp"

namespace rackwright::study {
namespace {

bool cheaper(const Candidate& a, const Candidate& b) { return a.cost_year.mean < b.cost_year.mean; }

// Fails by less.
bool nearer(const Candidate& a, const Candidate& b) {
  if (gap(a) != gap(b)) return gap(a) > gap(b);
  if (gap(a) >= 0.0) return cheaper(a, b);  // both seem to meet it
  if (a.fill_rate.mean != b.fill_rate.mean) return a.fill_rate.mean > b.fill_rate.mean;
  return cheaper(a, b);
}

std::string binding_words(const Search& search, const Candidate& candidate) {
  return fmt::format("{}, {}", design_words(search.result.keys, candidate.values),
                     failure_words(candidate, in_days(search.scenario.run.length)));
}

}  // namespace

void find_nearest(Search& search) {
  const auto& candidates = search.result.candidates;
  int& best = search.result.nearest;
  for (const std::size_t i : search.alive) {
    if (candidates[i].replications == 0) continue;
    if (best < 0 || nearer(candidates[i], candidates[static_cast<std::size_t>(best)])) best = static_cast<int>(i);
  }
  if (best >= 0 || !search.alive.empty()) return;
  double most = 0.0;  // arithmetic left none: the one it lets come nearest
  for (std::size_t i = 0; i < search.margins.size(); ++i) {
    if (search.margins[i] > most) most = search.margins[i], best = static_cast<int>(i);
  }
}

void find_runners_up(Search& search) {
  constexpr double nearly = 0.15;  // below what is asked
  constexpr std::size_t most = 5;
  const auto& candidates = search.result.candidates;
  auto& runners = search.result.runners_up;
  for (const std::size_t i : search.alive) {
    const bool named = static_cast<int>(i) == search.result.chosen || static_cast<int>(i) == search.result.nearest;
    if (named || candidates[i].replications == 0) continue;
    if (gap(candidates[i]) >= -nearly) runners.push_back(static_cast<int>(i));
  }
  std::stable_sort(runners.begin(), runners.end(), [&](int a, int b) {
    return cheaper(candidates[static_cast<std::size_t>(a)], candidates[static_cast<std::size_t>(b)]);
  });
  if (runners.size() > most) runners.resize(most);
}

// What stands in the way of a cheaper design: told of the one that fails by least among those cheaper than the chosen.
void find_binding(Search& search) {
  SizeResult& result = search.result;
  if (result.chosen < 0) {
    if (result.nearest >= 0) {
      const Candidate& nearest = result.candidates[static_cast<std::size_t>(result.nearest)];
      result.binding = nearest.replications == 0
                           ? fmt::format("the nearest, {}: {}", design_words(result.keys, nearest.values), nearest.why)
                           : (result.stopped ? "the best so far, " : "the nearest, ") + binding_words(search, nearest);
    }
    return;
  }
  const Candidate& chosen = result.candidates[static_cast<std::size_t>(result.chosen)];
  const Candidate* next = nullptr;
  for (const Candidate& candidate : result.candidates) {
    if (candidate.verdict != Verdict::fails || !cheaper(candidate, chosen)) continue;
    if (next == nullptr || nearer(candidate, *next)) next = &candidate;
  }
  if (next != nullptr) {
    result.binding = "the nearest cheaper, " + binding_words(search, *next);
  } else {
    const bool ruled_out = std::any_of(result.candidates.begin(), result.candidates.end(), [](const Candidate& c) { return c.verdict == Verdict::screened; });
    result.binding = ruled_out ? "of the designs that were played no cheaper one fails the target; what was ruled out by arithmetic may be what keeps a cheaper one out"
                               : "no cheaper design of those listed under [choose] fails the target: cost alone decides";
  }
}


}  // namespace rackwright::study
