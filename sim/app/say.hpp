#pragma once
// How the program words things to people: complaints, and talk that --quiet silences.

#include <string>
#include <string_view>

#include "sim/scenario/problem.hpp"

namespace rackwright::app {

/// " (did you mean NAME?)", or nothing when there is no name.
std::string did_you_mean(std::string_view name);

/// One line a problem: `where:12: line.soak = "3 kg": why (did you mean ...?)`.
std::string problems_text(std::string_view where, const Problems& problems);

/// A line of talk on standard error, unless quiet; control characters, as a name of a file may hold, are shown as '?'.
void talk(bool quiet, std::string_view line);

}  // namespace rackwright::app
