// read_scenario: leaves meet the key table.
#include <algorithm>
#include <map>
#include <type_traits>

#include <fmt/format.h>

#include "sim/scenario/document.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/kits.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/weather.hpp"

namespace rackwright {
namespace {

using keys::Key;
using keys::Table;

/// Fills a Scenario from a Document and keeps every complaint.
class Filler {
 public:
  Filler(Document document, const std::vector<std::string>& settings, const std::string& folder)
      : document_(std::move(document)), settings_(settings) {
    problems_ = std::move(document_.problems);
    us_file_ = std::any_of(document_.leaves.begin(), document_.leaves.end(), [](const Leaf& leaf) { return leaf.path == "units" && leaf.raw.text == "us"; });
    table(keys::scenario_keys(), document_.leaves, scenario_, "", 0);
    if (us_file_ && !states(document_.leaves, "currency")) scenario_.currency = "USD";
    choices();
    unknown(document_.leaves, "", keys::scenario_key_names());
    // Settings of single keys come before the lists, which may count days from run.start.
    apply(settings, true);
    keys::for_each_list([&](const auto& list) { read_list(list); });
    apply(settings, false);
    if (!folder.empty()) weather(folder);
    if (scenario_.line.grains.empty()) keys::name_all_grains(scenario_);
    cross_checks();
  }

  Scenario& scenario() { return scenario_; }
  Problems& problems() { return problems_; }

 private:
  template <class T>
  void table(const Table<T>& table, std::vector<Leaf>& leaves, T& into, const std::string& head, int line) {
    for (const Key<T>& key : table) {
      const auto leaf = std::find_if(leaves.begin(), leaves.end(), [&](const Leaf& l) { return l.path == key.name; });
      if (leaf != leaves.end()) {
        leaf->used = true;
        lines_[head + key.name] = leaf->line;
        one(key, *leaf, into, head);
        twice(key, leaves, *leaf, head);
      } else if (key.required && !stated_otherwise(table, key.name, leaves)) {
        complain(line, head + key.name, "", fmt::format("is missing: {}", key.sentence), "");
      }
    }
  }

  template <class T>
  void one(const Key<T>& key, const Leaf& leaf, T& into, const std::string& head) {
    const auto read = keys::read_value(key, leaf.raw);
    std::optional<std::string> why;
    if (const auto vague = keys::unclear(key, leaf.raw, us_file_)) {
      why = vague->text;
    } else if (const keys::Why* bad = std::get_if<keys::Why>(&read)) {
      why = bad->text;
    } else {
      why = key.set(into, std::get<keys::Value>(read), scenario_);
    }
    // What a setting replaces need not fit with what other settings replace: a date before the run.start that is typed.
    if (why && std::holds_alternative<keys::Value>(read) && replaced(key, head)) return;
    if (why) complain(leaf.line, head + key.name, shown(leaf.raw), *why, suggestion_for(key, leaf.raw.text));
  }

  /// Does a setting state the key of that entry anew? An entry is meant by its name or by its position.
  [[nodiscard]] bool replaced(const keys::KeyInfo& key, const std::string& head) const {
    std::vector<std::string> heads{head};
    if (!entry_position_.empty()) heads.push_back(entry_position_);
    std::vector<std::string_view> names = {key.name};
    names.insert(names.end(), key.instead_of.begin(), key.instead_of.end());
    return std::any_of(settings_.begin(), settings_.end(), [&](const std::string& setting) {
      const std::string_view set = std::string_view(setting).substr(0, setting.find('='));
      for (const std::string& start : heads)
        for (const std::string_view name : names)
          if (set.starts_with(start) && set.substr(start.size()) == name) return true;
      return false;
    });
  }

  static std::string suggestion_for(const keys::KeyInfo& key, const std::string& written) {
    std::vector<std::string> options;
    for (const std::string_view option : key.options) options.emplace_back(option);
    return nearest(written, options);
  }

  /// Two ways of stating one thing, both used.
  void twice(const keys::KeyInfo& key, const std::vector<Leaf>& leaves, const Leaf& leaf, const std::string& head) {
    for (const Leaf& other : leaves) {
      for (const std::string_view instead : key.instead_of) {
        if (other.path != instead) continue;
        complain(leaf.line, head + key.name, shown(leaf.raw),
                 fmt::format("is stated twice, also as {}{}", head, instead), "");
      }
    }
  }

