#pragma once
// What sizing keeps of the years of one design: a few sums, however many years.

#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/kept.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/size.hpp"

namespace rackwright::study {

/// Moments for 365 days of each quantity a Candidate shows.
struct Tally {
  Moments fill_rate{}, cost_year{}, short_days{}, spoiled_trays{}, overdue_trays{}, labour{};
  std::uint64_t years = 0, successes = 0, faultless = 0;  ///< faultless: broke no limit at all
  std::array<double, 4> short_seasons{};           ///< short days
  Keeping keeping{};                               ///< by requirement
  std::map<std::string, std::uint64_t> broken{};   ///< limit -> failed years that broke it

  /// Adds a year; returns what it gave for each requirement.
  std::vector<double> add(const Outcome& outcome, const Target& target);
  /// Fills the numbers of a candidate.
  void describe(Candidate& candidate, const Target& target) const;
};

}  // namespace rackwright::study
