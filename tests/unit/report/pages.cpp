#include "sim/report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/report/csv.hpp"
#include "sim/report/html_page.hpp"
#include "sim/report/simulate_page.hpp"
#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using namespace rackwright::results;
using namespace rackwright::report;

namespace {

bool has(const std::string& text, const std::string& part) {
  // Where a line happens to be broken does not matter.
  const auto flat = [](const std::string& s) {
    std::string out;
    for (const char c : s) {
      const char plain_char = c == '\n' ? ' ' : c;
      if (plain_char != ' ' || (!out.empty() && out.back() != ' ')) out += plain_char;
    }
    return out;
  };
  return flat(text).find(flat(part)) != std::string::npos;
}

/// A simulate file, made as the program makes it, of `n` replications under a target that two thirds of them meet.
ResultFile simulate_file(std::uint32_t n, Scenario scenario = {}) {
  scenario.title = "Ziegen am Südhang";
  scenario.target.short_days = 15.0;
  const sample::Folder folder;
  study::Summary summary(scenario.target);
  Writer writer(folder.file("runs.h5"), false,
                describe_run(scenario, "simulate", "rackwright simulate", "2026-03-01T06:00:00Z"));
  writer.append(sample::block(0, n));
  for (std::uint32_t i = 0; i < n; ++i) summary.add(sample::outcome(i));
  Arrays arrays = scenario_arrays(scenario, "text", "resolved", {"Never feed a mouldy mat.", "Keep the floor dry."});
  arrays.merge(summary_arrays(summary));
  writer.finish(arrays);
  return read_result(folder.file("runs.h5"));
}

study::Candidate candidate(const std::string& tiers, study::Verdict verdict, const std::string& why, double cost) {
  study::Candidate c;
  c.values = {tiers, "5 kg/m2"};
  c.verdict = verdict;
  c.why = why;
  c.replications = 400;
  c.success = {0.93, 0.90, 0.95, 0, 0, 0};
  c.fill_rate = {0.98, 0.979, 0.981, 0, 0, 0};
  c.cost_year = {cost, cost - 10, cost + 10, 0, 0, 0};
  c.labour = {400, 399, 401, 0, 0, 0};
  return c;
}

ResultFile size_file(int chosen, int nearest) {
  study::SizeResult result;
  result.keys = {"rack.tiers", "line.sowing_density"};
  result.candidates = {
      candidate("4", study::Verdict::fails, "meets the target in only 40 % of years", 900),
      candidate("5", study::Verdict::chosen, "the cheapest", 1000),
      candidate("6", study::Verdict::costlier, "costs 100 EUR a year more than the chosen design", 1100),
      candidate("9", study::Verdict::screened, "too tall for the room", 0)};
  result.chosen = chosen;
  result.nearest = nearest;
  result.runners_up = {2};
  result.binding = "the next cheaper, rack.tiers = 4, falls short in June to August";
  result.replications = 1200;
  result.settled = true;
  ResultFile file;
  file.header = sample::header("size", 2000);
  file.arrays = design_arrays(result);
  file.arrays.merge(scenario_arrays(Scenario{}, "", "", {"Never feed a mouldy mat."}));
  return file;
}

/// The size file with what the chosen design was played to: a heater of 600 EUR and a pump of 100 EUR in 1450 EUR a year.
ResultFile played_size_file() {
  ResultFile file = size_file(1, -1);
  study::Summary summary{Target{}};
  for (std::uint32_t i = 0; i < 20; ++i) {
    Outcome o = sample::outcome(i);
    o.energy_heater = 3000.0;
    o.energy_pump = 500.0;
    o.cost.power = 700.0;
    o.cost.grain = 500.0;
    o.cost.reserve = 50.0;
    o.cost.capital = 200.0;
    o.cost_total = 1450.0;
    o.served = 1400.0 / 0.16;  // fresh fodder at 0.16 EUR/kg, its dry matter at 1.2
    o.fodder_dry_matter = 1400.0 / 1.2;
    o.dry_grain_per_kg_dry_matter = 0.4;
    o.grain_dry_matter = 2000.0;
    o.cost_equal_hay = 700.0;
    summary.add(o);
  }
  file.arrays.merge(summary_arrays(summary));
  Scenario built;
  built.prices.tray = Money(0.0);
  file.arrays.merge(build_arrays(built));
  return file;
}

/// Sets the mean of a line of the summary.
void set_mean(ResultFile& file, const std::string& quantity, double mean) {
  const auto& names = file.at("summary/quantity").texts;
  const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), quantity) - names.begin());
  REQUIRE(at < names.size());
  file.arrays["summary/mean"].numbers[at] = mean;
}

}  // namespace

