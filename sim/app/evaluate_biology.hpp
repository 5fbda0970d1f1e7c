#pragma once
// The parts of the biology list that live in files of their own, and what they share.

#include <string>
#include <string_view>

#include "sim/app/evaluate.hpp"

namespace rackwright::app {

Evaluator viability_evaluator();
Evaluator soak_evaluator();
Evaluator germination_evaluator();
Evaluator mould_growth_evaluator();
Evaluator mat_evaluator();
Evaluator test_tolerance_evaluator();
Evaluator germination_trial_evaluator();
Evaluator grade_evaluator();
Evaluator lot_rule_evaluator();
Evaluator grain_mass_evaluator();

/// The species argument that all of them take.
Argument species_argument();

/// A number with a unit, a value when not given (empty: must be given) and a range.
Argument quantity(std::string_view name, std::string_view unit, std::string_view standard, double least, double most,
                  std::string_view sentence);

/// One key=value that is a count.
Argument count(std::string_view name, std::string_view standard, double least, double most, std::string_view sentence);

/// Refuses with "no species is called X; known are ...".
[[noreturn]] void refuse_species(const std::string& name);

/// The preset for the species named, or BadArguments with the known names.
template <class Preset>
auto preset_of(const Arguments& given, Preset&& preset) {
  const std::string& name = given.word("species");
  const auto found = preset(std::string_view(name));
  if (!found) refuse_species(name);
  return *found;
}

}  // namespace rackwright::app
