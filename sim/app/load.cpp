#include "sim/app/load.hpp"

#include <fmt/core.h>

#include "sim/app/exit.hpp"
#include "sim/app/say.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/warm_up.hpp"

namespace rackwright::app {

namespace {

// What is typed is typed once; a file of settings may be overruled.
void set_once(const Scenario& scenario, const std::vector<std::string>& settings) {
  const std::vector<Stated> typed = typed_settings(settings);
  if (const auto twice = clash(scenario, typed)) {
    const auto words = [&](std::size_t i) { return kit_part(scenario, typed[i].key) ? typed[i].key + "=" + typed[i].value : typed[i].key; };
    throw BadInput(fmt::format("--set {}: sets again what --set {} does; write one of them", words(twice->later), words(twice->earlier)));
  }
}

}  // namespace

std::vector<Stated> typed_settings(const std::vector<std::string>& settings) {
  std::vector<Stated> typed;
  for (const std::string& setting : settings) {
    if (setting.starts_with('@')) continue;
    const auto equals = setting.find('=');
    typed.push_back({setting.substr(0, equals), equals == std::string::npos ? "" : setting.substr(equals + 1)});
  }
  return typed;
}

Loaded load(const Options& options) {
  if (options.words.empty()) throw BadInput("say which scenario: the path of a .toml file");
  if (options.words.size() > 1)
    throw BadInput(fmt::format("one scenario at a time; \"{}\" is one word too many", options.words[1]));
  const std::string& path = options.words.front();
  Reading reading = read_scenario_file(path, options.settings);
  if (!reading.problems.empty()) throw BadInput(problems_text(path, reading.problems));
  Scenario scenario = std::move(reading.scenario.value());
  set_once(scenario, options.settings);
  if (scenario.run.warm_up == WarmUp::automatic && !scenario.run.warm_up_length) {
    const int found = study::steady_warm_up(scenario);
    scenario.run.warm_up_length = days(found);
    talk(options.quiet, fmt::format("the line forgets an empty start within {} days (MSER-5): run in for so long", found));
  }
  return {path, std::move(reading.text), std::move(scenario)};
}

}  // namespace rackwright::app
