#pragma once
// What helps at a shell, made from the tables of commands and options: examples, completion, a manual page.

#include <span>
#include <string>
#include <string_view>

#include "sim/app/commands.hpp"

namespace rackwright::app {

struct Example { std::string_view line, meaning; };
/// Examples of a command, for its --help and the manual page; may be none.
std::span<const Example> examples(std::string_view command);

/// Completion for bash and zsh: commands, their options, files, models, pages and kinds.
std::string bash_completion();
std::string zsh_completion();

/// The manual page, in the man macros.
std::string manual_page();

}  // namespace rackwright::app
