#pragma once
// Inside sizing: the candidates that arithmetic leaves, all that is learnt of them, and what is told of it afterwards.

#include <string>
#include <vector>

#include "sim/study/elimination.hpp"
#include "sim/study/frontier.hpp"
#include "sim/study/size.hpp"
#include "sim/study/tally.hpp"

namespace rackwright::study {

struct Search {
  const Scenario& scenario;
  const SizeRequest& request;
  SizeResult& result;
  std::vector<std::size_t> alive{};                      ///< candidate index by design number
  std::vector<std::vector<std::string>> values{};        ///< by design number
  std::vector<Tally> tallies{};
  std::vector<YearValues> years{};
  std::vector<std::string> faults{};
  std::vector<double> margins{};                         ///< by candidate: how near arithmetic lets it come

  /// Keeps a year of a design; returns what it gave for each requirement.
  std::vector<double> keep(std::size_t design, const Outcome& outcome);
};

bool whole_years(const Scenario& scenario);

/// More years for the points of the frontier, so that what is told of them is not told from a few.
void play_frontier(Search& search);
/// Verdicts and their sentences, from what the choice knows; fills result.candidates.
void judge_all(const Search& search, const Elimination& choice);
/// The nearest miss (best so far), the runners-up, and what binds.
void find_nearest(Search& search);
void find_runners_up(Search& search);
void find_binding(Search& search);
/// The frontier, its knee and the steps up from the chosen design; remedies when nothing is chosen; the runway.
void advise(Search& search);

}  // namespace rackwright::study
