#pragma once
// A key of the input, declared once: name, unit, range, sentence, source, and where it lands. The reader, set_key,
// get_key, resolved_text and the reference page all go by it.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "models/base/quantity.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::keys {

enum class Kind { real, whole, flag, text, option, date, clock, names, reals };

/// A value on its way between text and the scenario: nothing (absent), number, whole number (also a date as days since
/// 1970 and an option as its position), flag, text, list of names, list of numbers.
using Value = std::variant<std::monostate, double, std::int64_t, bool, std::string, std::vector<std::string>,
                           std::vector<double>>;

/// What a key says of itself, whatever it belongs to.
struct KeyInfo {
  std::string name{};                        ///< inside its table; dotted for the whole-scenario keys
  Kind kind = Kind::real;
  std::string_view unit = "1";               ///< native
  std::string_view shown{};                  ///< unit people are shown, where handier than the native one
  double least = 0.0, most = 0.0;            ///< allowed, in the native unit, ends included
  std::vector<std::string_view> options{};   ///< of Kind::option, in the order of the enumerators
  std::string_view sentence{};               ///< for a keeper
  std::string_view source{};                 ///< work, "common practice, no source", "assumed", or "yours"
  std::string_view also{};                   ///< another unit a value may be given in, counting as the native one
  bool bare = false;                         ///< a number without a unit is taken in the native unit
  bool required = false;
  bool optional = false;                     ///< may be "none"
  std::vector<std::string_view> instead_of{};///< another way to state these keys; not written by resolved_text
};

/// A key that lands in a T. `get` and `set` are given the scenario for the few that need its start date or its names.
template <class T>
struct Key : KeyInfo {
  Value (*get)(const T&, const Scenario&) = nullptr;
  std::optional<std::string> (*set)(T&, const Value&, const Scenario&) = nullptr;  ///< gives why it does not fit
  bool (*follows)(const T&, const Scenario&) = nullptr;  ///< is its value another key's to say as things stand? Then resolved_text only remarks on it

  Key in(std::string_view unit_text) && { unit = unit_text; return std::move(*this); }
  Key show(std::string_view unit_text) && { shown = unit_text; return std::move(*this); }
  Key or_in(std::string_view unit_text) && { also = unit_text; return std::move(*this); }
  Key bare_number() && { bare = true; return std::move(*this); }
  Key must() && { required = true; return std::move(*this); }
  Key instead(const std::vector<std::string_view>& others) && { instead_of = others; return std::move(*this); }
};

template <class Field> struct UnitOf { static constexpr const char* text = "1"; };
template <class Tag> struct UnitOf<Quantity<Tag>> { static constexpr const char* text = Tag::unit; };
template <class Field> struct UnitOf<std::optional<Field>> { static constexpr const char* text = UnitOf<Field>::text; };

inline double bare_of(double value) { return value; }
template <class Tag> double bare_of(Quantity<Tag> value) { return value.value(); }

/// The field a stateless accessor lambda reaches in a T.
template <class T, class At> using FieldOf = std::remove_cvref_t<std::invoke_result_t<At, T&>>;
template <class Field> struct IsOptional : std::false_type {};
template <class Field> struct IsOptional<std::optional<Field>> : std::true_type {};

struct Range { double least, most; };

template <class T>
Key<T> declare(std::string_view name, Kind kind, std::string_view sentence, std::string_view source) {
  Key<T> key;
  key.name = name;
  key.kind = kind;
  key.sentence = sentence;
  key.source = source;
  return key;
}

/// A number or a Quantity, also std::optional of either.
template <class T, class At>
Key<T> real(std::string_view name, Range range, At, std::string_view sentence, std::string_view source) {
  using Field = FieldOf<T, At>;
  Key<T> key = declare<T>(name, Kind::real, sentence, source);
  key.unit = UnitOf<Field>::text;
  key.least = range.least;
  key.most = range.most;
  key.optional = IsOptional<Field>::value;
  key.get = [](const T& owner, const Scenario&) -> Value {
    const Field& field = At{}(owner);
    if constexpr (IsOptional<Field>::value) {
      return field ? Value(bare_of(*field)) : Value();
    } else {
      return bare_of(field);
    }
  };
  key.set = [](T& owner, const Value& value, const Scenario&) -> std::optional<std::string> {
    Field& field = At{}(owner);
    if constexpr (IsOptional<Field>::value) {
      field.reset();
      if (const double* number = std::get_if<double>(&value)) field.emplace(*number);
    } else {
      field = Field(std::get<double>(value));
    }
    return std::nullopt;
  };
  return key;
}

/// The field holds the number itself, or an enumeration's place in its list.
template <class T, class At>
void land_as_integer(Key<T>& key, At) {
  key.get = [](const T& owner, const Scenario&) -> Value { return static_cast<std::int64_t>(At{}(owner)); };
  key.set = [](T& owner, const Value& value, const Scenario&) -> std::optional<std::string> {
    At{}(owner) = static_cast<FieldOf<T, At>>(std::get<std::int64_t>(value));
    return std::nullopt;
  };
}

/// An int or std::uint64_t.
template <class T, class At>
Key<T> whole(std::string_view name, Range range, At at, std::string_view sentence, std::string_view source) {
  Key<T> key = declare<T>(name, Kind::whole, sentence, source);
  key.least = range.least;
  key.most = range.most;
  land_as_integer(key, at);
  return key;
}

/// One of an enumeration's names.
template <class T, class At>
Key<T> option(std::string_view name, const std::vector<std::string_view>& options, At at, std::string_view sentence,
              std::string_view source) {
  Key<T> key = declare<T>(name, Kind::option, sentence, source);
  key.options = options;
  land_as_integer(key, at);
  return key;
}

/// A bool, a std::string or a list of names: the field is the value.
template <class T, class At>
Key<T> plain(std::string_view name, Kind kind, At, std::string_view sentence, std::string_view source) {
  Key<T> key = declare<T>(name, kind, sentence, source);
  key.get = [](const T& owner, const Scenario&) -> Value { return Value(At{}(owner)); };
  key.set = [](T& owner, const Value& value, const Scenario&) -> std::optional<std::string> {
    At{}(owner) = std::get<FieldOf<T, At>>(value);
    return std::nullopt;
  };
  return key;
}
template <class T, class At>
Key<T> flag(std::string_view name, At at, std::string_view sentence, std::string_view source) {
  return plain<T>(name, Kind::flag, at, sentence, source);
}
template <class T, class At>
Key<T> text(std::string_view name, At at, std::string_view sentence, std::string_view source) {
  return plain<T>(name, Kind::text, at, sentence, source);
}

/// An Hours that is a time of day.
template <class T, class At>
Key<T> clock(std::string_view name, At at, std::string_view sentence, std::string_view source) {
  Key<T> key = real<T>(name, Range{0.0, 24.0}, at, sentence, source);
  key.kind = Kind::clock;
  return key;
}

template <class T> using Table = std::vector<Key<T>>;

}  // namespace rackwright::keys
