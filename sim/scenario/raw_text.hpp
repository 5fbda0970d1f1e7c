#pragma once
// Looking at a text before the parser does, and showing pieces of it safely.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/problem.hpp"

namespace rackwright {

/// Why a text is no scenario before any parsing: too large, not text, or a name outside quotes with letters beyond
/// plain ASCII (TOML allows those in quotes and comments only).
std::optional<Problem> text_problem(std::string_view text);

/// Bytes of the control character that stands at `at`, 0 when none does: those of ASCII, the second set (U+0080 to U+009F), and the marks
/// and overrides of writing direction, which change what a terminal or a page shows of the text around them.
std::size_t control_at(std::string_view text, std::size_t at);
/// Is there any?
bool has_control(std::string_view text);

/// About `most` bytes on one line, control characters shown as '?'; a cut never splits a letter.
std::string one_line(std::string_view text, std::size_t most = 80);
/// The same of a text of any length that may have lines.
std::string harmless(std::string_view text);
/// "a", "a and b", "a, b and c"; empty for none.
std::string listed(const std::vector<std::string>& words);

}  // namespace rackwright
