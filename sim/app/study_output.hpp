#pragma once
// The output of a study that can be stopped and resumed: what stands there already, and the parts beside it.

#include <functional>
#include <memory>
#include <string>

#include "sim/app/options.hpp"
#include "sim/results/parts.hpp"
#include "sim/results/result_file.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::app {

/// A study, as the parts of it are marked: everything that decides its results, and nothing else.
struct StudyMark {
  std::uint64_t number = 0;
  [[nodiscard]] std::string text() const;  ///< as in /scenario/mark
};
/// `more`: what decides the results besides the scenario.
StudyMark mark_study(const std::string& kind, const Scenario& scenario, const std::string& more = "");

/// Parts of the output as the options ask for them. Nothing when --resume finds this very study finished: what is left
/// of its parts is then removed. Throws WriteFault; see results::Parts.
std::unique_ptr<results::Parts> open_parts(const Options& options, const std::string& out, const StudyMark& mark,
                                           const std::function<bool(const results::ResultFile&)>& complete);

/// Ends the file of a study. Where its name was taken meanwhile and it is put beside it, a `whole` one needs its parts no
/// longer. Throws WriteFault.
void finish_file(results::Writer& writer, const results::Arrays& arrays, results::Parts& parts, bool whole);

/// Tells, on the way out after an error or a stop, that finished work is kept and how to go on; silent without parts.
void tell_resume(const Options& options, results::Parts& parts);

}  // namespace rackwright::app
