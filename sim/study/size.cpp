#include "sim/study/size.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <variant>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/study/design_runs.hpp"
#include "sim/study/elimination.hpp"
#include "sim/study/tally.hpp"
#include "sim/study/threads.hpp"
#include "sim/study/verdict_words.hpp"

namespace rackwright::study {
namespace {

/// The candidates that arithmetic leaves, and all that is learnt of them.
struct Search {
  const Scenario& scenario;
  const SizeRequest& request;
  SizeResult& result;
  std::vector<std::size_t> alive{};                      ///< candidate index by design number
  std::vector<std::vector<std::string>> values{};        ///< by design number
  std::vector<Tally> tallies{};
  std::vector<std::string> faults{};
};

std::string problem_words(const Problems& problems) {
  std::string words;
  for (const Problem& problem : problems) {
    words += fmt::format("{}{}: {}", words.empty() ? "" : "; ", problem.key, problem.why);
  }
  return words;
}

std::string why_impossible(const Scenario& scenario, const std::vector<std::string>& values) {
  const auto design = design_of(scenario, values);
  if (const auto* problems = std::get_if<Problems>(&design)) return problem_words(*problems);
  return screen(std::get<Scenario>(design));
}

void screen_all(Search& search) {
  auto& candidates = search.result.candidates;
  work_in_order<std::string>(
      candidates.size(), search.request.threads, search.request.stop,
      [&](int) { return [&](std::size_t i) { return why_impossible(search.scenario, candidates[i].values); }; },
      [&](std::size_t i, std::string why) {
        if (why.empty()) {
          search.alive.push_back(i);
          search.values.push_back(candidates[i].values);
        } else {
          candidates[i].verdict = Verdict::screened;
          candidates[i].why = std::move(why);
        }
        if (search.request.progress) search.request.progress("screen", i + 1, candidates.size());
      });
  search.tallies.resize(search.alive.size());
  search.faults.resize(search.alive.size());
}

// Runs one round of work; false when stopped.
bool simulate(Search& search, Elimination& choice, const std::vector<Elimination::Work>& work) {
  std::size_t asked = 0, done = 0;
  for (const auto& each : work) asked += each.count;
  const std::string stage = fmt::format("{} {}, year {} to {}", work.size(), work.size() == 1 ? "design" : "designs",
                                        work.front().first + 1, work.front().first + work.front().count);
  return run_designs(search.scenario, search.values, work, search.request, [&](const DesignYears& years) {
    const std::size_t d = years.design;
    if (!years.fault.empty() && search.faults[d].empty()) {
      search.faults[d] = years.fault;
      choice.drop(d);
    }
    for (const Outcome& outcome : years.outcomes) {
      if (!search.faults[d].empty()) break;
      const bool success = search.tallies[d].add(outcome, search.scenario.target);
      choice.record(d, success, outcome.cost_total * 365.0 / outcome.days);
    }
    search.result.replications += years.outcomes.size();
    done += years.outcomes.size();
    if (search.request.progress) search.request.progress(stage, done, asked);
  });
}

bool whole_years(const Scenario& scenario) { return in_days(scenario.run.length) >= 365.0; }

std::string why_open(const Search& search, const Elimination& choice, std::size_t d, const Candidate& candidate) {
  if (!search.faults[d].empty()) return "could not be simulated: " + search.faults[d];
  if (candidate.replications == 0) return "not simulated: the search was stopped before";
  const std::string met = fmt::format("meets the target in {}", share_words(candidate));
  if (search.result.stopped) return met + "; the search was stopped before it was clear";
  if (!choice.best()) return met + ", too close to the limit to tell";
  const std::string difference = difference_words(choice.cost_difference(d, *choice.best()), search.scenario.currency);
  if (choice.rival(d)) return fmt::format("{}, too close to the limit to tell; {}", met, difference);
  return fmt::format("{}; {}, not followed further because it cannot be cheaper by more than {:.3g} %", met, difference,
                     100.0 * search.scenario.choose.indifference);
}

// Verdict and sentence of one simulated design.
void judge(const Search& search, const Elimination& choice, std::size_t d, Candidate& candidate) {
  search.tallies[d].describe(candidate);
  const std::string& currency = search.scenario.currency;
  const Standing standing = choice.standing(d);
  if (choice.best() == d) {
    candidate.verdict = Verdict::chosen;
    candidate.why = fmt::format("{} {} and costs {}", choice.settled() ? "the cheapest that meets the target, in" :
                                "the cheapest shown to meet the target, in", share_words(candidate),
                                money_words(candidate.cost_year.mean, currency));
  } else if (standing == Standing::meets) {
    candidate.verdict = Verdict::meets;
    candidate.why = fmt::format("meets the target in {}; {}, too little to matter or to tell", share_words(candidate),
                                difference_words(choice.cost_difference(d, *choice.best()), currency));
  } else if (standing == Standing::costlier) {
    candidate.verdict = Verdict::costlier;
    candidate.why = difference_words(choice.cost_difference(d, *choice.best()), currency);
  } else if (standing == Standing::fails) {
    candidate.verdict = Verdict::fails;
    candidate.why = failure_words(candidate, whole_years(search.scenario));
  } else {
    candidate.verdict = Verdict::undecided;
    candidate.why = why_open(search, choice, d, candidate);
  }
}

bool cheaper(const Candidate& a, const Candidate& b) { return a.cost_year.mean < b.cost_year.mean; }

// Fails by less.
bool nearer(const Candidate& a, const Candidate& b) {
  if (a.success.mean != b.success.mean) return a.success.mean > b.success.mean;
  if (a.fill_rate.mean != b.fill_rate.mean) return a.fill_rate.mean > b.fill_rate.mean;
  return cheaper(a, b);
}

void find_nearest(Search& search) {
  const auto& candidates = search.result.candidates;
  for (const std::size_t i : search.alive) {
    if (candidates[i].replications == 0) continue;
    const int best = search.result.nearest;
    if (best < 0 || nearer(candidates[i], candidates[static_cast<std::size_t>(best)])) {
      search.result.nearest = static_cast<int>(i);
    }
  }
}

void find_runners_up(Search& search) {
  constexpr double nearly = 0.15;  // below the share of years asked
  constexpr std::size_t most = 5;
  const auto& candidates = search.result.candidates;
  auto& runners = search.result.runners_up;
  for (const std::size_t i : search.alive) {
    const bool named = static_cast<int>(i) == search.result.chosen || static_cast<int>(i) == search.result.nearest;
    if (named || candidates[i].replications == 0) continue;
    if (candidates[i].success.mean >= search.scenario.target.years - nearly) runners.push_back(static_cast<int>(i));
  }
  std::stable_sort(runners.begin(), runners.end(), [&](int a, int b) {
    return cheaper(candidates[static_cast<std::size_t>(a)], candidates[static_cast<std::size_t>(b)]);
  });
  if (runners.size() > most) runners.resize(most);
}

std::string binding_words(const Search& search, const Candidate& candidate) {
  return fmt::format("{}, {}", design_words(search.result.keys, candidate.values),
                     failure_words(candidate, whole_years(search.scenario)));
}

// What stands in the way of a cheaper design: told of the one that fails by least among those cheaper than the chosen.
void find_binding(Search& search) {
  SizeResult& result = search.result;
  if (result.chosen < 0) {
    if (result.nearest >= 0) {
      const Candidate& nearest = result.candidates[static_cast<std::size_t>(result.nearest)];
      result.binding = "the nearest, " + binding_words(search, nearest);
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
    result.binding = "no cheaper design of the grid fails the target: cost alone decides";
  }
}

}  // namespace

std::vector<std::vector<std::string>> grid(const Choose& choose) {
  std::vector<std::vector<std::string>> rows{{}};
  for (const Choice& choice : choose.choices) {
    std::vector<std::vector<std::string>> longer;
    longer.reserve(rows.size() * choice.values.size());
    for (const auto& row : rows) {
      for (const std::string& value : choice.values) {
        longer.push_back(row);
        longer.back().push_back(value);
      }
    }
    rows = std::move(longer);
  }
  return rows;
}

SizeResult size(const Scenario& scenario, const SizeRequest& request) {
  SizeResult result;
  for (const Choice& choice : scenario.choose.choices) result.keys.push_back(choice.key);
  for (auto& values : grid(scenario.choose)) result.candidates.push_back({.values = std::move(values)});
  Search search{scenario, request, result};
  screen_all(search);

  const Target& target = scenario.target;
  const ChoiceRules rules{.requirements = {{Requirement::Kind::share, target.years}}, .confidence = target.confidence,
                          .indifference = scenario.choose.indifference, .first_stage = request.first_stage,
                          .most = static_cast<std::uint32_t>(scenario.choose.most_replications)};
  Elimination choice(search.alive.size(), rules);
  const auto stopped = [&] { return request.stop != nullptr && request.stop->load(); };
  result.stopped = stopped();
  while (!result.stopped) {
    const auto work = choice.next();
    if (work.empty()) break;
    result.stopped = !simulate(search, choice, work);
  }
  result.settled = choice.settled() && !result.stopped;
  if (choice.best()) result.chosen = static_cast<int>(search.alive[*choice.best()]);
  for (std::size_t d = 0; d < search.alive.size(); ++d) judge(search, choice, d, result.candidates[search.alive[d]]);
  for (Candidate& candidate : result.candidates) {
    if (candidate.verdict != Verdict::undecided || !candidate.why.empty()) continue;
    candidate.why = "not looked at: the search was stopped before";
  }
  if (result.chosen < 0) find_nearest(search);
  find_runners_up(search);
  find_binding(search);
  return result;
}

}  // namespace rackwright::study
