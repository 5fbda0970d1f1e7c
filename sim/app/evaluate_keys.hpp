#pragma once
// Models that take keys of the scenario: their units, ranges and defaults are those of the key table.

#include <string_view>
#include <vector>

#include "sim/app/evaluate.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

/// The numbers of that section, each an argument named without the section; every one must be a key.
std::vector<Argument> key_arguments(std::string_view section, const std::vector<std::string_view>& names);

/// A scenario of defaults with those of them that are given.
void set_given(Scenario& scenario, const Arguments& in, std::string_view section, const std::vector<std::string_view>& names);

}  // namespace rackwright::app
