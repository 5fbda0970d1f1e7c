#pragma once
// A result file told in words for a terminal. Reads nothing but the file.

#include <string>

#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// The whole page, answer first; lines of at most 100 characters but for long names of the scenario.
/// Reads what results::Part::summary gives.
std::string terminal_text(const results::ResultFile& file);

}  // namespace rackwright::report
