// set_key and get_key: one key of a scenario by its dotted name.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/scenario/document.hpp"
#include "sim/scenario/key_number.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright {
namespace {

using keys::Key;

constexpr std::string_view choose_head = "choose.";

template <class T>
const Key<T>* find_key(const keys::Table<T>& table, std::string_view name) {
  for (const Key<T>& key : table) {
    if (key.name == name) return &key;
  }
  return nullptr;
}

/// Calls visit(key, owner) for the key a dotted name means; false if there is none.
template <class Visit>
bool with_key(Scenario& scenario, std::string_view name, Visit&& visit) {
  if (const auto* key = find_key(keys::scenario_keys(), name)) {
    visit(*key, scenario);
    return true;
  }
  bool found = false;
  keys::for_each_list([&](const auto& list) {
    const std::string head = std::string(list.path) + ".";
    if (found || !name.starts_with(head)) return;
    const std::string_view rest = name.substr(head.size());
    const auto dot = rest.find('.');
    if (dot == std::string_view::npos) return;
    auto& items = list.items(scenario);
    const int index = keys::item_index(items, rest.substr(0, dot), list.name_of);
    const auto* key = find_key(list.keys(), rest.substr(dot + 1));
    if (index < 0 || key == nullptr) return;
    found = true;
    visit(*key, items[static_cast<std::size_t>(index)]);
  });
  return found;
}

Problem problem(std::string_view key, std::string_view value, std::string why) {
  return Problem{0, one_line(key), one_line(value), std::move(why), ""};
}

std::optional<Problem> set_choice(Scenario& scenario, std::string_view key, std::string_view value_text) {
  const std::string name(key.substr(choose_head.size()));
  std::vector<std::string> values = keys::list_parts(value_text);
  for (Choice& choice : scenario.choose.choices) {
    if (choice.key != name) continue;
    choice.values = std::move(values);
    return std::nullopt;
  }
  scenario.choose.choices.push_back(Choice{name, std::move(values)});
  return std::nullopt;
}

bool names_a_key(const Scenario& scenario, std::string_view name) {
  if (kit_part(scenario, name)) return true;
  Scenario copy = scenario;
  return with_key(copy, name, [](const auto&, const auto&) {});
}

/// A typed value must be text that a file could hold as well.
bool is_text(std::string_view value) {
  const bool plain = std::none_of(value.begin(), value.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80 || c == 0; });
  return plain || parse_document("title = " + keys::quoted(value)).problems.empty();
}

}  // namespace

std::optional<Problem> set_key(Scenario& scenario, std::string_view key, std::string_view value_text) {
  if (!is_text(value_text)) return problem(key, value_text, "is not text in UTF-8");
  std::optional<Problem> out;
  const bool found = with_key(scenario, key, [&](const auto& entry, auto& owner) {
    const keys::Raw raw{keys::Raw::Shape::loose, std::string(value_text), {}};
    const auto read = keys::read_value(entry, raw, scenario.units == Units::us);
    std::optional<std::string> why;
    if (const keys::Why* bad = std::get_if<keys::Why>(&read)) {
      why = bad->text;
    } else {
      why = entry.set(owner, std::get<keys::Value>(read), scenario);
    }
    if (why) out = problem(key, value_text, *why);
  });
  if (found) {
    if (scenario.line.grains.empty()) keys::name_all_grains(scenario);  // as when it is left out of a file
    return out;
  }
  if (key.starts_with(choose_head) && names_a_key(scenario, key.substr(choose_head.size()))) {
    return set_choice(scenario, key, value_text);
  }
  if (const auto part = kit_part(scenario, key)) return take_kit(scenario, *part, value_text);
  return no_such_key(scenario, key, value_text);
}

