#pragma once
// Units as text, through UDUNITS. Thread-safe: calls are serialised.

#include <string>
#include <string_view>
#include <variant>

namespace rackwright {

/// A number that could not be read or converted: why, in one sentence.
struct UnitFault { std::string why; };

/// "25 lb" to kilograms and so on. A bare number is taken in `native_unit`. Refuses wrong dimensions, non-finite
/// numbers, and trailing rubbish. Temperatures convert as points ("100 degF"), differences in "K" as differences.
std::variant<double, UnitFault> read_quantity(std::string_view text, std::string_view native_unit);

/// Converts a number between unit texts of one dimension; throws std::logic_error if they clash (our fault).
double convert(double value, std::string_view from, std::string_view to);

/// `value` in native units written for people in metric or US units: number, space, unit.
std::string write_quantity(double value, std::string_view native_unit, bool us, int significant_digits = 4);

}  // namespace rackwright
