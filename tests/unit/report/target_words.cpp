// The target as every report says it, and the words that hang on what a file holds.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "sim/report/html_page.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/text.hpp"
#include "sim/results/schema.hpp"
#include "tests/catch.hpp"
#include "tests/unit/report/html_sample.hpp"

using namespace rackwright;
using namespace rackwright::report;

namespace {

results::ResultFile with_target(const Target& target, std::uint64_t days = 365) {
  Scenario scenario;
  scenario.target = target;
  results::ResultFile file;
  file.header = results::sample::header("simulate", 10);
  file.header.horizon_days = days;
  file.arrays = results::scenario_arrays(scenario, "", "", {});
  return file;
}

Target usual() {
  Target t;
  t.fill_rate = 0.97;
  t.years = 0.9;
  return t;
}

/// As simulate makes it, of forty years, in whose summary an estimate may be put in place of the played one.
results::ResultFile simulated(const Target& target = usual()) {
  results::ResultFile file = with_target(target);
  study::Summary summary(target);
  for (std::uint32_t i = 0; i < 40; ++i) summary.add(results::sample::outcome(i));
  file.arrays.merge(results::summary_arrays(summary));
  file.header.replications_asked = file.header.replications_completed = 40;
  return file;
}

/// What was reached of a requirement: mean, low, high.
void require_is(results::ResultFile& file, std::size_t requirement, std::array<double, 3> reached) {
  file.arrays.at("summary/reached").numbers.at(requirement) = reached[0];
  file.arrays.at("summary/reached_low").numbers.at(requirement) = reached[1];
  file.arrays.at("summary/reached_high").numbers.at(requirement) = reached[2];
}

void put(results::ResultFile& file, const std::string& quantity, double mean, double low, double high) {
  const auto& names = file.at("summary/quantity").texts;
  const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), quantity) - names.begin());
  REQUIRE(at < names.size());
  file.arrays["summary/mean"].numbers[at] = mean;
  file.arrays["summary/low"].numbers[at] = low;
  file.arrays["summary/high"].numbers[at] = high;
  if (quantity == "success") require_is(file, 0, {mean, low, high});
}

}  // namespace

TEST_CASE("every limit of the target is told, those judged together before the share of years asked for") {
  Target t = usual();
  CHECK(target_words(with_target(t)) == "at least 97 % of the fodder wanted served, at most 10 % of the mats fed unripe, in at least 90 % of years");
  t.short_days = 12;
  t.longest_short_run = 3;
  t.season_fill_rate = 0.85;
  t.spoiled_fed = 2;
  t.yearly_cost = 2500;
  CHECK(target_words(with_target(t)) ==
        "at least 97 % of the fodder wanted served, at most 12 short days a year, at most 3 short days in a row, at least 85 % served in the "
        "worst season, at most 2 spoiled mats fed a year, at most 10 % of the mats fed unripe, at most 2500 EUR a year, in at least 90 % of years");
  t.spoiled_fed = 0;
  CHECK(target_words(with_target(t)).find(", no spoiled mat fed, ") != std::string::npos);
}

TEST_CASE("a limit with its own share of years is told with it, behind those judged together") {
  Target t = usual();
  t.spoiled_fed = 0;
  t.spoiled_fed_years = 0.99;
  CHECK(target_words(with_target(t)) ==
        "at least 97 % of the fodder wanted served, at most 10 % of the mats fed unripe, in at least 90 % of years, no spoiled mat fed in at least 99 % of years");
  t.unripe_fed = 0.0;
  CHECK(target_words(with_target(t)).find(", no mat fed unripe, ") != std::string::npos);
  t.unripe_fed = 1.0;
  t.fill_rate_years = 0.8;  // nothing is left to be judged together
  CHECK(target_words(with_target(t)) ==
        "at least 97 % of the fodder wanted served in at least 80 % of years, no spoiled mat fed in at least 99 % of years");
}

