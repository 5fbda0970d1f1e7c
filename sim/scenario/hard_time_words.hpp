#pragma once
// A hard time in words, for a reader of metric or US units.

#include <string>

#include "sim/scenario/hard_time.hpp"

namespace rackwright {

/// As in_words(hard), in metric units with the Fahrenheit degrees beside ("9 degC (16.2 degF) warmer"); in US units without the Celsius ones.
std::string in_words(const HardTime& hard, bool us);

}  // namespace rackwright
