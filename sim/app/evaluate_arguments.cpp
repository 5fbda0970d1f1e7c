#include "sim/app/evaluate_arguments.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <set>
#include <variant>

#include <fmt/core.h>

#include "models/base/expects.hpp"
#include "sim/app/options.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::app {

namespace {

const Argument* find_argument(const Evaluator& model, std::string_view name) {
  const auto at =
      std::find_if(model.arguments.begin(), model.arguments.end(), [&](const Argument& a) { return a.name == name; });
  return at == model.arguments.end() ? nullptr : &*at;
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::vector<std::string> split(std::string_view text) {
  std::vector<std::string> parts;
  for (std::size_t begin = 0;;) {
    const std::size_t comma = text.find(',', begin);
    parts.emplace_back(trimmed(text.substr(begin, comma == std::string_view::npos ? comma : comma - begin)));
    if (comma == std::string_view::npos) return parts;
    begin = comma + 1;
  }
}

bool bare_number(const std::string& text) { return text.find_first_not_of("+-.0123456789eE") == std::string::npos; }

// "8.7, 10.1, 12.9 degC" or "[8.7 10.1 12.9 degC]": a unit written once at the end counts for all that have none.
std::vector<std::string> list_items(std::string_view text) {
  text = trimmed(text);
  if (text.starts_with('[') && text.ends_with(']')) text = trimmed(text.substr(1, text.size() - 2));
  std::vector<std::string> items;
  if (text.find(',') != std::string_view::npos) {
    items = split(text);
  } else {
    // Blanks between: a word that is no number belongs to the number before it.
    std::size_t begin = 0;
    while (begin < text.size()) {
      const std::size_t end = std::min(text.find(' ', begin), text.size());
      const std::string word(text.substr(begin, end - begin));
      if (items.empty() || bare_number(word))
        items.push_back(word);
      else
        items.back() += " " + word;
      begin = std::min(text.find_first_not_of(' ', end), text.size());
    }
    if (items.empty()) items.emplace_back();
  }
  const std::string& last = items.back();
  const std::size_t blank = last.find(' ');
  if (blank == std::string::npos) return items;
  const std::string unit = last.substr(blank);
  for (std::string& item : items) {
    if (bare_number(item)) item += unit;
  }
  return items;
}

Problem complaint(std::string_view key, std::string_view value, std::string why, std::string suggestion = "") {
  constexpr std::size_t enough = 60;  // of a value that is repeated
  std::string shown(value.substr(0, enough));
  if (value.size() > enough) shown += "...";
  return {0, std::string(key), std::move(shown), std::move(why), std::move(suggestion)};
}

using Read = std::variant<double, UnitFault>;

// 6:30 is six and a half hours.
std::optional<double> clock_hours(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string_view::npos || text.size() != colon + 3) return std::nullopt;
  const auto hours = read_whole(text.substr(0, colon), 0, 24), minutes = read_whole(text.substr(colon + 1), 0, 59);
  if (!hours || !minutes) return std::nullopt;
  return static_cast<double>(*hours) + static_cast<double>(*minutes) / 60.0;
}

// A percentage written as a bare number up to 1 may be a share or a percentage: guessing wrong is a factor of a hundred.
std::optional<UnitFault> unclear_share(const Argument& argument, std::string_view text, double value) {
  if (argument.unit != "%" || !bare_number(std::string(text)) || !(value > 0.0 && value <= 1.0)) return std::nullopt;
  return UnitFault{fmt::format("could be a share or a percentage: write \"{:g} %\" or \"{:g} %\"", 100.0 * value, value)};
}

std::optional<UnitFault> out_of_range(const Argument& argument, double value) {
  const bool limited = argument.least < argument.most;
  const double slack = 1e-9;  // a limit written in another unit must not fail by rounding
  if (!limited || (value >= argument.least - slack * std::abs(argument.least) &&
                   value <= argument.most + slack * std::abs(argument.most)))
    return std::nullopt;
  const std::string unit = argument.unit == "1" ? "" : fmt::format(" {}", argument.unit);
  const bool percentage = argument.unit == "1" && argument.least == 0.0 && argument.most == 1.0 && value <= 100.0;
  const std::string meant = percentage && value > 0.0 ? fmt::format("; for {0:g} in a hundred write \"{0:g} %\"", value) : "";
  return UnitFault{fmt::format("is outside {:g} to {:g}{}{}", argument.least, argument.most, unit, meant)};
}

// One number in its argument's unit, or in the other it allows (then noted); the reason why not otherwise.
Read read_number(const Argument& argument, std::string_view text, Arguments& into) {
  text = trimmed(text);
  std::optional<double> value;
  if (argument.clock) value = clock_hours(text);
  if (!value) {
    if (bare_ton(text)) return UnitFault{std::string(which_ton)};
    Read read = read_quantity(text, argument.unit);
    if (const auto* fault = std::get_if<UnitFault>(&read)) {
      const UnitFault first = *fault;
      if (!argument.or_unit.empty()) read = read_quantity(text, argument.or_unit);
      if (argument.or_unit.empty() || std::holds_alternative<UnitFault>(read)) return first;
      into.other_units[std::string(argument.name)] = argument.or_unit;
    }
    value = std::get<double>(read);
  }
  if (!std::isfinite(*value)) return UnitFault{"is not a finite number"};
  if (argument.whole && *value != std::floor(*value)) return UnitFault{"must be a whole number"};
  if (auto fault = unclear_share(argument, text, *value)) return *fault;
  if (auto fault = out_of_range(argument, *value)) return *fault;
  return std::clamp(*value, argument.least < argument.most ? argument.least : *value,
                    argument.least < argument.most ? argument.most : *value);
}

void take(const Argument& argument, std::string_view text, Arguments& into, Problems& problems) {
  const std::string name(argument.name);
  const auto complain = [&](const std::string& why) { problems.push_back(complaint(name, text, why)); };
  if (trimmed(text).empty()) return complain("has no value");
  if (argument.unit.empty()) {
    std::string word(trimmed(text));
    for (char& c : word) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    into.words[name] = std::move(word);
    return;
  }
  if (!argument.list) {
    const auto read = read_number(argument, text, into);
    if (const auto* fault = std::get_if<UnitFault>(&read)) return complain(fault->why);
    into.numbers[name] = std::get<double>(read);
    return;
  }
  std::vector<double> values;
  for (const std::string& item : list_items(text)) {
    const auto read = read_number(argument, item, into);
    if (const auto* fault = std::get_if<UnitFault>(&read)) return complain(fault->why.starts_with('"') ? fault->why : fmt::format("\"{}\" {}", item, fault->why));
    values.push_back(std::get<double>(read));
  }
  into.lists[name] = std::move(values);
}

void take_standards(const Evaluator& model, const std::set<std::string, std::less<>>& given, Arguments& into,
                    Problems& problems) {
  for (const Argument& argument : model.arguments) {
    if (given.contains(argument.name)) continue;
    if (!argument.standard.empty()) {
      const std::size_t before = problems.size();
      take(argument, argument.standard, into, problems);
      ENSURES(problems.size() == before);  // a standard of ours must itself be allowed
    } else if (!argument.optional) {
      problems.push_back(complaint(argument.name, "", fmt::format("must be given: {}", argument.sentence)));
    }
  }
}

}  // namespace

Arguments read_arguments(const Evaluator& model, const std::vector<std::string>& words, Problems& problems) {
  Arguments arguments;
  std::set<std::string, std::less<>> given;
  for (const std::string& word : words) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos || equals == 0) {
      problems.push_back(complaint(word, "", "is not of the form key=value"));
      continue;
    }
    const std::string name(trimmed(std::string_view(word).substr(0, equals)));
    const std::string value = word.substr(equals + 1);
    const Argument* argument = find_argument(model, name);
    if (argument == nullptr) {
      std::vector<std::string> names;
      for (const Argument& a : model.arguments) names.emplace_back(a.name);
      problems.push_back(complaint(name, value, fmt::format("is no key of {}", model.name), nearest(name, names)));
    } else if (!given.insert(name).second) {
      problems.push_back(complaint(name, value, "is given twice"));
    } else {
      take(*argument, value, arguments, problems);
    }
  }
  take_standards(model, given, arguments, problems);
  return arguments;
}

const Evaluator* find_evaluator(std::string_view name) {
  const auto& all = evaluators();
  const auto at = std::find_if(all.begin(), all.end(), [&](const Evaluator& e) { return e.name == name; });
  return at == all.end() ? nullptr : &*at;
}

}  // namespace rackwright::app
