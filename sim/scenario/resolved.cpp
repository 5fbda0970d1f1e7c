// The scenario written out in full; also how two scenarios are compared and printed.
#include <ostream>

#include "sim/scenario/key_table.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright {
namespace {

template <class T>
std::string line(const keys::Key<T>& key, std::string_view name, const T& owner, const Scenario& scenario) {
  if (!key.instead_of.empty()) return "";
  const keys::Value value = key.get(owner, scenario);
  if (std::holds_alternative<std::monostate>(value)) return "";
  // Stated, it would stand over the key it follows when that is changed.
  const bool remark = key.follows != nullptr && key.follows(owner, scenario);
  return (remark ? std::string(keys::remark) : std::string()) + std::string(name) + " = " + keys::toml_text(key, value) + "\n";
}

std::string section_of(std::string_view key) {
  const auto dot = key.find('.');
  return dot == std::string_view::npos ? "" : std::string(key.substr(0, dot));
}

std::string choices_text(const Choose& choose) {
  std::string out;
  for (const Choice& choice : choose.choices) {
    out += keys::quoted(choice.key) + " = [";
    for (std::size_t i = 0; i < choice.values.size(); ++i) out += (i == 0 ? "" : ", ") + keys::quoted(choice.values[i]);
    out += "]\n";
  }
  return out;
}

}  // namespace

std::string resolved_text(const Scenario& scenario) {
  std::string out, section;
  for (const auto& key : keys::scenario_keys()) {
    const std::string owner = section_of(key.name);
    if (owner != section) out += "\n[" + owner + "]\n";
    section = owner;
    out += line(key, std::string_view(key.name).substr(owner.empty() ? 0 : owner.size() + 1), scenario, scenario);
  }
  out += choices_text(scenario.choose);  // [choose] is the last section of the key table
  Scenario copy = scenario;              // the accessors of lists are not const
  keys::for_each_list([&](const auto& list) {
    for (const auto& item : list.items(copy)) {
      out += "\n[[" + std::string(list.path) + "]]\n";
      for (const auto& key : list.keys()) out += line(key, key.name, item, scenario);
    }
  });
  return out;
}

bool operator==(const Scenario& a, const Scenario& b) { return resolved_text(a) == resolved_text(b); }

std::ostream& operator<<(std::ostream& out, const Scenario& scenario) { return out << resolved_text(scenario); }

}  // namespace rackwright
