#pragma once
// Commands that a report proposes, whole, so that they run as they stand.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace rackwright::report {

/// What a command that was typed says of the farm: its scenario's path and every --set, as they were typed; "FARM.toml" where no scenario is named.
/// A --set of a key of `design` is left out, and the design's own values are set instead.
std::string farm_words(std::string_view command_line, const std::vector<std::pair<std::string, std::string>>& design = {});

/// `rackwright simulate FARM.toml --against "CHANGE" --out against.h5` between backquotes, which wrapped() does not break; never onto the file that
/// the command that was typed writes.
std::string compare_command(std::string_view command_line, std::string_view change, const std::vector<std::pair<std::string, std::string>>& design = {});

/// Cautions know no path: the commands that they propose for FARM.toml, for the farm of the command that was typed.
std::vector<std::string> with_farm(std::vector<std::string> cautions, std::string_view command_line, const std::vector<std::pair<std::string, std::string>>& design = {});

}  // namespace rackwright::report
