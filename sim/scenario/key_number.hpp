#pragma once
// Keys that are numbers, set without a detour through text: what a sweep of millions of points needs.

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// What a key says of its value.
struct KeyFacts {
  bool number = false;     ///< a number with or without a unit, so that values between two others make sense
  bool whole = false;      ///< a whole one
  std::string unit{};      ///< native unit of a number, "1" for a plain one
  double least = 0.0, most = 0.0;  ///< allowed, native
};

/// Nothing when there is no such key; lists of tables are addressed as in set_key.
std::optional<KeyFacts> key_facts(const Scenario& scenario, std::string_view key);

/// Text to a number in the key's native unit, checked as in set_key; the key must be one of number (EXPECTS).
std::variant<double, Problem> read_number(const Scenario& scenario, std::string_view key, std::string_view text);

/// set_key with a number in the native unit; a whole-number key takes the nearest whole number.
std::optional<Problem> set_number(Scenario& scenario, std::string_view key, double value);

}  // namespace rackwright
