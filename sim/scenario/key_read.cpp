// Reading one value: the second half of key_text.hpp.
#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::keys {
namespace {

using Shape = Raw::Shape;
using Read = std::variant<Value, Why>;

std::string_view shape_name(Shape shape) {
  switch (shape) {
    case Shape::text: return "text";
    case Shape::number: return "a number";
    case Shape::flag: return "true or false";
    case Shape::date: return "a date";
    case Shape::clock: return "a time of day";
    case Shape::list: return "a list";
    case Shape::table: return "a table";
    case Shape::loose: return "text";
  }
  return "text";
}

bool one_of(Shape shape, std::initializer_list<Shape> allowed) {
  for (const Shape a : allowed) {
    if (shape == a) return true;
  }
  return shape == Shape::loose;
}

Why wrong_shape(std::string_view wanted, Shape shape) {
  return Why{fmt::format("must be {}, not {}", wanted, shape_name(shape))};
}

/// A number without a unit.
std::optional<double> bare_number(std::string_view text) {
  double number = 0.0;
  if (text.starts_with('+')) text.remove_prefix(1);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return number;
}

/// May be written in per cent as well.
bool is_share(const KeyInfo& key) { return key.unit == "1" && key.kind == Kind::real && key.least >= 0.0 && key.most <= 1.0; }

std::optional<Why> out_of_range(const KeyInfo& key, double number) {
  const double slack = 1e-9;  // a limit written in another unit must not fail by rounding
  if (number >= key.least - slack * std::abs(key.least) && number <= key.most + slack * std::abs(key.most))
    return std::nullopt;
  if (is_share(key))
    return Why{fmt::format("must be {} (that is {:.6g} to {:.6g} %)", range_text(key), 100.0 * key.least, 100.0 * key.most)};
  return Why{"must be " + range_text(key)};
}

/// The key's range in the unit that was written, " (that is 0.1 to 4.1 lb/ft2)"; nothing where the range is told in it.
std::string range_as_written(const KeyInfo& key, std::string_view written) {
  double number = 0.0;
  const auto [end, error] = std::from_chars(written.data(), written.data() + written.size(), number);
  std::string unit(end, written.data() + written.size());
  std::erase(unit, ' ');
  if (error != std::errc{} || unit.empty() || is_share(key) || range_text(key).ends_with(" " + unit)) return "";
  const auto shown = [](double value) { return std::abs(value) < 1000.0 ? fmt::format("{:.3g}", value) : fmt::format("{:.0f}", value); };
  // Units differ by a factor and a shift; a price "8 / 25 kg" does neither so plainly.
  const auto nought = read_quantity("0 " + unit, key.unit), one = read_quantity("1 " + unit, key.unit);
  if (!std::holds_alternative<double>(nought) || !std::holds_alternative<double>(one)) return "";
  const double shift = std::get<double>(nought), factor = std::get<double>(one) - shift;
  return fmt::format(" (that is {} to {} {})", shown((key.least - shift) / factor), shown((key.most - shift) / factor), unit);
}

Read read_real(const KeyInfo& key, const Raw& raw) {
  if (!one_of(raw.shape, {Shape::text, Shape::number})) {
    const auto words = unit_words(key.unit);
    return wrong_shape(words ? words->kind : "a number", raw.shape);
  }
  if (const auto number = bare_number(raw.text); number && key.unit != "1" && !key.bare) {
    const auto words = unit_words(key.unit);
    EXPECTS(words.has_value());
    if (!std::isfinite(*number))
      return Why{fmt::format("is no number to reckon with: it is {}, such as {}", words->kind, words->example)};
    return Why{fmt::format("needs its unit: it is {}, such as {}", words->kind, words->example)};
  }
  auto number = read_quantity(raw.text, key.unit);
  if (std::holds_alternative<UnitFault>(number) && !key.also.empty()) {
    const auto other = read_quantity(raw.text, key.also);
    if (std::holds_alternative<double>(other)) number = other;
  }
  if (const auto* fault = std::get_if<UnitFault>(&number)) return Why{fault->why};
  if (auto why = out_of_range(key, std::get<double>(number))) {
    const auto bare = bare_number(raw.text);
    // Above 1 only: 1 itself is all there is, and "1 %" not what was meant.
    if (bare && *bare > 1.0 && is_share(key) && !out_of_range(key, 0.01 * *bare)) why->text += fmt::format(": write \"{} %\"", raw.text);
    why->text += range_as_written(key, raw.text);
    return *why;
  }
  return Value(std::get<double>(number));
}

std::string_view us_price(const KeyInfo& key) {
  if (!key.bare) return "";
  return key.unit == "1/kg" ? "0.16 /lb" : key.unit == "1/m3" ? "0.006 /gal" : key.unit == "1/m2" ? "1.5 /ft2" : "";
}

Read read_whole(const KeyInfo& key, const Raw& raw) {
  if (!one_of(raw.shape, {Shape::text, Shape::number})) return wrong_shape("a whole number", raw.shape);
  std::int64_t number = 0;
  const char* end = raw.text.data() + raw.text.size();
  const auto [stop, error] = std::from_chars(raw.text.data(), end, number);
  if (error == std::errc::result_out_of_range) return Why{"must be " + range_text(key)};
  if (error != std::errc{} || stop != end) return Why{"must be a whole number " + range_text(key)};
  if (auto why = out_of_range(key, static_cast<double>(number))) return *why;
  return Value(number);
}

Read read_flag(const Raw& raw) {
  if (one_of(raw.shape, {Shape::text, Shape::flag})) {
    if (raw.text == "true" || raw.text == "yes") return Value(true);
    if (raw.text == "false" || raw.text == "no") return Value(false);
  }
  return Why{"must be true or false"};
}

Read read_text(const KeyInfo& key, const Raw& raw) {
  if (!one_of(raw.shape, {Shape::text})) return wrong_shape("text in quotes", raw.shape);
  const double longest = key.most > 0.0 ? key.most : 200.0;
  if (static_cast<double>(raw.text.size()) > longest) return Why{fmt::format("is longer than {:.0f} letters", longest)};
  if (has_control(raw.text)) return Why{"must be one line without control characters"};
  if (key.name == "name" && (raw.text.empty() || raw.text.find_first_of(".,\"'=[]") != std::string::npos)) {
    return Why{"a name may not be empty nor hold . , = [ ] or quotes"};
  }
  if (key.name == "name" && raw.text.find_first_not_of("0123456789") == std::string::npos) {
    return Why{"a name may not be a number only"};
  }
  return Value(raw.text);
}

Read read_option(const KeyInfo& key, const Raw& raw) {
  std::string all;
  for (std::size_t i = 0; i < key.options.size(); ++i) {
    if (raw.text == key.options[i] && one_of(raw.shape, {Shape::text})) return Value(static_cast<std::int64_t>(i));
    all += (i == 0 ? "\"" : "\" or \"") + std::string(key.options[i]);
  }
  return Why{"must be " + all + "\""};
}

Read read_date(const Raw& raw) {
  int year = 0, month = 0, day = 0;
  char rubbish = 0;
  const bool shaped = one_of(raw.shape, {Shape::text, Shape::date}) && raw.text.size() == 10 && raw.text[4] == '-' &&
                      raw.text[7] == '-' && raw.text.find_first_not_of("0123456789-") == std::string::npos;
  if (!shaped || std::sscanf(raw.text.c_str(), "%4d-%2d-%2d%c", &year, &month, &day, &rubbish) != 3) {
    return Why{"must be a date such as 2026-03-01"};
  }
  const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok()) return Why{"is not a day of the calendar"};
  if (year < 1900 || year > 2200) return Why{"must lie between 1900 and 2200"};
  return Value(static_cast<std::int64_t>(std::chrono::sys_days(date).time_since_epoch().count()));
}

