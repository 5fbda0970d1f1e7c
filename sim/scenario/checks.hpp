#pragma once
// Parts of check_scenario, one a file. Each adds what it finds.

#include <string>
#include <string_view>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::checks {

void herd(const Scenario& scenario, Problems& out);
void rations(const Scenario& scenario, Problems& out);  ///< that nobody can eat; for a scenario that is sound otherwise
void grain(const Scenario& scenario, Problems& out);
void lots(const Scenario& scenario, Problems& out);    ///< short seasons, trials
void species(const Scenario& scenario, Problems& out);
void barn(const Scenario& scenario, Problems& out);   ///< run, room, keeper, spoilage
void water(const Scenario& scenario, Problems& out);
void choose(const Scenario& scenario, Problems& out);
void hard_times(const Scenario& scenario, Problems& out);
void kits(const Scenario& scenario, Problems& out);

/// Most designs a choice grid may hold.
constexpr double most_designs = 200000.0;

/// Whether this is a species with a preset or one of the scenario's own.
bool knows_species(const Scenario& scenario, const std::string& name);

/// A value as this keeper reads it: in the scenario's units, six digits.
std::string told(const Scenario& scenario, double value, std::string_view unit);

inline void complain(Problems& out, std::string key, std::string value, std::string why, std::string suggestion = "") {
  out.push_back(Problem{0, std::move(key), std::move(value), std::move(why), std::move(suggestion)});
}

}  // namespace rackwright::checks
