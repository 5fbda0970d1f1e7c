// What --vary says, read into axes.

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "sim/scenario/key_number.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/network.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"
#include "sim/scenario/weather_keys.hpp"
#include "sim/study/sweep.hpp"

namespace rackwright::study {
namespace {

constexpr std::size_t usual_levels = 5;
constexpr std::size_t most_levels = 1'000'000;

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

std::vector<std::string_view> cut(std::string_view text, char at) {
  std::vector<std::string_view> parts;
  for (;;) {
    const auto end = text.find(at);
    parts.push_back(trimmed(text.substr(0, end)));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

/// What follows a number of that unit.
std::string unit_label(const std::string& unit) { return unit == "1" || unit.empty() ? "" : unit.starts_with("1/") ? unit.substr(1) : " " + unit; }

/// Reads and collects complaints about one axis.
class AxisReader {
 public:
  AxisReader(const Scenario& scenario, SweepAxis& axis, Problems& problems)
      : scenario_(scenario), axis_(axis), problems_(problems) {}

  void range(const std::vector<std::string_view>& parts, SweepMethod method) {
    const auto low = number(parts[0]), high = number(parts[1]);
    if (!low || !high) return;
    axis_.low = *low;
    axis_.high = *high;
    if (!(axis_.low < axis_.high)) return complain(parts[1], "must be above the lower end of the range");
    std::size_t levels = method == SweepMethod::grid ? usual_levels : 0;
    if (parts.size() == 3) {
      const char* end = parts[2].data() + parts[2].size();
      const auto [stop, error] = std::from_chars(parts[2].data(), end, levels);
      if (error != std::errc{} || stop != end || levels < 2 || levels > most_levels)
        return complain(parts[2], "is not a number of values from 2 to 1000000");
    }
    for (std::size_t i = 0; i < levels; ++i) {
      const double share = static_cast<double>(i) / static_cast<double>(levels - 1);
      const double value = i + 1 == levels ? axis_.high : axis_.low + share * (axis_.high - axis_.low);
      const double level = axis_.whole ? std::round(value) : value;
      if (axis_.numbers.empty() || level != axis_.numbers.back()) axis_.numbers.push_back(level);
    }
  }

  void list(const std::vector<std::string_view>& parts) {
    std::vector<std::string> meanings;  // "10 h" and "600 min" are one value
    for (const std::string_view part : parts) {
      if (part.empty()) return complain(part, "is an empty value in the list");
      if (std::count(parts.begin(), parts.end(), part) > 1) return complain(part, "is listed twice");
      if (!number_key_) {
        Scenario tried = scenario_;
        if (const auto problem = set_key(tried, axis_.key, part)) {
          problems_.push_back(*problem);
          return;
        }
        const std::string meaning = get_key(tried, axis_.key).value_or(std::string(part));
        if (const auto same = std::find(meanings.begin(), meanings.end(), meaning); same != meanings.end())
          return complain(part, fmt::format("is listed twice, also as {}", axis_.words[static_cast<std::size_t>(same - meanings.begin())]));
        meanings.push_back(meaning);
        axis_.words.emplace_back(part);
      }
      else if (const auto value = number(part)) {
        if (const auto same = std::find(axis_.numbers.begin(), axis_.numbers.end(), *value); same != axis_.numbers.end())
          return complain(part, fmt::format("is listed twice, also as {}", axis_.typed[static_cast<std::size_t>(same - axis_.numbers.begin())]));
        axis_.numbers.push_back(*value);
        axis_.typed.push_back(with_unit(part));
      }
    }
    if (axis_.numbers.empty()) return;
    const auto [least, most] = std::minmax_element(axis_.numbers.begin(), axis_.numbers.end());
    axis_.low = *least;
    axis_.high = *most;
  }

  bool find_key() {
    const auto facts = key_facts(scenario_, axis_.key);
    if (!facts) {
      problems_.push_back(no_such_key(scenario_, axis_.key, ""));
      return false;
    }
    if (const auto why = why_fixed(scenario_, axis_.key); !why.empty()) {
      problems_.push_back({0, axis_.key, "", std::string(why), ""});
      return false;
    }
    number_key_ = facts->number;
    axis_.whole = facts->whole;
    if (facts->number) axis_.unit = facts->unit;
    axis_.us = scenario_.units == Units::us;
    return true;
  }
  [[nodiscard]] bool number_key() const { return number_key_; }

 private:
  std::optional<double> number(std::string_view text) {
    const auto read = read_number(scenario_, axis_.key, text);
    if (const auto* problem = std::get_if<Problem>(&read)) {
      problems_.push_back(*problem);
      return std::nullopt;
    }
    return std::get<double>(read);
  }
  /// A number typed without its unit is told with it.
  [[nodiscard]] std::string with_unit(std::string_view text) const {
    const bool bare = text.find_first_not_of("+-.0123456789eE") == std::string_view::npos;
    return std::string(text) + (bare ? unit_label(axis_.unit) : "");
  }
  void complain(std::string_view value, std::string why) {
    problems_.push_back({0, axis_.key, std::string(value), std::move(why), ""});
  }

  const Scenario& scenario_;
  SweepAxis& axis_;
  Problems& problems_;
  bool number_key_ = false;
};

}  // namespace

std::string_view why_fixed(std::string_view key) {
  if (key.starts_with("choose.")) return "belongs to size and cannot vary here";
  if (key == "run.random_seed" || key == "run.replications") return "cannot vary: all that is compared meets the same luck";
  if (key == "run.length" || key == "run.start")
    return "cannot vary: totals of runs of other days or another length cannot be compared; run each by itself with --set";
  if (key == "title" || key == "units" || key == "currency") return "does not change what happens";
  if (key == "climate.file" || key == "climate.file_hash" || key == "climate.days") return "is read once, with the scenario, and cannot vary";
  return {};
}

std::string_view why_fixed(const Scenario& scenario, std::string_view key) {
  const std::string_view why = why_fixed(key);
  if (!why.empty()) return why;
  return given_by_weather(scenario, key) ? given_words : why_no_say(scenario, key);
}

SweepAxis read_axis(const Scenario& scenario, std::string_view text, SweepMethod method, Problems& problems) {
  SweepAxis axis;
  const auto equals = text.find('=');
  if (equals == std::string_view::npos || equals == 0) {
    problems.push_back({0, "--vary", std::string(text), "write KEY=A,B,C or KEY=LOW:HIGH or KEY=LOW:HIGH:COUNT", ""});
    return axis;
  }
  axis.key = trimmed(text.substr(0, equals));
  AxisReader reader(scenario, axis, problems);
  if (!reader.find_key()) return axis;
  const std::string_view values = text.substr(equals + 1);
  const bool listed = values.find_first_of(",;") != std::string_view::npos;
  const auto ends = cut(values, ':');
  if (reader.number_key() && !listed && (ends.size() == 2 || ends.size() == 3)) reader.range(ends, method);
  else reader.list(cut(values, values.find(';') != std::string_view::npos ? ';' : ','));
  return axis;
}

double axis_value(const SweepAxis& axis, double share) {
  if (const std::size_t levels = axis.levels(); levels > 0) {
    const auto at = std::min(static_cast<std::size_t>(share * static_cast<double>(levels)), levels - 1);
    return axis.words.empty() ? axis.numbers[at] : static_cast<double>(at);
  }
  if (axis.whole) return std::min(axis.low + std::floor(share * (axis.high - axis.low + 1.0)), axis.high);
  return axis.low + share * (axis.high - axis.low);
}

std::string axis_text(const SweepAxis& axis, double value) {
  if (!axis.words.empty()) return axis.words.at(static_cast<std::size_t>(value));
  if (!axis.typed.empty())
    if (const auto at = std::find(axis.numbers.begin(), axis.numbers.end(), value); at != axis.numbers.end())
      return axis.typed.at(static_cast<std::size_t>(at - axis.numbers.begin()));
  if (axis.us && !axis.whole) return write_quantity(value, axis.unit, true, 4);
  const std::string number = axis.whole ? fmt::format("{:.0f}", value) : fmt::format("{:.6g}", value);
  return number + unit_label(axis.unit);
}

std::optional<Problem> set_axis(Scenario& scenario, const SweepAxis& axis, double value) {
  if (axis.words.empty()) return set_number(scenario, axis.key, value);
  return set_key(scenario, axis.key, axis.words.at(static_cast<std::size_t>(value)));
}

}  // namespace rackwright::study
