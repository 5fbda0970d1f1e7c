#pragma once
// Rounded statements of the models, a line each: what is said now against what was said when somebody last looked. A line may change when
// its parameter or equation is changed on purpose; the commit then says which and why.

#include <cstdio>
#include <cstdlib>
#include <initializer_list>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include "tests/catch.hpp"

namespace rackwright::test {

class Statements {
 public:
  /// Five significant digits each.
  void say(const std::string& what, std::initializer_list<double> values) { say(what, std::vector<double>(values)); }
  void say(const std::string& what, const std::vector<double>& values) {
    std::string line = what + ":";
    for (const double value : values) {
      char text[40];
      std::snprintf(text, sizeof text, " %.5g", value == 0.0 ? 0.0 : value);
      line += text;
    }
    lines_.push_back(line);
  }
  void say(const std::string& what, std::string_view word) { lines_.push_back(what + ": " + std::string(word)); }

  /// One check a line, and one of how many there are; a mismatch shows the line to look at. RACKWRIGHT_STATEMENTS=1 prints all that is said now.
  void compare(const std::string& expected) const {
    if (std::getenv("RACKWRIGHT_STATEMENTS") != nullptr)
      for (const std::string& line : lines_) std::printf("%s\n", line.c_str());
    std::vector<std::string> before;
    std::istringstream text(expected);
    for (std::string line; std::getline(text, line);)
      if (!line.empty()) before.push_back(line);
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      INFO("line " << i + 1);
      CHECK(lines_[i] == (i < before.size() ? before[i] : std::string("(nothing)")));
    }
    CHECK(lines_.size() == before.size());
  }

 private:
  std::vector<std::string> lines_;
};

}  // namespace rackwright::test
