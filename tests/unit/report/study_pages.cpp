// What the terminal and the page say of a sweep, of changes played against the scenario, and of assumed numbers halved and doubled.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/report/csv.hpp"
#include "sim/report/html_page.hpp"
#include "sim/report/text.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/sweep_part.hpp"
#include "sim/study/sobol_indices.hpp"
#include "sim/study/sweep_digest.hpp"
#include "tests/catch.hpp"
#include "tests/unit/report/flat_pages.hpp"

using namespace rackwright;
using namespace rackwright::report;
using sample::flat;

namespace {

bool has(const std::string& text, const std::string& part) { return flat(text).find(part) != std::string::npos; }

constexpr std::uint64_t rows_of_points = 64;

/// As the program makes it, of a farm where the soak alone decides what is served, and the tiers alone the cost; no soak above
/// `good_below` hours meets the target.
results::ResultFile sensitivity_file(double good_below) {
  using namespace study;
  Sweep sweep;
  sweep.method = SweepMethod::sensitivity;
  sweep.axes = {{"line.soak", "h", false, 6.0, 14.0, {}, {}}, {"rack.tiers", "1", true, 2.0, 9.0, {}, {}}};
  sweep.points = rows_of_points * 4;
  sweep.replications = 25;
  SweepDigest digest(sweep);
  std::vector<SobolIndices> indices(2, SobolIndices(2));
  SweepPoints points(sweep);
  std::vector<double> served, cost;
  for (std::uint64_t p = 0; p < sweep.points; ++p) {
    const auto at = points.at(p);
    SweepRow row;
    row.point = p;
    row.values.assign(at.begin(), at.end());
    row.success = at[0] < good_below ? 1.0 : 0.2;
    row.gap = row.success - 0.9;
    row.spreads[fill_rate_column].mean = 0.99 - 0.02 * (at[0] - 6.0);
    row.spreads[cost_year_column].mean = 500.0 + 100.0 * at[1];
    row.spreads[cost_year_column].standard_error = 3.0;
    digest.add(row);
    served.push_back(row.spreads[fill_rate_column].mean), cost.push_back(row.spreads[cost_year_column].mean);
    if (p % 4 != 3) continue;
    indices[0].add(served[p - 3], served[p - 2], {served[p - 1], served[p]});
    indices[1].add(cost[p - 3], cost[p - 2], {cost[p - 1], cost[p]});
  }
  results::ResultFile file;
  file.header = results::sample::header("sweep", 25);
  file.arrays = results::sweep_arrays(sweep);
  file.arrays.merge(results::digest_arrays(sweep, digest));
  file.arrays.merge(results::index_arrays(sweep, indices));
  file.arrays["scenario/resolved"] = results::text(sample::resolved);
  file.arrays["target/fill_rate"] = results::number(0.97);
  file.arrays["target/years"] = results::number(0.9);
  return file;
}

}  // namespace

TEST_CASE("a sweep for indices: the best points with a warning, what each key does, and whose the spread is") {
  const results::ResultFile file = sensitivity_file(10.0);
  const std::string text = terminal_text(file);
  INFO(text);
  CHECK(has(text, "The cheapest points that meet the target 1. line.soak = "));
  CHECK(has(text, "rack.tiers = 2 700 EUR a year (694 to 706); the target is met"));  // t of 24 degrees of freedom: 2.064
  CHECK(has(text, "Figures in brackets are 95 % intervals."));
  CHECK(has(text, "the best of many looks better than it is"));
  // The soak alone decides what is served, the tiers alone the cost: shares of 1 and 0.
  const auto fodder = text.find("What the spread of the fodder served comes from"), money = text.find("What the spread of the cost a year comes from");
  REQUIRE(fodder != std::string::npos);
  REQUIRE(money != std::string::npos);
  const auto share_of = [&](std::size_t from, const std::string& key) {
    const std::string line = text.substr(text.find(key, from));
    return std::stod(line.substr(line.find_first_of("-0123456789", key.size())));
  };
  CHECK(share_of(fodder, "line.soak") == near(1.0, 0.15));
  CHECK(share_of(fodder, "rack.tiers") == near(0.0, 0.02));
  CHECK(share_of(money, "line.soak") == near(0.0, 0.02));
  CHECK(share_of(money, "rack.tiers") == near(1.0, 0.15));
  CHECK(has(text, "From 64 rows of points."));
  CHECK_FALSE(has(terminal_text(sensitivity_file(0.0)), "the best of many looks better than it is"));
}

