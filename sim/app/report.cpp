// `rackwright report`: a result file told again, in the terminal or as a page.

#include <fmt/core.h>

#include <cerrno>
#include <cmath>
#include <cstdio>
#include <deque>
#include <exception>
#include <filesystem>
#include <system_error>

#include "sim/app/check_facts.hpp"
#include "sim/app/check_work.hpp"
#include "sim/app/commands.hpp"
#include "sim/app/exit.hpp"
#include "sim/app/output.hpp"
#include "sim/app/say.hpp"
#include "sim/app/show.hpp"
#include "sim/report/csv.hpp"
#include "sim/report/html_page.hpp"
#include "sim/results/fault.hpp"
#include "sim/results/output_file.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright::app {

namespace {

report::DesignSection readable(const Plan& plan, const Section& section) {
  report::DesignSection out{section.key, section.title, {}};
  for (const Fact& fact : section.facts) {
    const auto* word = std::get_if<std::string>(&fact.value);
    out.facts.push_back(
        {fact.label, word != nullptr ? *word : amount(plan, std::get<double>(fact.value), fact.unit), fact.remark,
         fact.key});
  }
  return out;
}

// Mean size of the orders a store places when so much is sown a day [kg]: whole bags, placed at the end of a day. 0: none is ever placed.
double usual_order(const grain::StorePolicy& store, double daily) {
  constexpr int days = 3650;
  double ordered = 0.0;
  int orders = 0;
  Kilograms stock = store.order_up_to;  // with what is on its way
  for (int day = 0; day < days; ++day) {
    stock = Kilograms(std::max(0.0, stock.value() - daily));
    const Kilograms more = grain::order_quantity(store, stock, Kilograms(0.0));
    if (more.value() <= 0.0) continue;
    stock = stock + more;
    ordered += more.value();
    ++orders;
  }
  return orders > 0 ? ordered / orders : 0.0;
}

// How much of the planned use was sown, and how much was bought for it, in the replications of the file; 1 and 1 where it has none. Fewer trays are
// sown as wanted or for want of something; grain that is too old, given back or laid out in a trial is bought on top.
struct Used { double sown = 1.0, bought = 1.0; };
Used used_of(const results::ResultFile& file, double planned_a_year) {
  const auto sown = file.estimate("grain_used");
  if (!sown || !(planned_a_year > 0.0) || file.header.horizon_days <= 0) return {};
  double bought = sown->mean;
  for (const char* lost : {"grain_aged_out", "grain_refused", "grain_tried"})
    if (const auto e = file.estimate(lost)) bought += e->mean;
  const double scale = 365.0 / static_cast<double>(file.header.horizon_days) / planned_a_year;
  return {sown->mean * scale, bought * scale};
}

// How often each grain is ordered: what is used up over what an order usually brings.
void add_orders(const Plan& plan, const Section& grain, const results::ResultFile& file, report::DesignSection& into) {
  const auto daily_of = [&](const GrainSupply& supply) {
    for (const Fact& fact : grain.facts)
      if (fact.key == supply.name + ".per_day") return std::get<double>(fact.value);
    return 0.0;
  };
  double planned = 0.0;
  for (const GrainSupply& supply : plan.scenario.grains) planned += 365.0 * daily_of(supply);
  const Used used = used_of(file, planned);
  for (const GrainSupply& supply : plan.scenario.grains) {
    const double daily = daily_of(supply), bought = daily * used.bought;
    const double order = usual_order(supply.store, bought);
    if (daily <= 0.0 || order <= 0.0) continue;  // no batch is sown of it, or no order ever fits
    into.facts.push_back({supply.name + ": a year", amount(plan, 365.0 * bought, "kg"),
                          fmt::format("to be bought, {} of it to be sown; {:.0f} bags of {}", amount(plan, 365.0 * daily * used.sown, "kg"),
                                      std::ceil(365.0 * bought / supply.store.bag.value()), amount(plan, supply.store.bag.value(), "kg"))});
    into.facts.push_back({supply.name + ": orders a year", fmt::format("about {:.0f}", 365.0 * bought / order),
                          fmt::format("of about {}, every {:.0f} days", amount(plan, order, "kg"), order / bought)});
  }
}

// What follows from the scenario in the file with the design on the page. A file of other making may hold a text that
// no longer reads; its page then goes without.
report::DesignFacts design_facts(const results::ResultFile& file) {
  report::DesignFacts facts;
  std::vector<std::string> settings;
  for (const auto& [key, value] : report::design_settings(file)) settings.push_back(fmt::format("{}={}", key, value));
  const Reading reading = read_scenario(file.text("scenario/resolved"), settings);
  if (!reading.problems.empty() || !reading.scenario) return facts;
  const Plan plan = make_plan(*reading.scenario);
  const Section grain = grain_facts(plan), water = water_facts(plan);
  for (const Section& section : {line_facts(plan), grain, rack_facts(plan), water, work_facts(plan)})
    facts.sections.push_back(readable(plan, section));
  add_orders(plan, grain, file, facts.sections[1]);
  // The file's own are of the scenario as it was read; a design that was chosen has others.
  if (!settings.empty() || file.find("scenario/caution") == nullptr) facts.cautions = cautions(*reading.scenario);
  for (const auto& key : keys::scenario_keys()) facts.sources[key.name] = key.source;
  keys::for_each_list([&](const auto& list) {
    for (const auto& key : list.keys()) facts.sources[std::string(list.path) + "." + key.name] = key.source;
  });
  for (const Fact& fact : water.facts)
    if (fact.key.starts_with("tier_") && fact.key.ends_with("_flow"))
      facts.tiers.push_back(fmt::format("{} {} of water: {}", fact.label,
                                        amount(plan, std::get<double>(fact.value), fact.unit), fact.remark));
  return facts;
}

void write_page(const Options& options) {
  const std::string& input = options.words.front();
  if (options.out->empty()) throw BadInput("say where to write the page: --out REPORT.html");
  std::error_code ignored;
  if (std::filesystem::equivalent(*options.out, input, ignored))
    throw BadInput(fmt::format("--out {}: that is the result file itself; --force does not go that far", *options.out));
  // Of a sweep the gist: all its points may not fit into memory.
  results::ResultFile file = results::read_result(input, results::Part::summary);
  if (file.header.kind != "sweep") file = results::read_result(input);
  results::OutputFile out(*options.out, options.force);
  write_whole(report::html_page(file, design_facts(file)), out);
  out.put_in_place();
  talk(options.quiet, "written: " + *options.out);
}

// Every table of the file as its own comma-separated file, all or none.
void write_tables(const Options& options) {
  if (options.csv->empty()) throw BadInput("say into which folder: --csv FOLDER");
  const results::ResultFile file = results::read_result(options.words.front());
  std::error_code failed;
  const bool made = std::filesystem::create_directory(*options.csv, failed);
  if (failed) throw BadInput(fmt::format("--csv {}: the folder cannot be made: {}", *options.csv, failed.message()));
  try {
    std::deque<results::OutputFile> tables;
    for (const std::string& name : report::csv_tables(file))
      write_whole(report::csv(file, name), tables.emplace_back(*options.csv + "/" + name + ".csv", options.force));
    for (results::OutputFile& table : tables) table.put_in_place();
    talk(options.quiet, fmt::format("written: {} tables in {}", tables.size(), *options.csv));
  } catch (...) {
    if (made) std::filesystem::remove(*options.csv, failed);
    throw;
  }
}

}  // namespace

int report(const Options& options) {
  if (options.words.size() != 1) throw BadInput("say which result file: the path of one .h5 file");
  const int ways = int{options.text} + int{options.json} + int{options.out.has_value()} + int{options.csv.has_value()};
  if (ways != 1)
    throw BadInput(
        "say how, in one way: --out REPORT.html for a page to read or print, --text for a page on the terminal, --json "
        "for the numbers, --csv FOLDER for tables");
  if (options.csv)
    write_tables(options);
  else if (options.out)
    write_page(options);
  else
    show_result(options.words.front(), options.json);
  return good;
}

}  // namespace rackwright::app