Read read_clock(const Raw& raw) {
  const Why why{"must be a time of day such as \"07:00\""};
  if (!one_of(raw.shape, {Shape::text, Shape::clock})) return why;
  const auto colon = raw.text.find(':');
  if (colon == std::string::npos || colon == 0 || colon > 2 || raw.text.size() != colon + 3) return why;
  if (raw.text.find_first_not_of("0123456789:") != std::string::npos) return why;
  const int hours = std::stoi(raw.text.substr(0, colon)), minutes = std::stoi(raw.text.substr(colon + 1));
  if (hours > 23 || minutes > 59) return why;
  return Value(hours + minutes / 60.0);
}

std::vector<Raw> items_of(const Raw& raw) {
  if (raw.shape == Shape::list) return raw.items;
  std::vector<Raw> items;
  for (std::string& part : list_parts(raw.text)) items.push_back(Raw{Shape::loose, std::move(part), {}});
  return items;
}

constexpr std::size_t most_names = 100;

Read read_names(const Raw& raw) {
  if (!one_of(raw.shape, {Shape::list})) return wrong_shape("a list of names such as [\"barley\"]", raw.shape);
  const std::vector<Raw> items = items_of(raw);
  if (items.size() > most_names) return Why{fmt::format("lists more than {} names", most_names)};
  std::vector<std::string> names;
  for (const Raw& item : items) {
    if (!one_of(item.shape, {Shape::text}) || item.text.empty())
      return Why{"must be a list of names such as [\"barley\"]"};
    // What is typed is taken apart at brackets and commas: a name that has some cannot be told from a list.
    if (raw.shape != Shape::list && item.text.find_first_of("[]") != std::string::npos)
      return Why{"must be a list of names such as [\"barley\"]; a name with square brackets can be listed in the file alone"};
    names.push_back(item.text);
  }
  return Value(names);
}

