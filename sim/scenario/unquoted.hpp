#pragma once
// What people write before they know TOML: quantities without quotes, a colon for an equals sign, an open bracket.

#include <string>
#include <string_view>

#include "sim/scenario/problem.hpp"

namespace rackwright {

/// A text looked at line by line: what is wrong in plain words, and the text with every such line mended or blanked
/// (same line numbers), so that the rest can still be read.
struct Mended {
  Problems problems{};
  std::string text{};
};

/// Finds lines that TOML cannot read and says how to write them. Long strings and lists over several lines are passed
/// over. Expects a text that `text_problem` found nothing in.
Mended mend_lines(std::string_view text);

}  // namespace rackwright