TEST_CASE("the page of a simulation leads with the answer") {
  const ResultFile file = simulate_file(60);
  const std::string page = terminal_text(file);
  INFO(page);
  CHECK(page.starts_with("Ziegen am Südhang\n\nThe animals get 98.9 % of the fodder they want"));
  const double short_days = file.estimate("short_days")->mean;
  CHECK(short_days == Approx((2 * 253 + 91) / 60.0));  // 0 to 22 twice over, and 0 to 13
  CHECK(has(page, "Short days fall 0 % in December to February, 0 % in March to May, 100 % in June to August"));
  CHECK(has(page, fmt::format("{:.1f} (", short_days)));
  CHECK(has(page, "at least 97 % of the fodder wanted served, at most 15 short days a year, at most 10 % of the mats fed unripe, in at least 90 % of years"));
  CHECK(has(page, "This design does not meet the target"));
  CHECK(has(page, "- Never feed a mouldy mat."));
  CHECK(has(page, "60 replications of 365 days from 2026-03-01, random seed 1. Stopped early: 400 were asked for."));
  CHECK_FALSE(has(page, "Grave"));
  CHECK_FALSE(has(page, "nan"));
  for (const char* label : {"Feeding", "longest run of such days", "spoiled, thrown out", "past their best", "grain", "water",
                            "electricity", "the keeper's work", "rack and equipment", "fresh fodder"})
    CHECK(has(page, label));
  for (std::size_t at = 0, end = 0; (end = page.find('\n', at)) != std::string::npos; at = end + 1)
    CHECK(end - at <= 104);
}

TEST_CASE("units and length of run change how the page shows the same file") {
  Scenario us;
  us.units = Units::us;
  us.run.length = days(730);
  const std::string page = terminal_text(simulate_file(60, us));
  INFO(page);
  CHECK(has(page, "gal"));
  CHECK(has(page, "lb"));
  CHECK_FALSE(has(page, " kg"));
  // A run of 730 days: what it used in all is twice a year's. 1504.2 kg of grain are 752.1 kg or 1658 lb a year.
  CHECK(has(page, "grain put to soak 1658 lb"));
  CHECK_FALSE(has(page, "365 such days"));
  CHECK(has(page, "of runs of 730 days, each judged as a"));
}

TEST_CASE("what is told of a year by shorter runs is said to be for 365 such days") {
  Scenario summer;
  summer.run.length = days(92);
  const std::string said = "The runs are of 92 days from 2026-03-01. What is told \"a year\" is for 365 such days (4.0 times a run), not for the four seasons.";
  const ResultFile file = simulate_file(60, summer);
  CHECK(has(terminal_text(file), said));
  CHECK(has(html_page(file, {}), "is for 365 such days (4.0 times a run)"));
  CHECK_FALSE(has(terminal_text(simulate_file(60)), "365 such days"));
}

TEST_CASE("groups that no day of the runs sees are told with the answer") {
  Scenario summer;
  summer.run.length = days(92);
  for (const auto& [name, arrives] : {std::pair{"does", -1.0}, std::pair{"kids", 92.0}, std::pair{"ewes", 91.0}}) {
    rackwright::Group group;
    group.name = name;
    group.count = 5;
    group.stay.arrives = arrives;
    summer.groups.push_back(group);
  }
  const ResultFile file = simulate_file(60, summer);
  for (const std::string& page : {terminal_text(file), html_page(file, {})})
    CHECK(has(page, "Not in any figure here: the fodder of kids, here on no day of the runs."));
  CHECK_FALSE(has(terminal_text(simulate_file(60)), "Not in any figure"));
}

