// Which replications a figure is of: the headline of a sizing, the years behind each design's cost, how sure it all is, the store between
// what is bought and used, and least and most of runs that are no years.
#include <algorithm>

#include <fmt/format.h>

#include "tests/unit/report/flat_pages.hpp"

using namespace rackwright;
using namespace rackwright::report;
using sample::has, sample::page, sample::terminal;

namespace {

/// `n` replications that cost 1300 EUR each.
results::Arrays played(std::uint32_t n) {
  study::Summary summary{Target{}};
  for (std::uint32_t i = 0; i < n; ++i) {
    Outcome o = results::sample::outcome(i);
    o.cost_total = o.cost.grain = 1300.0;
    o.grain_used = 730.0, o.grain_bought = 600.0, o.grain_start = 200.0, o.grain_end = 70.0;
    summary.add(o);
  }
  return results::summary_arrays(summary);
}

/// A sizing whose chosen design cost 1234 EUR in 384 years of the search, and 1300 EUR in as many as are said.
results::ResultFile sized(std::uint32_t completed) {
  results::ResultFile file = sample::size_file(1, -1);
  file.arrays.merge(played(completed));
  file.header.replications_completed = completed;
  return file;
}

results::ResultFile simulated(std::uint64_t days = 365) {
  results::ResultFile file = sample::simulate_file();
  file.header.horizon_days = days;
  for (auto& [path, array] : played(40)) file.arrays[path] = array;
  return file;
}

void add_doubt(results::ResultFile& file) {
  study::Doubt fill{.quantity = "fill_rate", .unit = "1"}, met{.quantity = "success", .unit = "1"};
  for (study::Doubt* doubt : {&fill, &met}) {
    doubt->share = 0.95, doubt->share_low = 0.89, doubt->share_high = 0.98;
    doubt->luck = {0.96, 0.80, 0.99, 0.0, 0.0, 0.0};
    doubt->both = {0.44, 0.27, 0.63, 0.0, 0.0, 0.0};
  }
  file.arrays.merge(results::doubt_arrays({fill, met}));
}

void drop(results::ResultFile& file, const std::string& quantity) {
  auto& names = file.arrays.at("summary/quantity").texts;
  *std::find(names.begin(), names.end(), quantity) = "gone";
}

}  // namespace

TEST_CASE("how sure it is stands on the page directly under the headline") {
  for (results::ResultFile file : {simulated(), sized(400), sample::size_file(1, -1)}) {
    CHECK_FALSE(has(page(file), "How sure"));
    add_doubt(file);
    const std::string html = page(file);
    INFO(html.substr(html.find("<header>"), 1500));
    const auto lead = html.find("<p class=\"lead\">"), sure = html.find("<p>How sure: ");
    REQUIRE(sure != std::string::npos);
    CHECK(html.find("</p>", lead) + 5 == sure);
    CHECK(sure < html.find("</header>"));
    CHECK(has(html, "44 % (27 to 63) of years meet the target"));
    CHECK(has(html, "95 % (89 to 98 %) then come from not knowing"));
    file.header.horizon_days = 1095;
    CHECK(has(page(file), "44 % (27 to 63) of runs meet the target"));
  }
}

TEST_CASE("the headline of a sizing is of the years on the page, and the search's own figure is told with its years") {
  const results::ResultFile file = sized(400);
  const std::string text = terminal(file), html = page(file);
  INFO(text);
  CHECK(has(text, "cost a year 1300 EUR years that meet"));
  CHECK(has(text, "replications played 400"));
  CHECK(has(text, "These are of the 400 years that were played of this design to the end. The search itself had played 384 of them, which cost 1234 EUR (1185 to 1246) a year"));
  CHECK(has(html, "of the 400 years it was played and costs 1300 EUR a year."));
  CHECK(has(html, "<dt>cost a year</dt><dd>1300 EUR</dd>"));
  CHECK(has(html, "So the design on this page has two costs: 1234 EUR (1185 to 1246) in 384 years of the search, and 1300 EUR in the 400 that were played of it to the end"));
  CHECK(has(html, "Of 400 years played: the target is met in"));
  // In the table of designs its cost is the search's, with the years behind it.
  CHECK(has(html, "<th scope=\"row\">1</th><td>1234 (1185 to 1246)</td><td>384</td>"));
  CHECK(has(html, "<th scope=\"row\">2</th><td>1333 (1280 to 1346)</td><td>48</td>"));
  CHECK(has(html, "of each the mean over the years it was played there, whose number stands beside it"));
  CHECK(has(html, "designs that do the same may differ in it where one was played in more years"));
}

TEST_CASE("where the search played as many years, fewer are left or none, there is one figure and no word of two") {
  for (const std::uint32_t completed : {0U, 32U, 384U}) {
    const results::ResultFile file = completed == 0U ? sample::size_file(1, -1) : sized(completed);
    const std::string text = terminal(file), html = page(file);
    CAPTURE(completed);
    CHECK_FALSE(has(text, "The search itself"));
    CHECK_FALSE(has(html, "has two costs"));
    CHECK(has(text, "replications played 384"));
    CHECK(has(html, "of the 384 years it was played"));
    CHECK(has(html, fmt::format("and costs {} EUR a year", completed == 384U ? 1300 : 1234)));
  }
  CHECK(has(terminal(sized(32)), "These are of the 32 replications that were played to the end, which cost 1300 EUR in all; the figure above is of those that the search played."));
  results::ResultFile half = sized(400);
  half.header.horizon_days = 180;
  CHECK(has(page(half), "of the 400 runs it was played"));
}

TEST_CASE("what the store gives or keeps is told where bought and used do not tally") {
  results::ResultFile file = simulated();
  const auto put = [&](const std::string& quantity, double mean) {
    const auto& names = file.at("summary/quantity").texts;
    const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), quantity) - names.begin());
    REQUIRE(at < names.size());
    for (const char* path : {"summary/mean", "summary/low", "summary/high"}) file.arrays[path].numbers[at] = mean;
  };
  CHECK(has(page(file), "600 kg of grain are bought a year, 730 kg are put to soak, and 130 kg are taken from what was in store."));
  put("grain_end", 230.0), put("grain_bought", 760.0);
  CHECK(has(page(file), "760 kg of grain are bought a year, 730 kg are put to soak, and 30 kg more lie in store at the end."));
  put("grain_end", 200.3), put("grain_bought", 730.3);  // hidden by the digits shown
  CHECK(has(page(file), "730 kg are put to soak."));
  // What is thrown out is no part of what the store gives, also where the file does not tell of the store.
  put("grain_bought", 600.0), put("grain_aged_out", 20.0);
  drop(file, "grain_end");
  CHECK(has(page(file), "730 kg are put to soak, 20 kg thrown out because it is too old, and 150 kg are taken from what was in store."));
  results::ResultFile long_run = simulated(1095);
  CHECK(has(page(long_run), "200 kg of grain are bought a year, 243 kg are put to soak, and 43 kg a year are taken from what was in store."));
}

TEST_CASE("least and most of runs that are no years are told to be of such") {
  CHECK(has(terminal(simulated(1095)), "Least to most are of replications of 3 years each, told for a year as the mean is."));
  CHECK(has(page(simulated(1095)), "<th scope=\"col\" class=\"n\">least to most of single runs of 3 years each, a year</th>"));
  CHECK(has(terminal(simulated(73)), "Least to most are of replications of 73 days each"));
  for (const std::uint64_t days : {365U, 366U}) {
    CHECK_FALSE(has(terminal(simulated(days)), "Least to most are"));
    CHECK(has(page(simulated(days)), "least to most of single runs</th>"));
  }
}