Read read_reals(const KeyInfo& key, const Raw& raw) {
  if (!one_of(raw.shape, {Shape::list})) return wrong_shape("a list", raw.shape);
  std::vector<double> numbers;
  for (const Raw& item : items_of(raw)) {
    Read one = read_real(key, item);
    if (const Why* why = std::get_if<Why>(&one)) return Why{fmt::format("entry {}: {}", numbers.size() + 1, why->text)};
    numbers.push_back(std::get<double>(std::get<Value>(one)));
  }
  return Value(numbers);
}

/// Of a price by mass, volume or area that is a plain number (not nought): why one who thinks in US units must say what it is for; else nothing.
std::optional<Why> plain_price(const KeyInfo& key, const Raw& raw) {
  const std::string_view example = us_price(key);
  const auto number = example.empty() ? std::nullopt : bare_number(raw.text);
  if (!number || *number == 0.0) return std::nullopt;
  const char* what = key.unit == "1/kg" ? "a kilogram" : key.unit == "1/m3" ? "a cubic metre" : "a square metre";
  return Why{fmt::format("needs what it is for, such as {}: with units = \"us\" a plain number, which would be for {}, is not taken", example, what)};
}

}  // namespace

std::optional<Why> unclear(const KeyInfo& key, const Raw& raw, bool us) {
  if (us) return plain_price(key, raw);
  const bool number = key.kind == Kind::real || key.kind == Kind::reals;
  const auto ton = [](const Raw& item) { return bare_ton(item.text); };
  if (number && (ton(raw) || std::any_of(raw.items.begin(), raw.items.end(), ton))) return Why{std::string(which_ton)};
  return std::nullopt;
}

std::variant<Value, Why> read_value(const KeyInfo& key, const Raw& raw, bool us) {
  if (auto vague = unclear(key, raw, us)) return std::move(*vague);
  return read_value(key, raw);
}

std::variant<Value, Why> read_value(const KeyInfo& key, const Raw& raw) {
  if (key.optional && raw.text == "none" && one_of(raw.shape, {Shape::text})) return Value();
  switch (key.kind) {
    case Kind::real: return read_real(key, raw);
    case Kind::whole: return read_whole(key, raw);
    case Kind::flag: return read_flag(raw);
    case Kind::text: return read_text(key, raw);
    case Kind::option: return read_option(key, raw);
    case Kind::date: return read_date(raw);
    case Kind::clock: return read_clock(raw);
    case Kind::names: return read_names(raw);
    case Kind::reals: return read_reals(key, raw);
  }
  contract_broken("reaches", "every kind", __FILE__, __LINE__);
}

}  // namespace rackwright::keys
