// `rackwright evaluate`: the list of models, or one of them.

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include <fmt/core.h>

#include "sim/app/commands.hpp"
#include "sim/app/evaluate_arguments.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/say.hpp"
#include "sim/scenario/suggest.hpp"

namespace rackwright::app {

namespace {

using Json = nlohmann::ordered_json;

std::string argument_line(const Argument& a, std::size_t width) {
  std::string line = fmt::format("    {:<{}}", a.name, width);
  line += a.unit.empty() ? "word" : a.unit == "1" ? "number" : fmt::format("[{}]", a.unit);
  if (!a.or_unit.empty()) line += fmt::format(" or [{}]", a.or_unit);
  if (a.list) line += ", commas or blanks between";
  if (a.clock) line += " or a time such as 6:30";
  if (a.least < a.most) line += fmt::format(", {:g} to {:g}", a.least, a.most);
  if (!a.standard.empty()) line += fmt::format(", {} unless given", a.standard);
  if (a.optional) line += ", may be left out";
  return line + fmt::format("; {}\n", a.sentence);
}

void print_list() {
  for (const Evaluator& model : evaluators()) {
    fmt::print("{}\n  {}\n", model.name, model.sentence);
    std::size_t width = 20;
    for (const Argument& a : model.arguments) width = std::max(width, a.name.size() + 2);
    for (const Argument& a : model.arguments) fmt::print("{}", argument_line(a, width));
    fmt::print("  source: {}\n\n", model.source);
  }
}

void print_list_json() {
  Json all = Json::object();
  for (const Evaluator& model : evaluators()) {
    Json keys = Json::object();
    for (const Argument& a : model.arguments) {
      Json key = {{"sentence", a.sentence}, {"required", a.standard.empty() && !a.optional}};
      if (!a.unit.empty()) key["unit"] = a.unit;
      if (!a.standard.empty()) key["standard"] = a.standard;
      if (a.least < a.most) {
        key["least"] = a.least;
        key["most"] = a.most;
      }
      keys[std::string(a.name)] = key;
    }
    all[std::string(model.name)] = {{"sentence", model.sentence}, {"source", model.source}, {"keys", keys}};
  }
  fmt::print("{}\n", all.dump(2));
}

void print_results(const std::vector<Result>& results, bool json) {
  Json object = Json::object();
  for (const Result& r : results) {
    // A median that is never reached is infinite: "never" as text, null as JSON.
    if (std::isnan(r.value)) throw std::logic_error(fmt::format("{} came out as {}", r.name, r.value));
    if (json)
      object[r.name] = {{"value", r.value}, {"unit", r.unit}};
    else if (std::isinf(r.value))
      fmt::print("{} = never\n", r.name);
    else
      fmt::print("{} = {:.10g}{}{}\n", r.name, r.value, r.unit == "1" ? "" : " ", r.unit == "1" ? "" : r.unit);
  }
  if (json) fmt::print("{}\n", object.dump());
}

std::vector<std::string> words_of(std::string_view name) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at <= name.size();) {
    const std::size_t end = std::min(name.find_first_of("-_", at), name.size());
    words.emplace_back(name.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

/// The first name of which one word is near: "mold" finds "mould-growth".
std::string with_a_word_near(const std::string& written, const std::vector<std::string>& names) {
  std::vector<std::string> words;
  std::vector<std::size_t> of;
  for (std::size_t i = 0; i < names.size(); ++i) {
    for (std::string& word : words_of(names[i])) {
      words.push_back(std::move(word));
      of.push_back(i);
    }
  }
  const std::string word = nearest(written, words);
  const auto found = std::find(words.begin(), words.end(), word);
  return word.empty() ? "" : names[of[static_cast<std::size_t>(found - words.begin())]];
}

/// The model with the fewest keys of those that have one of which a word is near: "humidty" finds "moist-air".
std::string with_a_key_near(const std::string& written) {
  std::vector<std::string> keys;
  for (const Evaluator& model : evaluators())
    for (const Argument& a : model.arguments) keys.emplace_back(a.name);
  const std::string key = with_a_word_near(written, keys);
  const Evaluator* best = nullptr;
  for (const Evaluator& model : evaluators()) {
    const bool has = std::any_of(model.arguments.begin(), model.arguments.end(), [&](const Argument& a) { return a.name == key; });
    if (has && (best == nullptr || model.arguments.size() < best->arguments.size())) best = &model;
  }
  return best == nullptr ? "" : fmt::format("{}, which knows {}", best->name, key);
}

const Evaluator& wanted(const std::string& name) {
  if (const Evaluator* model = find_evaluator(name)) return *model;
  std::vector<std::string> names;
  for (const Evaluator& model : evaluators()) names.emplace_back(model.name);
  std::string meant = nearest(name, names);
  if (meant.empty()) meant = with_a_word_near(name, names);
  if (meant.empty()) meant = with_a_key_near(name);
  throw BadInput(fmt::format("evaluate: there is no model \"{}\"{}; rackwright evaluate lists them all", name, did_you_mean(meant)));
}

}  // namespace

int evaluate(const Options& options) {
  if (options.words.empty()) {
    options.json ? print_list_json() : print_list();
    return good;
  }
  const Evaluator& model = wanted(options.words.front());
  Problems problems;
  const Arguments arguments = read_arguments(model, {options.words.begin() + 1, options.words.end()}, problems);
  const std::string where = fmt::format("evaluate {}", model.name);
  if (!problems.empty()) throw BadInput(problems_text(where, problems));
  std::vector<Result> results;
  try {
    results = model.run(arguments);
  } catch (const BadArguments& bad) { throw BadInput(fmt::format("{}: {}", where, bad.why)); }
  print_results(results, options.json);
  return good;
}

}  // namespace rackwright::app
