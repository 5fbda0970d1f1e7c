#pragma once
// Amounts in the sentences of a journal, in the units the keeper reads.

#include <string>

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// "12.5 kg", "27.6 lb".
std::string mass_words(Units units, double kilograms, int decimals = 1);
/// "21 degC", "70 degF".
std::string temperature_words(Units units, double celsius);

}  // namespace rackwright
