// Cross-checks of what sizing may vary.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "sim/scenario/checks.hpp"
#include "sim/scenario/key_number.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/weather_keys.hpp"

namespace rackwright::checks {
namespace {

constexpr std::size_t most_values = 1000;

/// What a value is once it is read: "10 h" and "600 min" are one.
std::string meaning(const Scenario& with, const std::string& key, const std::string& value) {
  const auto facts = key_facts(with, key);
  if (facts && facts->number)
    if (const auto number = read_number(with, key, value); const auto* native = std::get_if<double>(&number)) return fmt::format("{}", *native);
  return get_key(with, key).value_or(value);
}

void values(const Scenario& scenario, const Choice& choice, Problems& out) {
  const std::string name = "choose." + choice.key;
  if (choice.values.empty()) {
    complain(out, name, "[]", "has no values to choose from");
    return;
  }
  if (choice.values.size() > most_values) {
    complain(out, name, fmt::format("{} values", choice.values.size()), fmt::format("lists more than {}", most_values));
    return;
  }
  std::map<std::string, std::string> meanings;  // of what a value means, how it is written first
  for (std::size_t i = 0; i < choice.values.size(); ++i) {
    const std::string& value = choice.values[i];
    if (std::count(choice.values.begin(), choice.values.begin() + static_cast<std::ptrdiff_t>(i), value) > 0) {
      complain(out, name, value, "is listed twice");
      continue;
    }
    Scenario copy = scenario;
    if (const auto bad = set_key(copy, choice.key, value)) {
      complain(out, name, value, bad->why, bad->suggestion);
      if (!key_facts(scenario, choice.key)) return;  // whatever the value
      continue;
    }
    const auto [first, fresh] = meanings.try_emplace(meaning(copy, choice.key, value), value);
    if (!fresh) complain(out, name, value, fmt::format("is listed twice, also as {}", first->second));
  }
}

/// Why a key is nothing to choose a rack by; empty when it may be chosen.
std::string no_decision(const std::string& key) {
  if (key == "title" || key == "units" || key == "currency") return "does not change the rack and cannot be a choice";
  if (key.starts_with("group.") && key.ends_with(".count"))
    return "is what the rack is to feed, not a choice: the cheapest herd would be the smallest; size each herd by itself with "
           "--set";
  return {};
}

}  // namespace

void choose(const Scenario& scenario, Problems& out) {
  double designs = 1.0;
  const auto chosen = [&](std::string_view key) { return std::any_of(scenario.choose.choices.begin(), scenario.choose.choices.end(), [&](const Choice& c) { return c.key == key; }); };
  if (chosen("room.open_air_changes") && !(scenario.opened.from > 0 || chosen("room.open_from")) && !(scenario.opened.until > 0 || chosen("room.open_until")))
    complain(out, "choose.room.open_air_changes", "", "needs room.open_from and room.open_until; for all the year choose room.air_changes");
  std::vector<std::string> seen;
  std::vector<Stated> stated;
  for (const Choice& choice : scenario.choose.choices) stated.push_back({choice.key, ""});
  constexpr std::string_view twice = "is listed twice";  // one name twice is told below, beside its values
  if (const auto told = told_clash(scenario, stated, twice, "choose"); told && told->why != twice) complain(out, "choose." + told->key, "", told->why);
  for (const Choice& choice : scenario.choose.choices) {
    const std::string name = "choose." + choice.key;
    if (std::find(seen.begin(), seen.end(), choice.key) != seen.end()) {
      complain(out, name, "", std::string(twice));
      continue;
    }
    seen.push_back(choice.key);
    if (const std::string why = no_decision(choice.key); !why.empty()) {
      complain(out, name, "", why);
      continue;
    }
    if (given_by_weather(scenario, choice.key)) {
      complain(out, name, "", std::string(given_words));
      continue;
    }
    if (choice.key.starts_with("choose.") || choice.key.starts_with("target.") || choice.key.starts_with("run.")) {
      complain(out, name, "", "is not part of a design and cannot be a choice");
      continue;
    }
    values(scenario, choice, out);
    designs *= static_cast<double>(std::max<std::size_t>(choice.values.size(), 1));
  }
  if (designs > most_designs) {
    complain(out, "choose", fmt::format("{:.6g} designs", designs),
             fmt::format("is more than {:.0f}; list fewer values", most_designs));
  }
}

}  // namespace rackwright::checks