  template <class T>
  static bool stated_otherwise(const Table<T>& table, std::string_view name, const std::vector<Leaf>& leaves) {
    for (const Key<T>& key : table) {
      for (const std::string_view instead : key.instead_of) {
        if (instead != name) continue;
        for (const Leaf& leaf : leaves) {
          if (leaf.path == key.name) return true;
        }
      }
    }
    return false;
  }

  static bool states(const std::vector<Leaf>& leaves, std::string_view path) {
    return std::any_of(leaves.begin(), leaves.end(), [&](const Leaf& leaf) { return leaf.path == path; });
  }

  template <class T>
  void read_list(const keys::List<T>& list) {
    auto& items = list.items(scenario_);
    for (Entry& entry : document_.entries) {
      if (entry.list != list.path) continue;
      if (items.size() == list.most) {
        complain(entry.line, std::string(list.path), "", fmt::format("has more than {} entries, the most that are followed", list.most), "");
        return;
      }
      T item = keys::fresh_item<T>();
      std::string head = fmt::format("{}.{}.", list.path, entry_label(entry, items.size() + 1));
      if (lines_.contains(head)) head = fmt::format("{}.{}.", list.path, items.size() + 1);  // a name used twice
      lines_[head] = entry.line;
      if constexpr (std::is_same_v<T, GrainSupply>) {
        if (us_file_ && !states(entry.leaves, "bag")) item.store.bag = us_bag;
      }
      entry_position_ = fmt::format("{}.{}.", list.path, items.size() + 1);
      table(list.keys(), entry.leaves, item, head, entry.line);
      entry_position_.clear();
      unknown(entry.leaves, head, keys::list_key_names(list.path));
      items.push_back(std::move(item));
    }
  }

  static std::string entry_label(const Entry& entry, std::size_t position) {
    for (const Leaf& leaf : entry.leaves) {
      if (leaf.path == "name" && leaf.raw.shape == keys::Raw::Shape::text && !leaf.raw.text.empty())
        return one_line(leaf.raw.text);
    }
    return std::to_string(position);
  }

  void choices() {
    constexpr std::string_view head = "choose.";
    for (Leaf& leaf : document_.leaves) {
      if (leaf.used || !leaf.path.starts_with(head)) continue;
      leaf.used = true;
      lines_[leaf.path] = leaf.line;
      if (leaf.raw.shape != keys::Raw::Shape::list) {
        complain(leaf.line, leaf.path, shown(leaf.raw), "must be a list of values to try, such as [3, 4, 5]", "");
        continue;
      }
      Choice choice{leaf.path.substr(head.size()), {}};
      for (const keys::Raw& item : leaf.raw.items) choice.values.push_back(item.text);
      scenario_.choose.choices.push_back(std::move(choice));
    }
  }

  void unknown(const std::vector<Leaf>& leaves, const std::string& head, const std::vector<std::string>& known) {
    for (const Leaf& leaf : leaves) {
      if (leaf.used) continue;
      complain(leaf.line, head + leaf.path, shown(leaf.raw), "is not a known key", nearest(leaf.path, known));
    }
  }

  void apply(const std::vector<std::string>& settings, bool single_keys) {
    const auto& names = keys::scenario_key_names();
    for (const std::string& setting : settings) {
      const auto equals = setting.find('=');
      const std::string key = setting.substr(0, equals);
      const bool single = std::find(names.begin(), names.end(), key) != names.end();
      if (single != single_keys) continue;
      if (equals == std::string::npos) {
        complain(0, setting, "", "a setting is written KEY=VALUE", "rack.tiers=5");
        problems_.back().typed = true;
      } else if (auto problem = set_key(scenario_, key, std::string_view(setting).substr(equals + 1))) {
        problems_.push_back(std::move(*problem));
        problems_.back().typed = true;
      } else if (const auto part = kit_part(scenario_, key)) {
        once(key, *part, setting.substr(equals + 1));
      }
    }
  }