TEST_CASE("means and the length of a run are told with the target") {
  Target t = usual();
  t.mean_fill_rate = 0.985;
  t.mean_yearly_cost = 1800;
  CHECK(target_words(with_target(t)) ==
        "at least 97 % of the fodder wanted served, at most 10 % of the mats fed unripe, in at least 90 % of years; on average at least 98.5 % served; on average at most 1800 EUR a year");
  CHECK(target_words(with_target(t, 730)).ends_with("; each run of 730 days is judged as a whole, its amounts for 365 days"));
  CHECK(target_words(results::ResultFile{}).empty());
}

TEST_CASE("the verdict of a simulation says met, missed or too close to tell") {
  results::ResultFile file = simulated();
  const auto verdict = [&](double mean, double low, double high) {
    put(file, "success", mean, low, high);
    return terminal_text(file);
  };
  CHECK(verdict(0.97, 0.93, 0.99).find("This design meets the target (") != std::string::npos);
  CHECK(verdict(0.5, 0.4, 0.6).find("This design does not meet the target (") != std::string::npos);
  CHECK(verdict(0.9, 0.85, 0.95).find("Whether this design meets the target is too close to tell (") != std::string::npos);
  const auto flat = [&](double mean, double low, double high) {
    std::string text = verdict(mean, low, high);
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
  };
  CHECK(flat(0.97, 0.93, 0.99).find("of years meet it.") != std::string::npos);
  file.header.horizon_days = 400;
  CHECK(flat(0.97, 0.93, 0.99).find("of runs of 400 days, each judged as a whole, meet it.") != std::string::npos);
  file.arrays.erase("target/fill_rate");
  CHECK(flat(0.97, 0.93, 0.99).find("the target") == std::string::npos);
}

TEST_CASE("a design meets its target only with all that is asked, a limit with its own share of years and a mean too") {
  Target t = usual();
  t.spoiled_fed = 0.0;
  t.spoiled_fed_years = 0.99;
  t.mean_yearly_cost = 1000.0;
  results::ResultFile file = simulated(t);
  const auto flat = [&] {
    std::string text = terminal_text(file);
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
  };
  put(file, "success", 1.0, 0.95, 1.0);
  require_is(file, 1, {1.0, 0.991, 1.0});
  require_is(file, 2, {-900.0, -950.0, -850.0});
  CHECK(flat().find("This design meets the target (") != std::string::npos);
  CHECK(flat().find("of years keep the limits taken together; the limit on spoiled mats fed is kept in 100 % (99 to 100) of years, 99 % are asked for; "
                    "a year costs 900 EUR (850 to 950) on average, at most 1000 are allowed.") != std::string::npos);
  require_is(file, 2, {-1100.0, -1150.0, -1050.0});
  CHECK(flat().find("This design does not meet the target (") != std::string::npos);
  require_is(file, 2, {-1000.0, -1050.0, -950.0});
  CHECK(flat().find("is too close to tell (") != std::string::npos);
  require_is(file, 1, {0.0, 0.0, 0.06});
  CHECK(flat().find("This design does not meet the target (") != std::string::npos);
  // A file of an earlier version knows the limits taken together alone.
  for (const char* name : {"requirement", "asked", "reached", "reached_low", "reached_high"}) file.arrays.erase(std::string("summary/") + name);
  CHECK(flat().find("This design meets the target (") != std::string::npos);
}

TEST_CASE("replications that broke off are counted, and one alone has no interval") {
  results::ResultFile file = simulated();
  file.header.replications_failed = 3;
  file.header.replications_asked = 43;
  CHECK(terminal_text(file).find("3 broke off") != std::string::npos);
  CHECK(terminal_text(file).find("Stopped early") == std::string::npos);
  file.header.replications_completed = 1;
  CHECK(terminal_text(file).find("\n1 replication of 365 days") != std::string::npos);
  CHECK(terminal_text(file).find("Stopped early:") != std::string::npos);
}

