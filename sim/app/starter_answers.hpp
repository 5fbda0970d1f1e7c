#pragma once
// Reading what people answer to the questions of `rackwright new`.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "sim/app/options.hpp"
#include "sim/app/starter.hpp"

namespace rackwright::app {

/// One question: asked at a terminal, or answered by an option of the same name.
struct Question {
  Option option;
  std::string_view asks;
  std::string (*standing)(const Starter&);                                  ///< what Enter stands for
  std::optional<std::string> (*take)(Starter&, const std::string& answer);  ///< gives what is wrong with the answer
};
/// Takes an answer, or says what is wrong with it: of a decimal comma, the same with a point.
std::optional<std::string> take_answer(const Question& question, Starter& farm, const std::string& answer);

/// Eight of them, in the order in which one would be asked.
std::span<const Question> questions();

}  // namespace rackwright::app