  /// A kit that is taken by a setting, and a setting of its own for what the kit brings, which the kit would silently replace.
  void once(const std::string& key, const std::string& part, const std::string& name) {
    if (name == "none") return;
    for (const std::string& brought : kit_keys_of(scenario_, part, name)) {
      const bool typed = std::any_of(settings_.begin(), settings_.end(), [&](const std::string& s) { return stated_twice(scenario_, {brought, s.substr(0, s.find('='))}).has_value(); });
      if (!typed) continue;
      complain(0, brought, "", fmt::format("is also set by {}={}: one or the other", key, name), "");
      problems_.back().typed = true;
    }
  }

  void weather(const std::string& folder) {
    for (Problem& problem : load_weather(scenario_, folder)) {
      problem.line = lines_[problem.key];
      problems_.push_back(std::move(problem));
    }
  }

  /// Cross-checks name keys; the line is that of the key, else of its entry. A key already complained of is left alone.
  void cross_checks() {
    Problems found = check_scenario(scenario_);
    // A pipe whose end is not known makes a network that nobody drew: one complaint is enough.
    const bool no_network = std::any_of(problems_.begin(), problems_.end(), [](const Problem& p) {
      return p.key.starts_with("water.pipe.") || p.key.starts_with("water.node.");
    });
    for (Problem& problem : found) {
      if (no_network && (problem.key.starts_with("water.node") || problem.key.starts_with("water.pipe"))) continue;
      const bool known =
          std::any_of(problems_.begin(), problems_.end(), [&](const Problem& p) { return p.key == problem.key; });
      if (known || date_refused(problem.key)) continue;
      if (const auto line = lines_.find(problem.key); line != lines_.end()) {
        problem.line = line->second;
      } else if (const auto dot = problem.key.rfind('.'); dot != std::string::npos) {
        const auto entry = lines_.find(problem.key.substr(0, dot + 1));
        if (entry != lines_.end()) problem.line = entry->second;
      }
      problems_.push_back(std::move(problem));
    }
  }

  /// A stay is asked for both its dates; one that was refused is no date left out.
  [[nodiscard]] bool date_refused(const std::string& key) const {
    constexpr std::string_view each_year = ".stays_each_year";
    if (!key.ends_with(each_year)) return false;
    const std::string head = key.substr(0, key.size() - each_year.size());
    return std::any_of(problems_.begin(), problems_.end(), [&](const Problem& p) { return p.key.starts_with(head + ".arrives") || p.key.starts_with(head + ".leaves"); });
  }

  void complain(int line, const std::string& key, std::string value, std::string why, std::string suggestion) {
    problems_.push_back(Problem{line, one_line(key), std::move(value), std::move(why), std::move(suggestion)});
  }

  static constexpr Kilograms us_bag{50.0 * 0.45359237};  ///< 50 lb, the usual bag where units are US
  bool us_file_ = false;  ///< does the file itself, not a setting, ask for US units?
  Document document_;
  const std::vector<std::string>& settings_;  ///< while the file is read
  std::string entry_position_;  ///< "group.2." while the second group is read
  Scenario scenario_;
  Problems problems_;
  std::map<std::string, int> lines_;  ///< dotted key, or "list.label." of an entry, to line
};

/// A document that could not be parsed has one problem and nothing else to say.
bool unreadable(const Document& document) {
  return !document.problems.empty() && document.leaves.empty() && document.entries.empty();
}

}  // namespace

Reading read_scenario(std::string_view text, const std::vector<std::string>& settings, const std::string& folder) {
  Reading reading;
  reading.text = std::string(text);
  Document document = parse_document(text);
  if (unreadable(document)) {
    reading.problems = std::move(document.problems);
    return reading;
  }
  Filler filler(std::move(document), settings, folder);
  reading.problems = std::move(filler.problems());
  std::stable_sort(reading.problems.begin(), reading.problems.end(), [](const Problem& a, const Problem& b) {
    return (a.line == 0 ? 1 << 30 : a.line) < (b.line == 0 ? 1 << 30 : b.line);
  });
  if (reading.problems.empty()) reading.scenario = std::move(filler.scenario());
  return reading;
}

}  // namespace rackwright
