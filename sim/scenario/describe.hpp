#pragma once
// The reference page of the scenario file, made from the key table.

#include <string>

namespace rackwright {

/// Markdown: every section and list with its keys, units, defaults, ranges, meanings and sources.
std::string describe_scenario();

}  // namespace rackwright