TEST_CASE("work left undone on one day in ten stands beside the answer, on fewer among the rest, and grain thrown out is named") {
  ResultFile file = simulate_file(60);
  set_mean(file, "overloaded_days", 295.0);
  set_mean(file, "grain_aged_out", 4750.0);
  const auto& quantities = file.at("summary/quantity").texts;
  file.arrays["summary/most"].numbers[static_cast<std::size_t>(std::find(quantities.begin(), quantities.end(), "grain_aged_out") - quantities.begin())] = 5000.0;
  set_mean(file, "grain_used", 4350.0);
  const std::string page = terminal_text(file);
  INFO(page);
  CHECK(has(page, "Beware: on 295"));
  CHECK(has(page, "days a year the keeper's minutes are too few, and work is left undone: washing first, then moving"));
  CHECK_FALSE(has(page, "d days"));
  CHECK(has(page, "of grain a year are thrown out because they are older than use_by allows"));
  CHECK(has(page, "thrown out, too old"));
  CHECK(has(html_page(file, {}), "Beware: on 295"));
  set_mean(file, "overloaded_days", 12.0);
  set_mean(file, "grain_aged_out", 12.0);
  CHECK(has(terminal_text(file), "On 12"));
  CHECK_FALSE(has(html_page(file, {}), "Beware: on"));
  CHECK_FALSE(has(terminal_text(file), "older than use_by allows"));
}

TEST_CASE("counts that were the same in all replications are told by the rule of three") {
  const std::string said = "was the same in all 200 replications; up to 1.5 in 100 may still be otherwise (rule of three).";
  const ResultFile many = simulate_file(200);
  CHECK(has(terminal_text(many), said));
  CHECK(has(html_page(many, {}), said));
  CHECK(unvaried_words(many, {"spoiled_fed"}).find(said) != std::string::npos);
  CHECK(unvaried_words(many, {"short_days", "grain_used"}).empty());  // one varied, the other is no count
  CHECK_FALSE(has(terminal_text(simulate_file(2)), "rule of three"));
}

TEST_CASE("spoiled mats that were fed are called grave") {
  ResultFile file = simulate_file(30);
  const auto& names = file.at("summary/quantity").texts;
  const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), "spoiled_fed") - names.begin());
  file.arrays["summary/mean"].numbers[at] = 0.25;
  CHECK(has(terminal_text(file), "Grave: 0.25"));
}

TEST_CASE("grave cautions stand at the head and not among the others") {
  const std::string grave = "Grave: fodder is to be too much of what they eat: pony, 61 % of the dry matter (20 % is the usual upper limit). Cut the ration.";
  for (const bool sized : {false, true}) {
    ResultFile file = sized ? size_file(1, -1) : simulate_file(60);
    file.arrays["scenario/caution"] = row(std::vector<std::string>{"Never feed a mouldy mat.", grave});
    const std::string page = terminal_text(file);
    INFO(page);
    CHECK(has(page, grave));
    CHECK_FALSE(has(page, "- Grave"));
    CHECK(page.find("Grave: fodder") < page.find(sized ? "Recommended" : "This design"));
    CHECK(has(page, "- Never feed a mouldy mat."));
  }
}

TEST_CASE("a simulation without replications says so") {
  ResultFile file;
  file.header = sample::header("simulate", 400);
  CHECK(has(terminal_text(file), "No replication was completed"));
}

TEST_CASE("the page of a sizing gives the design, its price and chance, what binds, and the others") {
  const std::string page = terminal_text(size_file(1, -1));
  INFO(page);
  CHECK(has(page, "Recommended: the cheapest design that meets the target"));
  CHECK(has(page, "rack.tiers = 5"));
  CHECK(has(page, "cost a year 1000 EUR (990 to 1010)"));
  CHECK(has(page, "years that meet the target 93.0 % (90.0 to 95.0)"));
  CHECK(has(page, "What keeps a cheaper design from being chosen: the next cheaper, rack.tiers = 4, falls short in June to August."));
  CHECK(has(page, "1. rack.tiers = 6, line.sowing_density = 5 kg/m2"));
  CHECK(has(page, "costlier: costs 100 EUR a year more"));
  CHECK(
      has(page,
          "4 designs were tried: 1 ruled out by arithmetic alone, 1 miss the target, 1 cost more. 1200 replications"));
  CHECK(has(page, "- Never feed a mouldy mat."));
}

