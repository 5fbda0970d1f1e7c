#pragma once
// Models that take keys of the scenario: their units, ranges and defaults are those of the key table.

#include <string_view>
#include <vector>

#include "sim/app/evaluate.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

/// The key of that whole name as an argument named without its section; it must be a number. `standard` is kept by reference.
Argument key_argument(std::string_view whole, std::string_view standard);

/// The numbers of that section likewise, with the standards of the key table.
std::vector<Argument> key_arguments(std::string_view section, const std::vector<std::string_view>& names);

/// Sets those of them that are given.
void set_given(Scenario& scenario, const Arguments& in, std::string_view section, const std::vector<std::string_view>& names);

}  // namespace rackwright::app
