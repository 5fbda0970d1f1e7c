#include "sim/app/evaluate_keys.hpp"

#include <algorithm>
#include <deque>
#include <string>

#include "models/base/expects.hpp"
#include "sim/scenario/key_number.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright::app {

Argument key_argument(std::string_view whole, std::string_view standard) {
  const auto& table = keys::scenario_keys();
  const auto key = std::find_if(table.begin(), table.end(), [&](const auto& one) { return one.name == whole; });
  EXPECTS(key != table.end());
  return {.name = std::string_view(key->name).substr(whole.find('.') + 1),
          .unit = key->unit,
          .standard = standard,
          .least = key->least,
          .most = key->most,
          .sentence = key->sentence,
          .whole = key->kind == keys::Kind::whole};
}

std::vector<Argument> key_arguments(std::string_view section, const std::vector<std::string_view>& names) {
  static std::deque<std::string> standards;  // arguments point at them; the list of models is made once
  std::vector<Argument> all;
  for (const std::string_view name : names) {
    const std::string whole = std::string(section) + "." + std::string(name);
    standards.push_back(get_key(Scenario{}, whole).value());
    all.push_back(key_argument(whole, standards.back()));
  }
  return all;
}

void set_given(Scenario& scenario, const Arguments& in, std::string_view section, const std::vector<std::string_view>& names) {
  for (const std::string_view name : names) {
    if (!in.has(name)) continue;
    const auto problem = set_number(scenario, std::string(section) + "." + std::string(name), in.number(name));
    EXPECTS(!problem);  // the argument has the key's own range
  }
}

}  // namespace rackwright::app
