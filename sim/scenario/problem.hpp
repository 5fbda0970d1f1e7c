#pragma once
// What is wrong with somebody's input. Collected, never thrown one by one.

#include <string>
#include <vector>

namespace rackwright {

/// One complaint about an input: where, what, why, and what might have been meant.
struct Problem {
  int line = 0;            ///< 1-based line of the file; 0 where there is none
  std::string key;         ///< dotted name, e.g. "rack.tiers"
  std::string value;       ///< as written
  std::string why;         ///< one sentence, with the allowed range or dimension
  std::string suggestion;  ///< nearest known name or a good example; may be empty
  bool typed = false;      ///< of a setting given beside the file, so that the file is not where to look

  friend bool operator==(const Problem&, const Problem&) = default;
};

using Problems = std::vector<Problem>;

}  // namespace rackwright
