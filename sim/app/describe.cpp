// `rackwright describe`: the reference pages, made from the tables the program itself goes by.

#include <cstdio>

#include <fmt/core.h>

#include "sim/app/commands.hpp"
#include "sim/app/evaluate.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/guide.hpp"
#include "sim/app/say.hpp"
#include "sim/results/schema.hpp"
#include "sim/scenario/describe.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::app {

namespace {

std::string argument_row(const Argument& a) {
  std::string unit(a.unit.empty() ? "word" : a.unit == "1" ? "number" : a.unit);
  if (!a.or_unit.empty()) unit += fmt::format(" or {}", a.or_unit);
  if (a.clock) unit += " or 6:30";
  const std::string range = a.least < a.most ? fmt::format("{:g} to {:g}", a.least, a.most) : "";
  const std::string standard(!a.standard.empty() ? a.standard : a.optional ? "may be left out" : "must be given");
  return fmt::format("| `{}` | {}{} | {} | {} | {} |\n", a.name, unit, a.list ? ", a list" : "", range, standard,
                     a.sentence);
}

std::string describe_models() {
  std::string page =
      "# Models\n\nMade by `rackwright describe models`; do not edit.\n\n"
      "Each can be asked by itself with `rackwright evaluate MODEL key=value ...`; the simulator calls the same "
      "code.\nAnswers have ten digits, for comparing with other sources; how many of them to trust, the page of the model says "
      "(docs/models).\n";
  for (const Evaluator& model : evaluators()) {
    page += fmt::format("\n## {}\n\n{}\n\nSource: {}.\n\n", model.name, model.sentence, model.source);
    page += "| key | unit | range | when not given | meaning |\n| --- | --- | --- | --- | --- |\n";
    for (const Argument& a : model.arguments) page += argument_row(a);
  }
  return page;
}

}  // namespace

int describe(const Options& options) {
  const std::vector<std::string> pages{"scenario", "results", "models", "completion-bash", "completion-zsh", "manual"};
  constexpr const char* all = "scenario, results, models, completion-bash, completion-zsh or manual";
  if (options.words.size() != 1) throw BadInput(fmt::format("say which page: {}", all));
  const std::string& page = options.words.front();
  if (page == "scenario")
    fmt::print("{}", describe_scenario());
  else if (page == "results")
    fmt::print("{}", results::describe_results());
  else if (page == "models")
    fmt::print("{}", describe_models());
  else if (page == "completion-bash")
    fmt::print("{}", bash_completion());
  else if (page == "completion-zsh")
    fmt::print("{}", zsh_completion());
  else if (page == "manual")
    fmt::print("{}", manual_page());
  else
    throw BadInput(fmt::format("there is no page \"{}\"{}; it is {}", page, did_you_mean(nearest(page, pages)), all));
  return good;
}

}  // namespace rackwright::app
