// Scenario files: what is accepted writes itself out and reads back equal; what is refused says why.
#include <filesystem>
#include <fstream>
#include <iterator>

#include "sim/scenario/names.hpp"
#include "sim/scenario/read.hpp"
#include "tests/fuzz/target.hpp"
#include "tests/paths.hpp"

namespace rackwright::fuzz {

std::vector<std::string> seeds() {
  std::vector<std::string> all;
  for (const char* name : {"minimal", "hillside", "summer-heat"}) {
    std::ifstream file(std::string(RACKWRIGHT_SOURCE_DIR) + "/scenarios/" + name + ".toml");
    all.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  // The whole table of keys, from a scenario that has them all.
  if (const Reading demo = read_scenario(all[1]); demo.scenario) all.push_back(resolved_text(*demo.scenario));
  return all;
}

std::vector<std::string> words() {
  std::vector<std::string> all = keys::scenario_key_names();
  for (const std::string& table : keys::table_names()) {
    all.push_back("\n[" + table + "]\n");
    all.push_back("\n[[" + table + "]]\n");
    if (keys::is_list(table))
      for (const std::string& key : keys::list_key_names(table)) all.push_back(key);
  }
  for (const char* piece : {" = ", "\"", "\"\"\"", "[", "]", "nan", "inf", "-", "1e308", "1e-308", "0", "9223372036854775807", " degF", " lb",
                            " gal/h", "true", "2025-02-30", "24:00", "\\u0000", "{}", ", ", "\xC3\xA9", "\xFF"})
    all.emplace_back(piece);
  return all;
}

void attempt(const std::string& input) {
  const Reading first = read_scenario(input);
  demand(first.scenario.has_value() == first.problems.empty(), "a scenario is given exactly when there is no problem");
  for (const Problem& problem : first.problems) demand(!problem.why.empty(), "every problem says why");
  if (!first.scenario) return;
  const Reading again = read_scenario(resolved_text(*first.scenario));
  demand(again.scenario.has_value(), "the resolved scenario is accepted");
  demand(*again.scenario == *first.scenario, "the resolved scenario reads back equal");
}

}  // namespace rackwright::fuzz
