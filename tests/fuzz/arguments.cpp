// The command line: options of every command, and the keys of every model of evaluate.
#include <cmath>

#include "sim/app/commands.hpp"
#include "sim/app/evaluate_arguments.hpp"
#include "sim/app/exit.hpp"
#include "tests/fuzz/target.hpp"

namespace rackwright::fuzz {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (const char c : text) {
    if (c == '\n') lines.emplace_back();
    else if (c != '\0') lines.back() += c;
  }
  return lines;
}

}  // namespace

std::vector<std::string> seeds() {
  std::vector<std::string> all;
  for (const app::Command& command : app::commands()) all.push_back(std::string(command.name) + "\nfarm.toml\n--quiet\n--set\nrack.tiers=4");
  for (const app::Evaluator& model : app::evaluators()) {
    std::string words(model.name);
    for (const app::Argument& a : model.arguments)
      words += "\n" + std::string(a.name) + "=" + (a.standard.empty() ? "20" : std::string(a.standard));
    all.push_back(words);
  }
  return all;
}

std::vector<std::string> words() {
  std::vector<std::string> all{"\n", "=", "--", " degC", " %", "nan", "-1", "1e308", ",", "barley", "wheat", "maize"};
  for (const app::OptionEntry& option : app::option_table()) all.push_back("\n--" + std::string(option.name) + "\n");
  for (const app::Evaluator& model : app::evaluators())
    for (const app::Argument& a : model.arguments) all.push_back(std::string(a.name) + "=");
  return all;
}

void attempt(const std::string& input) {
  const std::vector<std::string> lines = lines_of(input);
  const std::vector<std::string> rest(lines.begin() + 1, lines.end());
  for (const app::Command& command : app::commands()) {
    if (command.name != lines[0]) continue;
    try {
      app::read_options(command.name, command.options, rest);
    } catch (const app::BadInput& bad) {
      demand(!bad.text().empty(), "a refused command line says why");
    }
  }
  const app::Evaluator* model = app::find_evaluator(lines[0]);
  if (model == nullptr) return;
  Problems problems;
  const app::Arguments arguments = app::read_arguments(*model, rest, problems);
  if (!problems.empty() || model->name == "queue") return;  // a queue runs for a second
  try {
    for (const app::Result& result : model->run(arguments))
      demand(!std::isnan(result.value), "a model answers within its ranges, if only with never");
  } catch (const app::BadArguments& bad) {
    demand(!bad.why.empty(), "a model that refuses says why");
  }
}

}  // namespace rackwright::fuzz