std::optional<std::pair<std::size_t, std::size_t>> stated_twice(const Scenario& scenario, const std::vector<std::string>& keys,
                                                                const std::vector<std::size_t>& owners) {
  struct Meant { const void* owner = nullptr; std::string_view name{}; const std::vector<std::string_view>* instead_of = nullptr; };
  std::vector<Meant> all;
  Scenario copy = scenario;
  const auto other_way = [](const Meant& a, const Meant& b) {
    return std::find(a.instead_of->begin(), a.instead_of->end(), b.name) != a.instead_of->end();
  };
  for (std::size_t i = 0; i < keys.size(); ++i) {
    Meant now;
    with_key(copy, keys[i], [&](const auto& entry, const auto& owner) { now = {&owner, entry.name, &entry.instead_of}; });
    for (std::size_t j = 0; j < i; ++j) {
      if (!owners.empty() && owners.at(i) == owners.at(j)) continue;
      const bool same = now.owner != nullptr && all[j].owner == now.owner && (all[j].name == now.name || other_way(now, all[j]) || other_way(all[j], now));
      if (same || keys[i] == keys[j]) return std::pair{i, j};
    }
    all.push_back(now);
  }
  return std::nullopt;
}

std::optional<KeyFacts> key_facts(const Scenario& scenario, std::string_view key) {
  std::optional<KeyFacts> out;
  if (kit_part(scenario, key)) return KeyFacts{};
  Scenario copy = scenario;
  with_key(copy, key, [&](const auto& entry, const auto&) {
    const bool whole = entry.kind == keys::Kind::whole;
    out = KeyFacts{whole || entry.kind == keys::Kind::real, whole, std::string(entry.unit), entry.least, entry.most};
  });
  return out;
}

std::variant<double, Problem> read_number(const Scenario& scenario, std::string_view key, std::string_view text) {
  std::variant<double, Problem> out = problem(key, text, "must be a number here");
  Scenario copy = scenario;
  const bool found = with_key(copy, key, [&](const auto& entry, const auto&) {
    EXPECTS(entry.kind == keys::Kind::real || entry.kind == keys::Kind::whole);
    const keys::Raw raw{keys::Raw::Shape::loose, std::string(text), {}};
    const auto read = keys::read_value(entry, raw, scenario.units == Units::us);
    if (const keys::Why* bad = std::get_if<keys::Why>(&read)) {
      out = problem(key, text, bad->text);
      return;
    }
    const auto& value = std::get<keys::Value>(read);
    if (const double* number = std::get_if<double>(&value)) out = *number;
    if (const auto* number = std::get_if<std::int64_t>(&value)) out = static_cast<double>(*number);
  });
  EXPECTS(found);
  return out;
}

std::optional<Problem> set_number(Scenario& scenario, std::string_view key, double value) {
  std::optional<Problem> out;
  const bool found = with_key(scenario, key, [&](const auto& entry, auto& owner) {
    const bool whole = entry.kind == keys::Kind::whole;
    EXPECTS(whole || entry.kind == keys::Kind::real);
    const double number = whole ? std::round(value) : value;
    std::optional<std::string> why;
    if (number >= entry.least && number <= entry.most) {
      why = entry.set(owner, whole ? keys::Value(static_cast<std::int64_t>(number)) : keys::Value(number), scenario);
    } else {
      why = "must be " + keys::range_text(entry);
    }
    if (why) out = problem(key, fmt::format("{}", number), *why);
  });
  EXPECTS(found);
  return out;
}

std::optional<std::string> get_key(const Scenario& scenario, std::string_view key) {
  if (const auto part = kit_part(scenario, key)) return kit_taken(scenario, *part);
  std::optional<std::string> out;
  Scenario copy = scenario;  // the accessors of lists are not const
  with_key(copy, key, [&](const auto& entry, const auto& owner) {
    const keys::Value value = entry.get(owner, scenario);
    if (std::holds_alternative<std::monostate>(value) && !entry.optional) return;
    out = keys::plain_text(entry, value, scenario.units == Units::us);
  });
  return out;
}

}  // namespace rackwright
