#include "sim/scenario/kits.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "sim/scenario/checks.hpp"
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright {
namespace {

constexpr std::string_view head = "kit.";

struct Set { std::string key, value; };

/// "KEY = VALUE" or "KEY=VALUE".
std::optional<Set> parted(std::string_view text) {
  const auto equals = text.find('=');
  if (equals == std::string_view::npos) return std::nullopt;
  const auto bare = [](std::string_view part) {
    const auto from = part.find_first_not_of(' '), to = part.find_last_not_of(' ');
    return from == std::string_view::npos ? std::string() : std::string(part.substr(from, to - from + 1));
  };
  return Set{bare(text.substr(0, equals)), bare(text.substr(equals + 1))};
}

const Kit* find_kit(const Scenario& scenario, std::string_view part, std::string_view name) {
  for (const Kit& kit : scenario.kits)
    if (kit.part == part && kit.name == name) return &kit;
  return nullptr;
}

Problem refused(const Kit& kit, const std::string& text, std::string why, std::string suggestion = "") {
  return Problem{0, fmt::format("kit.{}.sets", kit.name), text, std::move(why), std::move(suggestion)};
}

std::optional<Problem> put_in(Scenario& scenario, const Kit& kit) {
  for (const std::string& text : kit.sets) {
    const auto set = parted(text);
    if (!set) return refused(kit, text, "is written \"KEY = VALUE\"", "\"water.pump_power = 60 W\"");
    for (const std::string_view fixed : {"kit.", "choose.", "target.", "run.", "group."})
      if (set->key.starts_with(fixed)) return refused(kit, text, fmt::format("{}... is nothing that a kit can bring", fixed));
    if (auto bad = set_key(scenario, set->key, set->value)) return refused(kit, text, std::move(bad->why), std::move(bad->suggestion));
  }
  return std::nullopt;
}

}  // namespace

Problem no_such_key(const Scenario& scenario, std::string_view key, std::string_view value) {
  const std::string_view part = key.starts_with(head) ? key.substr(head.size()) : std::string_view();
  if (part.find('.') != std::string_view::npos || part.find_first_not_of("0123456789") == std::string_view::npos)
    return {0, one_line(key), one_line(value), "is not a known key", nearest(key, keys::all_key_names(scenario))};
  std::vector<std::string> known = kit_parts(scenario);
  for (std::string& one : known) one.insert(0, head);
  return {0, one_line(key), one_line(value), fmt::format("no [[kit]] has part = \"{}\"", one_line(part)), nearest(key, known)};
}

std::vector<std::string> kit_parts(const Scenario& scenario) {
  std::vector<std::string> parts;
  for (const Kit& kit : scenario.kits)
    if (std::find(parts.begin(), parts.end(), kit.part) == parts.end()) parts.push_back(kit.part);
  return parts;
}

std::optional<std::string> kit_part(const Scenario& scenario, std::string_view key) {
  if (!key.starts_with(head)) return std::nullopt;
  const std::string part(key.substr(head.size()));
  const auto parts = kit_parts(scenario);
  if (std::find(parts.begin(), parts.end(), part) == parts.end()) return std::nullopt;
  return part;
}

std::optional<Problem> take_kit(Scenario& scenario, std::string_view part, std::string_view name) {
  if (name == "none") return std::nullopt;
  const auto problem = [&](std::string why, std::string suggestion) {
    return Problem{0, one_line(std::string(head) + std::string(part)), one_line(name), std::move(why), std::move(suggestion)};
  };
  const Kit* kit = find_kit(scenario, part, name);
  if (kit == nullptr) {
    std::vector<std::string> names;
    for (const Kit& one : scenario.kits)
      if (one.part == part) names.push_back(one.name);
    return problem(fmt::format("is no [[kit]] of the part {}", part), nearest(name, names));
  }
  Scenario with = scenario;
  if (auto bad = put_in(with, *kit)) return problem(bad->key + " " + bad->value + ": " + bad->why, bad->suggestion);
  scenario = std::move(with);
  // What it replaced is not known any more: from here on "none" would be this one.
  auto& choices = scenario.choose.choices;
  for (Choice& choice : choices)
    if (choice.key == std::string(head) + std::string(part)) std::erase(choice.values, "none");
  std::erase_if(choices, [](const Choice& choice) { return choice.values.empty() && choice.key.starts_with(head); });
  return std::nullopt;
}

std::string kit_taken(const Scenario& scenario, std::string_view part) {
  for (const Kit& kit : scenario.kits) {
    if (kit.part != part) continue;
    Scenario with = scenario;
    if (!put_in(with, kit) && with == scenario) return kit.name;
  }
  return "none";
}

std::vector<std::string> kit_keys_of(const Scenario& scenario, std::string_view part, std::string_view name) {
  std::vector<std::string> all;
  for (const Kit& kit : scenario.kits) {
    if (kit.part != part || (!name.empty() && kit.name != name)) continue;
    for (const std::string& text : kit.sets)
      if (const auto set = parted(text); set && std::find(all.begin(), all.end(), set->key) == all.end()) all.push_back(set->key);
  }
  return all;
}

std::optional<Clash> clash(const Scenario& scenario, const std::vector<Stated>& stated) {
  std::vector<std::string> keys;
  std::vector<std::size_t> owners;
  for (std::size_t i = 0; i < stated.size(); ++i) {
    const auto add = [&](std::string key) { keys.push_back(std::move(key)), owners.push_back(i); };
    add(stated[i].key);
    if (const auto part = kit_part(scenario, stated[i].key); part && stated[i].value != "none")
      for (std::string& brought : kit_keys_of(scenario, *part, stated[i].value)) add(std::move(brought));
  }
  const auto twice = stated_twice(scenario, keys, owners);
  if (!twice) return std::nullopt;
  return Clash{owners[twice->first], owners[twice->second], keys[twice->first]};
}

std::optional<Told> told_clash(const Scenario& scenario, const std::vector<Stated>& stated, std::string_view twice, std::string_view verb) {
  const auto both = clash(scenario, stated);
  if (!both) return std::nullopt;
  const std::string &later = stated[both->later].key, &earlier = stated[both->earlier].key;
  if (later == earlier) return Told{later, std::string(twice)};
  const bool late_kit = kit_part(scenario, later).has_value(), early_kit = kit_part(scenario, earlier).has_value();
  if (!late_kit && !early_kit) return Told{later, fmt::format("{}, also as {}", twice, earlier)};
  return Told{early_kit ? both->key : earlier, fmt::format("is also set by the kits of {}: {} one or the other", early_kit ? earlier : later, verb)};
}

namespace keys {

const Table<Kit>& kit_keys() {
  constexpr std::string_view yours = "yours";
  static const Table<Kit> table{
      text<Kit>("part", AT(part), "What it is one of: pump, tray, shed; a word of yours.", yours).must(),
      text<Kit>("name", AT(name), "What you call this one.", yours).must(),
      plain<Kit>("sets", Kind::names, AT(sets),
                 "What comes with it, each \"KEY = VALUE\": [\"water.pump_full_flow = 3000 L/h\", \"prices.pump = 120\"].", yours).must(),
  };
  return table;
}

}  // namespace keys

namespace checks {

void kits(const Scenario& scenario, Problems& out) {
  for (std::size_t i = 0; i < scenario.kits.size(); ++i) {
    const Kit& kit = scenario.kits[i];
    const std::string label = "kit." + (kit.name.empty() ? std::to_string(i + 1) : kit.name);
    if (kit.part.empty() || kit.part.find_first_of(". ") != std::string::npos)
      complain(out, label + ".part", kit.part, "must be one word without a dot, such as pump");
    if (kit.name.empty() || kit.name == "none") complain(out, label + ".name", kit.name, "must be a name of its own");
    if (find_kit(scenario, kit.part, kit.name) != &kit) complain(out, label, "", fmt::format("is there twice for the part {}", kit.part));
    if (kit.sets.empty()) complain(out, label + ".sets", "[]", "brings nothing with it");
    Scenario copy = scenario;
    if (auto bad = put_in(copy, kit)) out.push_back(std::move(*bad));
  }
}

}  // namespace checks
}  // namespace rackwright
