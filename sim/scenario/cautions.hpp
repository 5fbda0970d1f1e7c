#pragma once
// What a keeper must be warned of. Warnings only: nothing here stops a run.

#include <string>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// The cautions that apply to this scenario, gravest first; one or two sentences each. The scenario has passed
/// check_scenario.
std::vector<std::string> cautions(const Scenario& scenario);

/// That every run is played with the scenario's spells and hard times that fall into it, by name; empty where none does.
std::string laid_words(const Scenario& scenario);

}  // namespace rackwright
