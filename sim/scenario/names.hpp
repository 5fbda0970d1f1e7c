#pragma once
// Which names exist, for messages and for telling a section from a key.

#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/scenario.hpp"

namespace rackwright::keys {

/// "rack", "water": a table that holds keys.
bool is_section(std::string_view path);
/// "group", "water.node": a list of tables.
bool is_list(std::string_view path);
/// Section and list names.
std::vector<std::string> table_names();
/// Dotted names of the keys that stand once.
const std::vector<std::string>& scenario_key_names();
/// Those and the keys of every entry of this scenario's lists, as set_key takes them.
std::vector<std::string> all_key_names(const Scenario& scenario);
/// Names of the keys of one list's entries.
std::vector<std::string> list_key_names(std::string_view list);

/// Lets line.grains name every grain, in order.
void name_all_grains(Scenario& scenario);

/// How an entry is addressed: its name where it has one that no earlier entry has, else its position from 1.
template <class T, class NameOf>
std::string item_label(const std::vector<T>& items, std::size_t index, NameOf name_of) {
  const std::string_view name = name_of(items[index]);
  bool taken = name.empty();
  for (std::size_t i = 0; i < index; ++i) taken = taken || name_of(items[i]) == name;
  return taken ? std::to_string(index + 1) : std::string(name);
}

/// "grain.barley": what the keys of a scenario's grain begin with.
std::string grain_head(const Scenario& scenario, std::size_t index);

/// The entry a label means, or -1.
template <class T, class NameOf>
int item_index(const std::vector<T>& items, std::string_view label, NameOf name_of) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (label == std::to_string(i + 1) || (!label.empty() && name_of(items[i]) == label)) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace rackwright::keys