TEST_CASE("the page of a sizing tells what the cost is made of, and whether it is worth it") {
  ResultFile file = played_size_file();
  const std::string page = terminal_text(file);
  INFO(page);
  CHECK(has(page, "grain 500 EUR 34 %"));
  CHECK(has(page, "electricity of the heater 600 EUR 41 %"));
  CHECK(has(page, "electricity of the pump 100 EUR 7 %"));
  CHECK_FALSE(has(page, "power of the cooler"));
  CHECK(has(page, "rack and equipment 200 EUR 14 %"));
  CHECK(has(page, "reserve feed 50 EUR 3 %"));
  CHECK(has(page, "(the keeper's work has no price)"));
  CHECK(has(page, "3.0 times that of the same grain fed dry"));
  CHECK(has(page, "Plainly: sprouting costs more than feeding the grain dry and more than hay of the same energy."));
  CHECK(has(page, "Heating is 41 % of the year's cost, more than a third: insulate, and compare with"));
  CHECK(has(page, "\n`rackwright simulate farm.toml"));
  CHECK(has(page, " --against \"room.insulation=5 cm\" --out against.h5`.\n"));  // on one line
  set_mean(file, "cost_equal_hay", 1500.0);
  CHECK(has(terminal_text(file), "Plainly: sprouting costs more than feeding the grain dry."));
  set_mean(file, "dry_grain_per_kg_dry_matter", 1.3);
  CHECK_FALSE(has(terminal_text(file), "Plainly"));
  set_mean(file, "energy_heater", 2000.0);
  set_mean(file, "energy_used", 3500.0);
  set_mean(file, "energy_cooler", 1000.0);
  CHECK(has(terminal_text(file), "Heating and cooling are 41 %"));
  set_mean(file, "energy_cooler", 100.0);
  CHECK_FALSE(has(terminal_text(file), "insulate"));
  // A file without the runs of the design: the page says nothing of it.
  const std::string bare = terminal_text(size_file(1, -1));
  CHECK_FALSE(has(bare, "made of"));
  CHECK_FALSE(has(bare, "Plainly"));
}

TEST_CASE("what it takes to build stands beside the yearly cost, with what has no price and what is not in it") {
  const std::string text = terminal_text(played_size_file()), page = html_page(played_size_file(), {});
  const Scenario standing;
  const double capital = standing.rack.tiers * 60.0 + standing.keeper.soak_buckets * 8.0 + 120.0 + 70.0;
  for (const std::string& all : {text, page}) {
    INFO(all);
    CHECK(has(all, fmt::format("To build it takes {:.0f} EUR (", capital)));
    CHECK(has(all, "without a price: trays"));
    CHECK(has(all, "over 8 years at 5 % interest"));
    CHECK(has(all, "Not in it: emitters"));
  }
  CHECK_FALSE(has(terminal_text(size_file(1, -1)), "To build it"));  // a file of an earlier version
}

TEST_CASE("a sizing tells of spoiled mats that are fed, on the terminal as on the page") {
  ResultFile file = played_size_file();
  set_mean(file, "spoiled_fed", 0.0);
  for (const std::string& text : {terminal_text(file), html_page(file, {})}) CHECK_FALSE(has(text, "Grave"));
  set_mean(file, "spoiled_fed", 3.0);
  for (const std::string& text : {terminal_text(file), html_page(file, {})}) {
    CHECK(has(text, "Grave: 3"));
    CHECK(has(text, "spoiled mats a year are fed because nobody saw them."));
  }
}

TEST_CASE("costs of designs played in different years are told to be so, and the parts of a cost to which years they belong") {
  ResultFile file = played_size_file();
  CHECK(has(terminal_text(file), "1100 EUR (1090 to 1110) a year over its 400 years"));
  CHECK_FALSE(has(terminal_text(file), "Beware of comparing"));  // both in 400
  CHECK(has(terminal_text(file), "played to the end, which cost 1450 EUR in all; the figure above is of those that the search played"));
  file.arrays["design/replications"].numbers[2] = 48;
  const std::string beware = "each is the mean of the years that design was played (48 to 400 of them)";
  CHECK(has(terminal_text(file), beware));
  CHECK(has(html_page(file, {}), beware));
  file.arrays["design/cost_year"].numbers[1] = 1450.0;
  CHECK_FALSE(has(terminal_text(file), "of those that the search played"));
}

