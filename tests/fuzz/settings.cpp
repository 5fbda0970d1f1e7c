// Quantities and KEY=VALUE settings on a scenario that is otherwise good.
#include <array>
#include <cmath>
#include <fstream>
#include <functional>
#include <iterator>

#include "sim/scenario/names.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"
#include "tests/fuzz/target.hpp"
#include "tests/paths.hpp"

namespace rackwright::fuzz {
namespace {

const Scenario& demo() {
  static const Scenario scenario =
      read_scenario_file(std::string(RACKWRIGHT_SOURCE_DIR) + "/scenarios/hillside.toml").scenario.value();
  return scenario;
}

}  // namespace

std::vector<std::string> seeds() {
  std::vector<std::string> all{"25 lb", "14 gal/h", "38 degF", "7 cups", "4 lb/ft2", "1.5e-3 m3", "92 %", "0.3 EUR/kWh", "12:30", "1 week"};
  for (const std::string& key : keys::all_key_names(demo()))
    all.push_back(key + "=" + get_key(demo(), key).value_or("1"));
  return all;
}

std::vector<std::string> words() {
  std::vector<std::string> all = keys::all_key_names(demo());
  for (const char* piece : {"=", " kg", " lb", " degC", " K", " h", " min", " W", " %", "/", "^", "-1", "(", ")", "nan", "1e999", "0x1p3", ".", " per "})
    all.emplace_back(piece);
  return all;
}

void attempt(const std::string& input) {
  static constexpr std::array units{"kg", "degC", "K", "h", "m", "kg m-2", "L h-1", "1", "W"};
  // Three of the nine a try, by the input's own bits, so that a case found is one that stays.
  const std::size_t lot = std::hash<std::string>{}(input);
  for (std::size_t i = 0; i < 3; ++i) {
    const char* unit = units[(lot + 3 * i) % units.size()];
    const auto read = read_quantity(input, unit);
    if (const double* value = std::get_if<double>(&read)) demand(std::isfinite(*value), "a quantity that is accepted is finite");
    else demand(!std::get<UnitFault>(read).why.empty(), "a quantity that is refused says why");
  }
  const auto equals = input.find('=');
  if (equals == std::string::npos) return;
  const std::string key = input.substr(0, equals);
  Scenario changed = demo();
  const bool refused = set_key(changed, key, std::string_view(input).substr(equals + 1)).has_value();
  // One in eight is also looked at whole, which takes far longer than setting it.
  if (lot / units.size() % 8 != 0) return;
  if (refused) {
    demand(changed == demo(), "a setting that is refused changes nothing");
    return;
  }
  // Its own text sets it to the same again.
  if (const auto text = get_key(changed, key)) {
    Scenario back = demo();
    demand(!set_key(back, key, *text) && back == changed, "a setting is set alike by its own text");
  }
  // Read back as written it is the same, or is refused by a check over several keys.
  const Problems problems = check_scenario(changed);
  const Reading again = read_scenario(resolved_text(changed));
  demand(problems.empty() == again.scenario.has_value(), "a scenario as set and as written are judged alike");
  if (again.scenario) demand(*again.scenario == changed, "a setting survives being written out");
}

}  // namespace rackwright::fuzz