TEST_CASE("a sweep as tables: keys with their units, words as words, the best points, effects and indices") {
  results::ResultFile file = sensitivity_file(10.0);
  CHECK(csv(file, "sweep_key").starts_with("key,unit,low,high,first_order at fill_rate,"));
  CHECK(csv(file, "sweep_leader").starts_with("leader,leader_value at line.soak,leader_value at rack.tiers,"));
  CHECK(has(csv(file, "sweep_effect"), ",rack.tiers,"));
  CHECK(has(csv(file, "sweep_values"), "method,sobol"));
  study::Sweep sweep;
  sweep.axes.resize(2);
  sweep.axes[0].key = "line.soak", sweep.axes[0].unit = "h", sweep.axes[0].low = 6.0, sweep.axes[0].high = 14.0;
  sweep.axes[1].key = "water.feed", sweep.axes[1].words = {"parallel", "cascade"};
  sweep.points = 2;
  std::vector<study::SweepRow> rows(2);
  rows[0].values = {6.0, 1.0};
  rows[1].values = {8.0, 0.0};
  rows[1].point = 1;
  rows[1].status = study::PointStatus::invalid;
  rows[1].why = "no room";
  results::ResultFile words;
  words.header = results::sample::header("sweep", 25);
  words.arrays = results::sweep_arrays(sweep);
  words.arrays.merge(results::row_arrays(sweep, rows));
  const std::string table = csv(words, "sweep");
  CHECK(table.starts_with("point,value at line.soak [h],value at water.feed,"));
  CHECK(has(table, " 0,6,cascade,"));
  CHECK(has(table, " 1,8,parallel,"));
  CHECK(csv(words, "sweep_refused") == "refused,why\n1,no room\n");
  CHECK(csv(words, "sweep_word") == "word,word_key\nparallel,water.feed\ncascade,water.feed\n");
}

TEST_CASE("rows left out of the indices, and targets that vary, are told") {
  results::ResultFile file = sensitivity_file(10.0);
  CHECK(has(terminal_text(file), "From 64 rows of points. The spread"));
  file.arrays["sweep/rows"] = results::number(53.0);
  CHECK(has(terminal_text(file), "From 53 rows of points of 64. A row with a point without figures"));
  CHECK(has(html_page(file, {}), "From 53 rows of points of 64."));
  CHECK(has(terminal_text(file), "Target: at least 97 %"));
  file.arrays["sweep/key"].texts[0] = "target.fill_rate";
  CHECK(has(terminal_text(file), "Each point is judged by its own target."));
  CHECK_FALSE(has(terminal_text(file), "Target: at least"));
}

TEST_CASE("the page of a sweep leads with its best point, builds that one, and draws what each key does and its share") {
  const results::ResultFile file = sensitivity_file(10.0);
  const std::string page = html_page(file, {});
  CHECK(sample::markup_fault(page) == "");
  CHECK(has(page, "The cheapest that meets the target, of 256 points, is: line.soak = "));
  CHECK(has(page, "the cheapest points that meet the target"));
  CHECK(has(page, "the best of many looks better than it is"));
  for (const char* id : {"share-0-t", "share-1-t", "effect-0-t", "effect-1-t"}) {
    INFO(id);
    CHECK(has(page, fmt::format("id=\"{}\"", id)));
  }
  CHECK(has(page, "Share of the spread of the fodder served that each key has a hand in"));
  CHECK(has(page, "<td>700 EUR</td>"));
  const auto counted = page.find("replications of each point");
  REQUIRE(counted != std::string::npos);
  CHECK(page.substr(counted, 60).find(">25<") != std::string::npos);
  CHECK_FALSE(has(page, "nan"));
  // The rack drawn and told is the best point's: two tiers, not the three that are written.
  const auto settings = design_settings(file);
  REQUIRE(settings.size() == 2);
  CHECK(settings[0].first == "line.soak");
  CHECK(settings[1] == Setting{"rack.tiers", "2"});
  CHECK(has(page, "<th scope=\"row\">places</th><td>12</td>"));

  const std::string none = html_page(sensitivity_file(0.0), {});
  CHECK(has(none, "None meets the target; what comes nearest, of 256 points, is this: line.soak = "));
  CHECK(has(none, "the points that come nearest to the target"));
  results::ResultFile nothing = file;
  std::erase_if(nothing.arrays, [](const auto& entry) { return entry.first.starts_with("sweep/leader"); });
  CHECK(has(html_page(nothing, {}), "No point of this sweep could be played."));
  CHECK(has(terminal_text(nothing), "No point could be played."));
}

