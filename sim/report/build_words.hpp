#pragma once
// What it takes to build a design, in words.

#include <string>
#include <string_view>

#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// What stands behind a part's cost: "EUR, 22 at 9", "EUR, 2.5 m3 at 180 /m3"; of one thing its currency alone.
std::string part_words(double amount, std::string_view unit, double each, std::string_view currency, bool us);
/// "over 8 years at 5 % interest".
std::string annuity_words(double years, double interest);
/// "To build it takes 682 EUR (...)", and what is not in it; empty when the file does not say.
std::string build_words(const results::ResultFile& file);

}  // namespace rackwright::report
