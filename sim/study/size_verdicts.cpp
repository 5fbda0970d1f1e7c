#include <fmt/format.h>

#include "sim/study/size_search.hpp"
#include "sim/study/verdict_words.hpp"

namespace rackwright::study {
namespace {

std::string why_open(const Search& search, const Elimination& choice, std::size_t d, const Candidate& candidate, const std::string& had) {
  if (!search.faults[d].empty()) return "could not be played: " + search.faults[d];
  if (candidate.replications == 0) return "not played: the search was stopped before";
  if (search.result.stopped) return had + "; the search was stopped before it was clear";
  if (!choice.best()) return had + ", too close to the limit to tell";
  const std::string difference = difference_words(choice.cost_difference(d, *choice.best()), search.scenario.currency);
  if (choice.rival(d)) return fmt::format("{}, too close to the limit to tell; {}", had, difference);
  return fmt::format("{}; {}, not followed further because it cannot be cheaper by more than {:.3g} %", had, difference,
                     100.0 * search.scenario.choose.indifference);
}

// Verdict and sentence of one simulated design.
void judge(const Search& search, const Elimination& choice, std::size_t d, Candidate& candidate) {
  search.tallies[d].describe(candidate, search.scenario.target);
  const std::string& currency = search.scenario.currency;
  const Standing standing = choice.standing(d);
  const double days = in_days(search.scenario.run.length);
  const std::string had = had_words(candidate, search.scenario.target, days);
  if (choice.best() == d) {
    candidate.verdict = Verdict::chosen;
    const bool more = candidate.kept.size() > 1;
    candidate.why = fmt::format("the cheapest {} the target{} {} and costs {}", choice.settled() ? "that meets" : "shown to meet", more ? ":" : ", in",
                                more ? had : share_words(candidate, days), money_words(candidate.cost_year.mean, currency));
  } else if (standing == Standing::meets) {
    candidate.verdict = Verdict::meets;
    candidate.why = fmt::format("{}; {}, too little to matter or to tell", had,
                                difference_words(choice.cost_difference(d, *choice.best()), currency));
  } else if (standing == Standing::costlier) {
    candidate.verdict = Verdict::costlier;
    candidate.why = difference_words(choice.cost_difference(d, *choice.best()), currency);
  } else if (standing == Standing::fails) {
    candidate.verdict = Verdict::fails;
    candidate.why = failure_words(candidate, days);
  } else {
    candidate.verdict = Verdict::undecided;
    candidate.why = why_open(search, choice, d, candidate, had);
  }
}

}  // namespace

bool whole_years(const Scenario& scenario) { return in_days(scenario.run.length) >= 365.0; }

void judge_all(const Search& search, const Elimination& choice) {
  auto& candidates = search.result.candidates;
  for (std::size_t d = 0; d < search.alive.size(); ++d) judge(search, choice, d, candidates[search.alive[d]]);
  for (Candidate& candidate : candidates) {
    if (candidate.verdict != Verdict::undecided || !candidate.why.empty()) continue;
    candidate.why = "not looked at: the search was stopped before";
  }
}

}  // namespace rackwright::study
