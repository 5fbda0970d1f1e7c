#pragma once
// Between the text of a value and the value, for every kind of key.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/scenario/key.hpp"

namespace rackwright::keys {

/// A value as it was written. Text from a command line is `loose`: it may stand for any kind.
struct Raw {
  enum class Shape { loose, text, number, flag, date, clock, list, table };
  Shape shape = Shape::loose;
  std::string text{};
  std::vector<Raw> items{};   ///< of a list
};

struct Why { std::string text; };

/// Reads and range-checks; gives why it does not fit.
std::variant<Value, Why> read_value(const KeyInfo& key, const Raw& raw);

/// Why a value is not clear from one who thinks in those units, though it can be read: a plain price by mass, volume or area in US units (but nought), a bare ton in
/// metric ones; else nothing.
std::optional<Why> unclear(const KeyInfo& key, const Raw& raw, bool us);
/// The value as one who thinks in those units has it, or why not: unclear, or not to be read.
std::variant<Value, Why> read_value(const KeyInfo& key, const Raw& raw, bool us);

/// As TOML, native units, exact: reads back to the same value.
std::string toml_text(const KeyInfo& key, const Value& value);

/// For people, in the scenario's units: exact in metric, six digits in US units. "none" where absent.
std::string plain_text(const KeyInfo& key, const Value& value, bool us);

/// "between 1 and 40", in the shown unit; empty where anything goes.
std::string range_text(const KeyInfo& key);

/// Before a key in resolved_text that follows from another: read, it is a remark; shown, a value.
inline constexpr std::string_view remark = "# ";

/// A TOML basic string.
std::string quoted(std::string_view text);

/// Cuts "a, b" or ["a", "b"] as typed on a command line into its parts.
std::vector<std::string> list_parts(std::string_view text);

}  // namespace rackwright::keys
