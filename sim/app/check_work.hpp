#pragma once
// What `check` says of work: does each round fit its minutes, and what do a few plays say is lacking?

#include <string>
#include <vector>

#include "sim/app/check_facts.hpp"
#include "sim/replication/plan.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::app {

/// The planned work of the day's rounds and what the keeper has for them.
struct RoundWork {
  std::string name;       ///< "day", or "morning" and "evening" where the keeper's minutes are told apart
  double minutes = 0.0;   ///< planned
  double has = 0.0;
  double most_trays = 0.0;  ///< a day, with which the minutes are just enough
};

/// One row for the day, or one for each round where keeper.evening_minutes states them apart.
std::vector<RoundWork> rounds_of(const Plan& plan);

Section work_facts(const Plan& plan);

/// Rounds with more work than minutes, days of the plays on which work was left undone, and soaks that are cut short for want of buckets.
std::vector<std::string> work_cautions(const Plan& plan, const study::Summary& played);

/// Where less is served than is asked for: too few trays for what is wanted, by arithmetic; what a few plays say is lost on the way, worst first; and
/// what to do about it. `served`: share of what is wanted; `wanted`: kilograms a day. Plays from random_seed of the scenario.
std::string lacking_words(const Plan& plan, double served, double wanted);

/// That far more is grown than is wanted on a day (`wanted` [kg]); empty where it is not.
std::string surplus_words(const Plan& plan, double wanted);

}  // namespace rackwright::app
