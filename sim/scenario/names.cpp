#include "sim/scenario/names.hpp"

#include <algorithm>

#include "sim/scenario/key_table.hpp"
#include "sim/scenario/kits.hpp"

namespace rackwright::keys {

bool is_section(std::string_view path) {
  const auto& all = sections();
  return !path.empty() && std::any_of(all.begin(), all.end(), [&](const Section& s) { return s.name == path; });
}

bool is_list(std::string_view path) {
  bool found = false;
  for_each_list([&](const auto& list) { found = found || list.path == path; });
  return found;
}

std::vector<std::string> table_names() {
  std::vector<std::string> names;
  for (const Section& section : sections()) {
    if (!section.name.empty()) names.emplace_back(section.name);
  }
  for_each_list([&](const auto& list) { names.emplace_back(list.path); });
  return names;
}

const std::vector<std::string>& scenario_key_names() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> names;
    for (const auto& key : scenario_keys()) names.push_back(key.name);
    return names;
  }();
  return all;
}

std::vector<std::string> all_key_names(const Scenario& scenario) {
  std::vector<std::string> names = scenario_key_names();
  Scenario copy = scenario;
  for_each_list([&](const auto& list) {
    const auto& items = list.items(copy);
    for (std::size_t i = 0; i < items.size(); ++i) {
      const std::string head = std::string(list.path) + "." + item_label(items, i, list.name_of) + ".";
      for (const auto& key : list.keys()) names.push_back(head + key.name);
    }
  });
  for (const std::string& part : kit_parts(scenario)) names.push_back("kit." + part);
  return names;
}

std::vector<std::string> list_key_names(std::string_view path) {
  std::vector<std::string> names;
  for_each_list([&](const auto& list) {
    if (list.path != path) return;
    for (const auto& key : list.keys()) names.push_back(key.name);
  });
  return names;
}

void name_all_grains(Scenario& scenario) {
  scenario.line.grains.clear();
  for (const GrainSupply& grain : scenario.grains) scenario.line.grains.push_back(grain.name);
}

std::string grain_head(const Scenario& scenario, std::size_t index) {
  return "grain." + item_label(scenario.grains, index, [](const GrainSupply& g) { return std::string_view(g.name); });
}

}  // namespace rackwright::keys
