#include "sim/app/load.hpp"

#include <fmt/core.h>

#include "sim/app/exit.hpp"
#include "sim/app/say.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright::app {

Loaded load(const Options& options) {
  if (options.words.empty()) throw BadInput("say which scenario: the path of a .toml file");
  if (options.words.size() > 1)
    throw BadInput(fmt::format("one scenario at a time; \"{}\" is one word too many", options.words[1]));
  const std::string& path = options.words.front();
  Reading reading = read_scenario_file(path, options.settings);
  if (!reading.problems.empty()) throw BadInput(problems_text(path, reading.problems));
  return {path, std::move(reading.text), std::move(reading.scenario.value())};
}

}  // namespace rackwright::app
