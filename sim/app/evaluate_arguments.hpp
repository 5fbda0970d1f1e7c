#pragma once
// key=value words of `evaluate` turned into the Arguments a model takes.

#include <string>
#include <string_view>
#include <vector>

#include "sim/app/evaluate.hpp"
#include "sim/scenario/problem.hpp"

namespace rackwright::app {

/// Reads `words` for a model: any unit of the right dimension, bare numbers in the native unit, missing keys from their
/// standards, ranges enforced. Every complaint is added to `problems`; the result is to be used only when there is
/// none.
Arguments read_arguments(const Evaluator& model, const std::vector<std::string>& words, Problems& problems);

/// The model of that name, or nullptr.
const Evaluator* find_evaluator(std::string_view name);

}  // namespace rackwright::app
