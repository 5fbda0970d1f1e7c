#pragma once
// Looking at a text before the parser does, and showing pieces of it safely.

#include <optional>
#include <string>
#include <string_view>

#include "sim/scenario/problem.hpp"

namespace rackwright {

/// Why a text is no scenario before any parsing: too large, not text, or a name outside quotes with letters beyond
/// plain ASCII (TOML allows those in quotes and comments only).
std::optional<Problem> text_problem(std::string_view text);

/// At most 80 bytes on one line, control characters shown as '?'; a cut never splits a letter.
std::string one_line(std::string_view text);

}  // namespace rackwright