TEST_CASE("of a nearest miss that arithmetic ruled out nothing is told that was never played") {
  ResultFile file = size_file(-1, 3);
  file.arrays["design/replications"].numbers[3] = 0;
  for (const char* quantity : {"success", "fill_rate", "cost_year", "short_days", "labour", "spoiled_trays", "overdue_trays"})
    for (const char* end : {"", "_low", "_high"}) file.arrays[std::string("design/") + quantity + end].numbers[3] = std::nan("");
  for (const std::string& text : {terminal_text(file), html_page(file, {})}) {
    INFO(text);
    CHECK(has(text, "Arithmetic alone rules it out: too tall for the room."));
    CHECK_FALSE(has(text, "nan"));
    CHECK_FALSE(has(text, "It too tall"));
  }
}

TEST_CASE("when nothing meets the target the nearest miss is shown") {
  const std::string page = terminal_text(size_file(-1, 0));
  INFO(page);
  CHECK(has(page, "No design that was tried is shown to meet the target"));
  CHECK(has(page, "The nearest miss"));
  CHECK(has(page, "rack.tiers = 4"));
  CHECK_FALSE(has(page, "Recommended"));
}

TEST_CASE("an index beyond the candidates is not followed") {
  CHECK_FALSE(has(terminal_text(size_file(17, -1)), "Recommended"));
}

TEST_CASE("groups are written as comma-separated values") {
  const ResultFile runs = simulate_file(3);
  const std::string table = csv(runs, "replication");
  CHECK(table.starts_with("replication,days [d],wanted [kg],"));
  CHECK(std::count(table.begin(), table.end(), '\n') == 4);
  CHECK(table.find("\n2,365,") != std::string::npos);
  CHECK(csv(runs, "target").find("fill_rate,0.97\n") != std::string::npos);
  CHECK(csv(runs, "summary").starts_with("quantity,unit,mean,low,high,sd,least,most\n"));
  CHECK_THROWS_AS(csv(runs, "design"), std::logic_error);

  const std::string designs = csv(size_file(1, -1), "design");
  CHECK(designs.find("value at rack.tiers,value at line.sowing_density") != std::string::npos);
  CHECK(designs.find("\n1,5,5 kg/m2,chosen,") != std::string::npos);

  // Every table, not only that of the first dimension.
  const auto names = csv_tables(size_file(1, -1));
  for (const char* name : {"design", "design_values", "design_requirement", "target"}) {
    INFO(name);
    CHECK(std::count(names.begin(), names.end(), name) == 1);
  }
  CHECK(csv(size_file(1, -1), "design_values").find("\nchosen,1\n") != std::string::npos);
  CHECK(csv(runs, "summary_season").starts_with("season,short_season\n"));

  ResultFile quoted = size_file(1, -1);
  quoted.arrays["design/why"].texts[0] = "so, \"they\" say";
  CHECK(csv(quoted, "design").find(",\"so, \"\"they\"\" say\",") != std::string::npos);
}

TEST_CASE("whole days are written one line a replication and day, and bands one line a day") {
  ResultFile file;
  file.header = sample::header("simulate", 100);
  file.arrays = sample::arrays();
  file.arrays["series/replication"] = row(std::vector<double>{3, 40});
  file.arrays["series/day"] = row(std::vector<double>{0, 1});
  file.arrays["series/served"] = {{2, 2}, {5, 6, 7, 8}, {}};
  CHECK(csv(file, "series") == "replication,day [days since 2026-03-01],served [kg]\n3,0,5\n3,1,6\n40,0,7\n40,1,8\n");
  const std::string daily = csv(file, "daily");
  CHECK(daily.starts_with("day [days since 2026-03-01],wanted [kg] at 0.05,wanted [kg] at 0.25,"));
  CHECK(std::count(daily.begin(), daily.end(), '\n') == 366);
}
