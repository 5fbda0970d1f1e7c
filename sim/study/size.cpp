#include "sim/study/size.hpp"

#include <algorithm>
#include <variant>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/scenario/build.hpp"
#include "sim/study/design_runs.hpp"
#include "sim/study/size_search.hpp"
#include "sim/study/threads.hpp"
#include "sim/study/year_memory.hpp"

namespace rackwright::study {
namespace {

std::string problem_words(const Problems& problems) {
  std::string words;
  for (const Problem& problem : problems) {
    words += fmt::format("{}{}: {}", words.empty() ? "" : "; ", problem.key, problem.why);
  }
  return words;
}

/// A margin says nothing where every batch gets all its trays: which design this one then is, if it is one listed before.
std::string twin_words(const Scenario& scenario, const std::vector<std::string>& values, const Scenario& design) {
  const auto& choices = scenario.choose.choices;
  const auto margin = std::find_if(choices.begin(), choices.end(), [](const Choice& choice) { return choice.key == "line.margin"; });
  if (design.line.sow != SowRule::all || margin == choices.end() || values[static_cast<std::size_t>(margin - choices.begin())] == margin->values.front()) return "";
  return fmt::format("the same design as with line.margin = {}, since every batch gets all its trays", margin->values.front());
}

/// Why arithmetic rules a design out, and what it takes to build where it is a sound scenario.
struct Drawn { Screen screen; std::optional<double> capital{}; };

Drawn drawn(const Scenario& scenario, const std::vector<std::string>& values) {
  const auto design = design_of(scenario, values);
  if (const auto* problems = std::get_if<Problems>(&design)) return {{problem_words(*problems), 0.0}};
  const auto& sound = std::get<Scenario>(design);
  const double capital = capital_of(sound).value();
  if (std::string twin = twin_words(scenario, values, sound); !twin.empty()) return {{std::move(twin), 0.0}, capital};
  return {screen_margin(sound), capital};
}

void screen_all(Search& search) {
  auto& candidates = search.result.candidates;
  search.margins.assign(candidates.size(), 0.0);
  work_in_order<Drawn>(
      candidates.size(), search.request.threads, search.request.stop,
      [&](int) { return [&](std::size_t i) { return drawn(search.scenario, candidates[i].values); }; },
      [&](std::size_t i, Drawn design) {
        Screen& screened = design.screen;
        candidates[i].capital = design.capital;
        search.margins[i] = screened.reached;
        if (screened.why.empty()) {
          search.alive.push_back(i);
          search.values.push_back(candidates[i].values);
        } else {
          candidates[i].verdict = Verdict::screened;
          candidates[i].why = std::move(screened.why);
        }
        if (search.request.progress) search.request.progress("screen", i + 1, candidates.size());
      });
  search.tallies.resize(search.alive.size());
  search.years.resize(search.alive.size());
  search.faults.resize(search.alive.size());
}

// Runs one round of work; false when stopped.
bool simulate(Search& search, Elimination& choice, const std::vector<Elimination::Work>& work) {
  std::size_t asked = 0, done = 0;
  for (const auto& each : work) asked += each.count;
  const std::string stage = fmt::format("{} {}, year {} to {}", work.size(), work.size() == 1 ? "design" : "designs",
                                        work.front().first + 1, work.front().first + work.front().count);
  return run_or_recall(search.scenario, search.values, work, search.request, [&](const DesignYears& years) {
    const std::size_t d = years.design;
    if (!years.fault.empty() && search.faults[d].empty()) {
      search.faults[d] = years.fault;
      choice.drop(d);
    }
    for (const Outcome& outcome : years.outcomes) {
      if (!search.faults[d].empty()) break;
      const auto given = search.keep(d, outcome);
      choice.record(d, given, outcome.cost_total * 365.0 / outcome.days);
    }
    search.result.replications += years.outcomes.size();
    done += years.outcomes.size();
    if (search.request.progress) search.request.progress(stage, done, asked);
  });
}

ChoiceRules rules_of(const Scenario& scenario, std::uint32_t first_stage) {
  const Target& target = scenario.target;
  return {.requirements = requirements(target), .confidence = target.confidence, .indifference = scenario.choose.indifference, .first_stage = first_stage,
          .most = static_cast<std::uint32_t>(scenario.choose.most_replications)};
}

// The promise as it stands at the end of a search.
std::string promise_words(const SizeResult& result, const Scenario& scenario, std::size_t designs) {
  const double sure = 100.0 * scenario.target.confidence, apart = 100.0 * scenario.choose.indifference;
  if (result.chosen < 0 && result.settled)
    return fmt::format("as far as luck goes, with at least {:.4g} % confidence no design of the grid (those listed under [choose]) meets the target", sure);
  if (result.chosen < 0) {
    const std::string few = too_few_words(scenario, designs);
    return "no promise: " + (few.empty() ? "the search ended before it was clear" : few);
  }
  std::string meets = fmt::format("as far as luck goes, with at least {:.4g} % confidence the recommended design meets the target", sure);
  if (scenario.target.mean_fill_rate || scenario.target.mean_yearly_cost) {
    // A t bound knows nothing of years rarer than those played; none of n is what 5 % of n draws of that share show.
    const std::uint32_t played = result.candidates[static_cast<std::size_t>(result.chosen)].replications;
    meets += fmt::format(" (what it asks of a mean: unless years worse than any of the {} played come more often than one in {:.0f})", played,
                         1.0 / -std::expm1(std::log(0.05) / std::max(1U, played)));
  }
  return result.settled ? fmt::format("{}, and no design of the grid (those listed under [choose]) that meets it is cheaper by more than {:.3g} %", meets, apart)
                        : meets + "; that none of those left undecided is cheaper is not promised";
}

// Every design played as often as the closest contest asked for.
std::uint64_t equal_allocation(const Elimination& choice) {
  std::uint64_t most = 0, played = 0;
  for (std::size_t d = 0; d < choice.designs(); ++d) {
    played += choice.years(d) > 0;
    most = std::max<std::uint64_t>(most, choice.years(d));
  }
  return most * played;
}

}  // namespace

std::uint64_t least_replications(const Scenario& scenario, std::size_t designs) { return least_years(rules_of(scenario, SizeRequest{}.first_stage), designs); }

std::string too_few_words(const Scenario& scenario, std::size_t designs) {
  const std::uint64_t needed = least_replications(scenario, designs);
  if (designs == 0 || needed <= static_cast<std::uint64_t>(scenario.choose.most_replications)) return "";
  return fmt::format("with {} replications of a design at most (choose.most_replications) not even one that meets the target in all of them can be shown to meet it; {} or more are needed",
                     scenario.choose.most_replications, needed);
}

std::vector<double> Search::keep(std::size_t design, const Outcome& outcome) {
  const double scale = outcome.days > 0.0 ? 365.0 / outcome.days : 0.0;
  years[design].cost.push_back(outcome.cost_total * scale);
  years[design].fill_rate.push_back(outcome.fill_rate);
  years[design].short_days.push_back(outcome.short_days * scale);
  return tallies[design].add(outcome, scenario.target);
}

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

  Elimination choice(search.alive.size(), rules_of(scenario, request.first_stage));
  const auto stopped = [&] { return request.stop != nullptr && request.stop->load(); };
  result.stopped = stopped();
  while (!result.stopped) {
    const auto work = choice.next();
    if (work.empty()) break;
    result.stopped = !simulate(search, choice, work);
  }
  result.settled = choice.settled() && !result.stopped;
  if (choice.best()) result.chosen = static_cast<int>(search.alive[*choice.best()]);
  result.equal_allocation = equal_allocation(choice);
  play_frontier(search);
  judge_all(search, choice);
  result.promise = promise_words(result, scenario, search.alive.size());
  if (result.chosen < 0) find_nearest(search);
  find_runners_up(search);
  find_binding(search);
  advise(search);
  return result;
}

}  // namespace rackwright::study