TEST_CASE("what a keeper should act on is told where it is so: unripe mats, too little time, dear heating") {
  results::ResultFile file = simulated();
  put(file, "trays_fed", 1000.0, 990.0, 1010.0);
  put(file, "unripe_fed", 9.0, 8.0, 10.0);
  CHECK(terminal_text(file).find("are fed unripe") == std::string::npos);  // one in a hundred is luck
  put(file, "unripe_fed", 120.0, 110.0, 130.0);
  CHECK(terminal_text(file).find("12 % of those fed, are fed unripe") != std::string::npos);
  CHECK(terminal_text(file).find("minutes are too few") == std::string::npos);
  put(file, "overloaded_days", 12.0, 11.0, 13.0);
  CHECK(terminal_text(file).find("the keeper's minutes are too few, and work is left undone") != std::string::npos);
  put(file, "cost_total", 1000.0, 990.0, 1010.0);
  put(file, "cost_power", 500.0, 490.0, 510.0);
  put(file, "energy_used", 1000.0, 990.0, 1010.0);
  const auto heating = [&](double heater, double cooler) {
    put(file, "energy_heater", heater, heater, heater);
    put(file, "energy_cooler", cooler, cooler, cooler);
    std::string text = terminal_text(file);
    std::replace(text.begin(), text.end(), '\n', ' ');
    const auto at = text.find(" of the year's cost, more than a third: insulate");
    return at == std::string::npos ? "" : text.substr(text.rfind('.', at) + 2, at - text.rfind('.', at) - 2);
  };
  CHECK(heating(900.0, 0.0) == "Heating is 45 %");
  CHECK(heating(0.0, 900.0) == "Cooling is 45 %");
  CHECK(heating(450.0, 450.0) == "Heating and cooling are 45 %");
  CHECK(heating(600.0, 0.0).empty());
}

TEST_CASE("of what a year costs only the parts that are something are told, the smallest as less than a hundredth") {
  results::ResultFile file = simulated();
  put(file, "cost_total", 1000.0, 990.0, 1010.0);
  for (const char* part : {"cost_power", "cost_labour", "cost_water", "cost_reserve", "cost_capital", "cost_disposal"}) put(file, part, 0.0, 0.0, 0.0);
  put(file, "cost_grain", 996.0, 990.0, 1000.0);
  put(file, "cost_water", 4.0, 3.0, 5.0);
  const std::string parts = cost_parts_text(file);
  CHECK(parts.find("(the keeper's work has no price)") != std::string::npos);
  CHECK(parts.find("996 EUR   100 %") != std::string::npos);
  CHECK(parts.find("4 EUR   < 1 %") != std::string::npos);
  CHECK(parts.find("electricity") == std::string::npos);
  put(file, "cost_labour", 3.0, 2.0, 4.0);
  CHECK(cost_parts_text(file).find("no price") == std::string::npos);
  put(file, "cost_total", 0.0, 0.0, 0.0);
  CHECK(cost_parts_text(file).empty());
}

TEST_CASE("a file without what only some files have gives its page all the same, sound and without a figure that is none") {
  const auto all_but = [](results::ResultFile file) {
    std::size_t left_out = 0;
    const results::Arrays whole = file.arrays;
    for (const auto& [path, array] : whole) {
      const results::Dataset* dataset = results::find_dataset(path);
      REQUIRE(dataset != nullptr);
      if (dataset->when != results::When::sometimes || dataset->coordinate() || path == "design/value") continue;  // the reader refuses a file without
      CAPTURE(path);
      file.arrays.erase(path);
      std::string page;
      REQUIRE_NOTHROW(page = html_page(file, {}));
      CHECK(sample::markup_fault(page) == "");
      CHECK(page.find(">nan") == std::string::npos);
      REQUIRE_NOTHROW(page = terminal_text(file));
      CHECK(page.find(file.header.title) != std::string::npos);
      CHECK(page.find(" nan ") == std::string::npos);
      file.arrays[path] = array;
      ++left_out;
    }
    return left_out;
  };
  results::ResultFile file = simulated();
  const results::ResultFile more = sample::simulate_file();
  for (const auto& [path, array] : more.arrays)
    if (!path.starts_with("summary/")) file.arrays[path] = array;
  CHECK(all_but(file) > 10);
  CHECK(all_but(sample::size_file(1, -1)) > 2);
}
