#pragma once
// A draft: a scenario as the list of what it states, so that statements can be drawn, dropped and written as a file. Made from THE
// key table: a key added there is drawn here without a word.

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "sim/scenario/read.hpp"

namespace rackwright::test {

/// One line of a scenario file.
struct Statement {
  std::string list{};      ///< "group" or "water.node"; empty for a key that stands once
  int item = 0;            ///< entry of that list
  std::string key{};
  std::string value{};     ///< as TOML
  bool needed = false;     ///< an entry cannot do without it
  int level = -1;          ///< 0 its least value, 1 its greatest, -1 another
  friend bool operator==(const Statement&, const Statement&) = default;
};

using Draft = std::vector<Statement>;

/// Entries of a list that a draft has, by number.
inline std::vector<int> items_of(const Draft& draft, const std::string& list) {
  std::vector<int> items;
  for (const Statement& s : draft) {
    if (s.list == list && std::find(items.begin(), items.end(), s.item) == items.end()) items.push_back(s.item);
  }
  return items;
}

inline std::string text_of(const Draft& draft) {
  std::string text;
  for (const Statement& s : draft) {
    if (s.list.empty()) text += fmt::format("{} = {}\n", s.key, s.value);
  }
  std::vector<std::string> lists;
  for (const Statement& s : draft) {
    if (!s.list.empty() && std::find(lists.begin(), lists.end(), s.list) == lists.end()) lists.push_back(s.list);
  }
  for (const std::string& list : lists) {
    for (const int item : items_of(draft, list)) {
      text += fmt::format("[[{}]]\n", list);
      for (const Statement& s : draft) {
        if (s.list == list && s.item == item) text += fmt::format("{} = {}\n", s.key, s.value);
      }
    }
  }
  return text;
}

/// "group.goats.count" and such, as problems name it: "group.<name>.<key>".
inline std::map<std::string, std::size_t> names_of(const Draft& draft) {
  std::map<std::string, std::size_t> names;
  for (std::size_t i = 0; i < draft.size(); ++i) {
    const Statement& s = draft[i];
    if (s.list.empty()) {
      names[s.key] = i;
      continue;
    }
    const std::vector<int> items = items_of(draft, s.list);
    std::string label = std::to_string(std::find(items.begin(), items.end(), s.item) - items.begin() + 1);
    for (const Statement& other : draft) {
      if (other.list == s.list && other.item == s.item && other.key == "name") label = other.value.substr(1, other.value.size() - 2);
    }
    names[fmt::format("{}.{}.{}", s.list, label, s.key)] = i;
  }
  return names;
}

/// Drops what the problems complain of, or where the culprit is not stated what stands beside it; false when nothing could go.
inline bool drop_complained(Draft& draft, const Problems& problems) {
  std::vector<char> goes(draft.size(), 0);
  bool fed = false, absent = false;
  const auto names = names_of(draft);
  for (const Problem& problem : problems) {
    // Many keys make the weather: one at a time and any of them, or some would never stand beside the others.
    if (problem.key == "climate.mean") {
      std::vector<std::size_t> weather;
      for (const auto& [name, index] : names)
        if (name.starts_with("climate.") && !draft[index].needed) weather.push_back(index);
      if (!weather.empty()) {
        goes[weather[draft.size() * 7919 % weather.size()]] = 1;
        continue;
      }
    }
    const auto found = names.find(problem.key);
    if (found != names.end() && !draft[found->second].needed) {
      goes[found->second] = 1;
      continue;
    }
    if (problem.key == "group") (problem.why.find("is here on any") != std::string::npos ? absent : fed) = true;
    const std::string head = problem.key.substr(0, problem.key.rfind('.') + 1);
    for (const auto& [name, index] : names) {
      const Statement& s = draft[index];
      const bool network = s.list.starts_with("water.") && problem.key.starts_with("water.");
      const bool heat = problem.key == "climate.mean" && (s.list == "spell" || s.list == "hard_time");
      const bool lift = (problem.key == "water.pump_shutoff" || problem.key == "water.pump_full_flow") && s.key.starts_with("rack.");
      const bool whole_list = lift || network || heat || (s.list == "hard_time" && problem.key.starts_with("hard_time"));
      if (whole_list || (!s.needed && !head.empty() && name.starts_with(head))) goes[index] = 1;
    }
  }
  for (std::size_t i = 0; fed && i < draft.size(); ++i) {  // nobody wanted fodder
    if (draft[i].list != "group") continue;
    if (draft[i].key == "ration" || draft[i].key == "share") goes[i] = 1;
    if (draft[i].key == "count" && draft[i].value == "0") draft[i].value = std::string("7");
  }
  for (std::size_t i = 0; absent && i < draft.size(); ++i) {
    const std::string& key = draft[i].key;
    if (draft[i].list == "group" && (key.starts_with("arrives") || key.starts_with("leaves") || key == "stays_each_year")) goes[i] = 1;
  }
  const std::size_t before = draft.size();
  Draft kept;
  for (std::size_t i = 0; i < draft.size(); ++i) {
    if (goes[i] == 0) kept.push_back(draft[i]);
  }
  draft = std::move(kept);
  return fed || draft.size() < before;
}

/// The scenario a draft comes to once all that does not fit together has been dropped from it; nothing if that never ends.
inline std::optional<Scenario> settled(Draft& draft) {
  for (int round = 0; round < 200; ++round) {
    Reading reading = read_scenario(text_of(draft));
    if (reading.scenario) return reading.scenario;
    if (!drop_complained(draft, reading.problems)) return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace rackwright::test