TEST_CASE("changes against the scenario: before, after, the difference and the verdict, on the terminal and on the page") {
  study::Comparison comparison;
  comparison.change = "group.milkers.count+=12";
  comparison.replications = 24;
  for (const study::Compared& what : study::compared()) {
    study::Difference d;
    if (std::string(what.column) == "fill_rate") d = {{0.95, 0.94, 0.96, 0, 0, 0}, {0.80, 0.79, 0.81, 0, 0, 0}, {-0.15, -0.16, -0.14, 0, 0, 0}};
    if (std::string(what.column) == "cost_year") d = {{1000, 990, 1010, 0, 0, 0}, {1100, 1080, 1120, 0, 0, 0}, {100, 80, 120, 0, 0, 0}};
    comparison.columns.push_back(d);
  }
  study::Summary summary{Target{}};
  for (std::uint32_t i = 0; i < 20; ++i) summary.add(results::sample::outcome(i));
  results::ResultFile told;
  told.header = results::sample::header("simulate", 20);
  told.header.replications_completed = 20;
  told.arrays = results::scenario_arrays(Scenario{}, "", "", {});
  told.arrays.merge(results::summary_arrays(summary));
  CHECK_FALSE(has(terminal_text(told), "Changed: "));
  told.arrays.merge(results::against_arrays({comparison}));
  const std::string text = terminal_text(told);
  INFO(text);
  CHECK(has(text, "Changed: group.milkers.count+=12 (against the scenario as it is)"));
  CHECK(has(text, ": worse "));
  CHECK(has(text, "percentage points"));
  CHECK(has(text, "from 95.0 % (94.0 to 96.0) to 80.0 % (79.0 to 81.0)"));
  CHECK(has(text, "Means over 24 runs"));
  CHECK(has(text, "grain put to soak: "));
  told.header.horizon_days = 730;  // totals of two years are told for one, as in the table
  CHECK(has(terminal_text(told), "grain put to soak, a year: "));
  CHECK(has(terminal_text(told), "from 95.0 % (94.0 to 96.0) to 80.0 % (79.0 to 81.0)"));
  results::ResultFile file = sample::simulate_file();
  file.arrays.merge(results::against_arrays({comparison}));
  const std::string page = html_page(file, {});
  CHECK(sample::markup_fault(page) == "");
  CHECK(has(page, "group.milkers.count+=12"));
  CHECK(has(page, "<td>95.0 % (94.0 to 96.0)</td><td>80.0 % (79.0 to 81.0)</td>"));
  CHECK(has(page, ">worse</td>"));
  CHECK(has(page, ">no difference shown</td>"));
  CHECK(has(page, "played on the same luck as the scenario as it is"));
}

TEST_CASE("assumed numbers: the strongest are drawn, all are in the table, and nothing changed is said in a word") {
  std::vector<study::Influence> all;
  for (int i = 0; i < 9; ++i) {
    study::Influence one;
    one.key = fmt::format("grain.number_{}", i);
    one.sentence = i == 0 ? "Mould that a tray picks up from the store, the hands and the trays it is sown into; more is worse." : "A short one.";
    one.source = "assumed";
    one.used = "1";
    one.less.value = "0.5", one.more.value = "2";
    const double by = 0.01 * (9 - i);
    if (i < 8) one.less.fill_rate = {by, by - 0.001, by + 0.001, 0, 0, 0}, one.more.fill_rate = {-by, -by - 0.001, -by + 0.001, 0, 0, 0};
    all.push_back(one);
  }
  all[7].used = "0.01, 0.09090909090909091", all[7].more.value = "55.83333333333333 d";
  results::ResultFile file = sample::simulate_file();
  CHECK_FALSE(has(html_page(file, {}), "The assumptions that matter most"));
  file.arrays.merge(results::influence_arrays(all));
  const std::string page = html_page(file, {});
  CHECK(sample::markup_fault(page) == "");
  CHECK(has(page, "The assumptions that matter most"));
  CHECK(has(page, "The 8 strongest of 9"));
  const auto from = page.find("id=\"weights-t\"");
  REQUIRE(from != std::string::npos);
  const std::string svg = page.substr(from, page.find("</svg>", from) - from);
  CHECK(has(svg, "grain.number_0 = 0.5: fodder served +9.00 points"));
  CHECK(has(svg, "Mould that a tray picks up from the store"));
  CHECK_FALSE(has(svg, "sown into"));  // short enough for a phone
  CHECK_FALSE(has(svg, "grain.number_8"));
  CHECK(has(page, "grain.number_8"));
  CHECK(has(page, "<td>none</td>"));
  CHECK(has(page, "sown into; more is worse."));
  CHECK(has(page, "<td>0.01, 0.09091</td>"));  // as the settings further down
  CHECK(has(page, "<td>55.83 d</td>"));
  CHECK(has(svg, "grain.number_7 = 55.83 d: fodder served"));
}

TEST_CASE("a page in US units, and of a room with a cooler") {
  results::ResultFile file = sample::simulate_file();
  CHECK_FALSE(has(html_page(file, {}), ">cooler<"));
  file.header.display_units = "us";
  file.arrays["scenario/resolved"] = results::text(std::string(sample::resolved) + "\n[room]\ncooler = \"2500 W\"\ncooler_set = \"24 degC\"\n");
  const std::string page = html_page(file, {});
  CHECK(has(page, "132 lb"));  // what 60 kg are
  CHECK(has(page, ">cooler</th>"));
  CHECK(has(page, "set to 75"));  // degF
}
