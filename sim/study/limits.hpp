#pragma once
// What a target asks, limit by limit: which limits a year broke, and what must hold of many years.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::study {

/// One thing a design must do: a share of years that succeed, or a mean, not below `least`.
struct Requirement {
  enum class Kind { share, mean };
  Kind kind = Kind::share;
  double least = 0.9;
};

/// A limit of the target, judged on one year (one replication, amounts for 365 days).
struct Limit {
  std::string_view name;     ///< in words
  std::string_view broken;   ///< what is said of a year that broke it
  bool service = false;      ///< does it speak of short feedings? Then the season of shortage is worth telling
  bool (*stated)(const Target&) = nullptr;
  bool (*breaks)(const Outcome&, const Target&) = nullptr;  ///< asked only when stated
  std::optional<double> Target::*years = nullptr;  ///< its own share of years; absent: it counts with the others
};
std::span<const Limit> limits();

/// Which stated limits a year broke, as words; empty when none.
std::vector<std::string> broken_limits(const Outcome& outcome, const Target& target);
/// Does a year count as a success? Every stated limit without a share of its own must hold.
bool succeeds(const Outcome& outcome, const Target& target);

/// Is any limit stated that has no share of its own?
bool asks_together(const Target& target);

/// What must hold of many years: all limits together in `years` of them; then each limit that has its own share; then the
/// means.
std::vector<Requirement> requirements(const Target& target);
/// What one year gives for each of them: 1 or 0 where a share is asked, else the value (a cost counts below zero).
std::vector<double> given_by(const Outcome& outcome, const Target& target);
/// Each in words: "the limits together", "spoiled mats fed", "mean fill rate".
std::vector<std::string> requirement_names(const Target& target);

}  // namespace rackwright::study
