#include "sim/scenario/key_text.hpp"

#include <charconv>
#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::keys {
namespace {

std::string label(std::string_view unit) {
  if (unit == "1") return "";
  return " " + std::string(unit.starts_with("1/") ? unit.substr(1) : unit);
}

/// Shortest text that reads back to the same number.
std::string shortest(double value) { return fmt::format("{}", value); }

std::string number_with_unit(double value, std::string_view unit) { return shortest(value) + label(unit); }

std::string date_text(std::int64_t day_number) {
  const std::chrono::year_month_day date{std::chrono::sys_days(std::chrono::days(day_number))};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string clock_text(double hours) {
  const auto minutes = static_cast<int>(std::lround(hours * 60.0));
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

std::string joined(const std::vector<std::string>& parts) {
  std::string out;
  for (const std::string& part : parts) out += (out.empty() ? "" : ", ") + part;
  return out;
}

}  // namespace

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (byte < 0x20 || byte == 0x7F) {
      out += fmt::format("\\u{:04X}", byte);
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::vector<std::string> list_parts(std::string_view text) {
  const auto trim = [&text] {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  };
  trim();
  // One pair is the list's; a name may have brackets of its own.
  if (text.size() >= 2 && text.front() == '[' && text.back() == ']') text = text.substr(1, text.size() - 2);
  trim();
  const auto edge = [](char c) { return c == ' ' || c == '"' || c == '\''; };
  std::vector<std::string> parts;
  while (!text.empty()) {
    const auto comma = text.find(',');
    std::string_view part = text.substr(0, comma);
    while (!part.empty() && edge(part.front())) part.remove_prefix(1);
    while (!part.empty() && edge(part.back())) part.remove_suffix(1);
    parts.emplace_back(part);
    if (comma == std::string_view::npos) break;
    text.remove_prefix(comma + 1);
  }
  return parts;
}

std::string toml_text(const KeyInfo& key, const Value& value) {
  switch (key.kind) {
    case Kind::real: {
      const double number = std::get<double>(value);
      return key.unit == "1" ? shortest(number) : quoted(number_with_unit(number, key.unit));
    }
    case Kind::whole: return fmt::format("{}", std::get<std::int64_t>(value));
    case Kind::flag: return std::get<bool>(value) ? "true" : "false";
    case Kind::text: return quoted(std::get<std::string>(value));
    case Kind::option: return quoted(key.options.at(static_cast<std::size_t>(std::get<std::int64_t>(value))));
    case Kind::date: return date_text(std::get<std::int64_t>(value));
    case Kind::clock: return quoted(clock_text(std::get<double>(value)));
    case Kind::names: {
      std::vector<std::string> parts;
      for (const std::string& name : std::get<std::vector<std::string>>(value)) parts.push_back(quoted(name));
      return "[" + joined(parts) + "]";
    }
    case Kind::reals: {
      std::vector<std::string> parts;
      for (const double x : std::get<std::vector<double>>(value))
        parts.push_back(quoted(number_with_unit(x, key.unit)));
      return "[" + joined(parts) + "]";
    }
  }
  contract_broken("reaches", "every kind", __FILE__, __LINE__);
}

std::string plain_text(const KeyInfo& key, const Value& value, bool us) {
  if (std::holds_alternative<std::monostate>(value)) return "none";
  switch (key.kind) {
    case Kind::real: {
      const double number = std::get<double>(value);
      if (us && key.shown.empty()) return write_quantity(number, key.unit, true, 6);
      if (key.shown.empty()) return number_with_unit(number, key.unit);
      const double shown = convert(number, key.unit, key.shown);
      if (us) return fmt::format("{:.6g}{}", shown, label(key.shown));
      const bool exact = convert(shown, key.shown, key.unit) == number;
      return exact ? number_with_unit(shown, key.shown) : number_with_unit(number, key.unit);
    }
    case Kind::text: return std::get<std::string>(value);
    case Kind::option: return std::string(key.options.at(static_cast<std::size_t>(std::get<std::int64_t>(value))));
    case Kind::clock: return clock_text(std::get<double>(value));
    case Kind::names: return joined(std::get<std::vector<std::string>>(value));
    default: return toml_text(key, value);
  }
}

std::string range_text(const KeyInfo& key) {
  if (key.kind == Kind::whole) return fmt::format("between {:.0f} and {:.0f}", key.least, key.most);
  if (key.kind != Kind::real && key.kind != Kind::reals) return "";
  const bool points = key.unit == "degC";
  const std::string_view unit = key.shown.empty() || points ? key.unit : key.shown;
  return fmt::format("between {:.6g} and {:.6g}{}", convert(key.least, key.unit, unit),
                     convert(key.most, key.unit, unit), label(unit));
}

}  // namespace rackwright::keys
