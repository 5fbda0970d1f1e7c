#pragma once
// What people write before they know TOML: quantities without quotes, a colon for an equals sign, an open bracket.

#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/problem.hpp"

namespace rackwright {

/// A text looked at line by line: what is wrong in plain words, and the text with every such line mended or blanked
/// (same line numbers), so that the rest can still be read.
struct Mended {
  Problems problems{};
  std::string text{};
};

/// Finds lines that TOML cannot read and says how to write them. Long strings and lists over several lines are passed
/// over. Expects a text that `text_problem` found nothing in. `lists`: tables that stand in double brackets; without, a scenario's.
Mended mend_lines(std::string_view text, const std::vector<std::string_view>* lists = nullptr);

/// "[group] must be [[group]], once for each group".
std::string list_heading_words(std::string_view list);

}  // namespace rackwright
