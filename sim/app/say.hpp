#pragma once
// How the program words things to people: complaints, and talk that --quiet silences.

#include <cstdio>
#include <string>
#include <string_view>
#include <utility>

#include <fmt/core.h>

#include "sim/scenario/problem.hpp"

namespace rackwright::app {

/// " (did you mean NAME?)", or nothing when there is no name.
std::string did_you_mean(std::string_view name);

/// One line a problem: `where:12: line.soak = "3 kg": why (did you mean ...?)`.
std::string problems_text(std::string_view where, const Problems& problems);

/// Text to standard error. What cannot be written there is lost, and nothing else with it: a full disk under a log must not cost a result.
template <class... Values>
void message(fmt::format_string<Values...> text, Values&&... values) {
  const std::string all = fmt::format(text, std::forward<Values>(values)...);
  static_cast<void>(std::fwrite(all.data(), 1, all.size(), stderr));
}

/// A line of talk on standard error, unless quiet; control characters, as a name of a file may hold, are shown as '?'.
void talk(bool quiet, std::string_view line);

}  // namespace rackwright::app
