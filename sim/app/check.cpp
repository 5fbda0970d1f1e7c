// `rackwright check`: is the scenario sound, and what follows from it?

#include <algorithm>
#include <cstdio>
#include <iterator>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include <fmt/core.h>

#include "sim/app/check_facts.hpp"
#include "sim/app/check_frost.hpp"
#include "sim/app/check_work.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/load.hpp"
#include "sim/report/command_words.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/words.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/cautions_place.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/weather_keys.hpp"
#include "sim/study/run.hpp"

namespace rackwright::app {

namespace {

using Json = nlohmann::ordered_json;

// Enough replications for a mean a keeper can reckon with, few enough to be done before one looks up.
study::Summary quick_look(const Plan& plan, Winters& winters) {
  constexpr int plays = 20;
  study::Summary summary(plan.scenario.target);
  study::run_replications(plan, with_rows(plan, plays), nullptr, [&](const study::Block& block) {
    for (const Outcome& outcome : block.outcomes) summary.add(outcome);
    winters.add(plan, block);
    if (!block.failures.empty())
      throw std::runtime_error(
          fmt::format("replication {} failed: {}", block.failures.front().replication, block.failures.front().what));
  });
  return summary;
}

constexpr double little_served = 0.75;  // below it more than now and then a feeding is short; our choice

std::string value_text(const Plan& plan, const Fact& fact) {
  if (const auto* word = std::get_if<std::string>(&fact.value)) return *word;
  return amount(plan, std::get<double>(fact.value), fact.unit);
}

void print_text(const Plan& plan, const std::vector<Section>& sections, const std::vector<std::string>& cautions) {
  fmt::print("{}\n", plan.scenario.title);
  for (const std::string& grave : report::grave_cautions(cautions)) fmt::print("{}", report::wrapped(grave));
  for (const Section& section : sections) {
    fmt::print("\n{}\n", section.title);
    for (const Fact& fact : section.facts)
      fmt::print("  {:<36} {:>12}{}{}\n", fact.label, value_text(plan, fact), fact.remark.empty() ? "" : "   ",
                 fact.remark);
  }
  const std::vector<std::string> others = report::other_cautions(cautions);
  if (others.empty()) return;
  fmt::print("\nTo be careful about\n");
  for (const std::string& caution : others) fmt::print("{}", report::wrapped("- " + caution, 2, 2));
}

void print_json(const Plan& plan, const std::vector<Section>& sections, const std::vector<std::string>& cautions) {
  Json all = {{"title", plan.scenario.title}};
  for (const Section& section : sections) {
    Json& into = all[section.key];
    for (const Fact& fact : section.facts) {
      const auto* number = std::get_if<double>(&fact.value);
      into[fact.key] = number != nullptr ? Json{{"value", *number}, {"unit", fact.unit}}
                                         : Json{{"value", std::get<std::string>(fact.value)}};
    }
  }
  all["cautions"] = cautions;
  fmt::print("{}\n", all.dump(2));
}

/// Keys of [climate] that are stated beside a weather file, which goes before them: what they say is seen when the scenario is read without it.
std::vector<std::string> weather_keys_in_vain(const Loaded& loaded, const Options& options) {
  if (!loaded.scenario.weather.record) return {};
  std::vector<std::string> settings = options.settings;
  settings.insert(settings.end(), {"climate.file=none", "climate.days="});
  const Reading without = read_scenario_file(loaded.path, settings);
  if (!without.scenario) return {};
  const std::vector<std::string> keys = stated_in_vain(loaded.scenario, *without.scenario, written_keys(loaded.text, options.settings));
  if (keys.empty()) return {};
  return {fmt::format("{} {} nothing beside climate.file: the measured days go before {}. Take out one or the other.", listed(keys),
                      keys.size() == 1 ? "changes" : "change", keys.size() == 1 ? "it" : "them")};
}

}  // namespace

int check(const Options& options) {
  const Loaded loaded = load(options);
  const Plan plan = make_plan(loaded.scenario);
  Winters winters;
  const study::Summary played = quick_look(plan, winters);
  const std::vector<Section> sections{line_facts(plan),  grain_facts(plan), feed_facts(plan, played),
                                      water_facts(plan), rack_facts(plan),  work_facts(plan), money_facts(plan)};
  std::vector<std::string> care = report::with_farm(cautions(loaded.scenario), options.command_line);
  for (std::string& vain : weather_keys_in_vain(loaded, options)) care.push_back(std::move(vain));
  // Told where the plays leave no doubt that a usual year misses what is asked.
  if (const study::Estimate served = played.ratio("served", "wanted"); played.estimate("wanted").mean > 0.0 && (served.mean < little_served || served.high < plan.scenario.target.fill_rate))
    care.push_back(lacking_words(plan, served.mean, played.estimate("wanted").mean / plan.horizon_days));
  if (std::string surplus = surplus_words(plan, played.estimate("wanted").mean / plan.horizon_days); !surplus.empty()) care.push_back(std::move(surplus));
  std::vector<std::string> work = work_cautions(plan, played);
  care.insert(care.end(), std::make_move_iterator(work.begin()), std::make_move_iterator(work.end()));
  for (std::string& one : frost_cautions(plan, winters)) say_once(care, std::move(one));
  options.json ? print_json(plan, sections, care) : print_text(plan, sections, care);
  return good;
}

}  // namespace rackwright::app
