#pragma once
// How the program ends.

#include <string>
#include <utility>

namespace rackwright::app {

/// Exit codes, the same for every command.
enum Exit : int {
  good = 0,
  fault = 1,          ///< ours or the machine's: a bug, a full disk, a run that was stopped before its end
  bad_input = 2,      ///< nothing was written
  none_meets = 3,     ///< sizing: no design meets the target
};

/// Thrown by a command whose input is wrong; `text` is shown as it is and the program ends with bad_input.
class BadInput {
 public:
  explicit BadInput(std::string text) : text_(std::move(text)) {}
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
};

}  // namespace rackwright::app
