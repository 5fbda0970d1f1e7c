// A file of size on the terminal and on the page: what was found, how sure it is, what more money buys, and how long it lasts.
#include <algorithm>

#include <fmt/format.h>

#include "tests/unit/report/flat_pages.hpp"

using namespace rackwright;
using namespace rackwright::report;
using sample::has, sample::page, sample::terminal;
using study::Candidate;
using study::Verdict;

namespace {

study::Estimate around(double mean, double half) { return {mean, mean - half, mean + half, 0.0, mean - half, mean + half}; }

Candidate candidate(int tiers, Verdict verdict, double cost, double fill, std::uint32_t replications = 200) {
  Candidate c;
  c.values = {std::to_string(tiers)};
  c.verdict = verdict;
  c.why = fmt::format("of {} tiers", tiers);
  c.replications = replications;
  c.success = around(fill - 0.04, 0.02);
  c.fill_rate = around(fill, 0.004);
  c.cost_year = around(cost, 5.0);
  c.kept = {{"the limits together", c.success, 0.9, false}, {"spoiled mats fed", around(0.995, 0.003), 0.99, false}, {"mean fill rate", c.fill_rate, 0.9, true}};
  return c;
}

/// Tiers from 3 to 9, of which 5 is chosen.
study::SizeResult grid() {
  study::SizeResult result;
  result.keys = {"rack.tiers"};
  result.candidates = {candidate(3, Verdict::screened, 0, 0.5, 0), candidate(4, Verdict::fails, 900, 0.9), candidate(5, Verdict::chosen, 1000, 0.97),
                       candidate(6, Verdict::meets, 1002, 0.975), candidate(7, Verdict::costlier, 1200, 0.98), candidate(9, Verdict::undecided, 1500, 0.981)};
  result.candidates[1].broken = {{"fill rate", 0.75}, {"yearly cost", 0.0}};
  result.chosen = 2;
  result.runners_up = {3, 4};
  result.replications = 1000;
  result.equal_allocation = 4000;
  result.settled = true;
  result.promise = "with 95 % confidence it meets the target";
  result.frontier = {1, 2, 4, 5};
  result.knee = 2;
  result.buys = {"rack.tiers = 7: 200 EUR a year buys 1.0 points of fill rate"};
  return result;
}

results::ResultFile file_of(const study::SizeResult& result, std::uint64_t days = 365) {
  results::ResultFile file;
  file.header = results::sample::header("size", 5000);
  file.header.horizon_days = days;
  Scenario scenario;
  scenario.target.years = 0.9;
  file.arrays = results::design_arrays(result);
  file.arrays.merge(results::scenario_arrays(scenario, "", sample::resolved, {}));
  return file;
}

}  // namespace

TEST_CASE("each verdict is counted in words, and what the search spared is told") {
  const std::string text = terminal(file_of(grid())), html = page(file_of(grid()));
  INFO(text);
  CHECK(has(text, "6 designs were tried: 1 ruled out by arithmetic alone, 1 miss the target, 1 cost more, 1 meet it too, at a cost too close to tell apart, "
                  "1 left undecided. 1000 replications"));
  CHECK(has(text, "would have taken 4 times as many"));
  CHECK(has(text, "What arithmetic says, for one of them: of 3 tiers."));
  CHECK(has(html, "6 designs were tried: 1 ruled out by arithmetic, 1 miss the target, 1 cost more, 1 meet it at a cost too close to tell apart, 1 left undecided."));
  study::SizeResult close = grid();
  close.equal_allocation = 1400;  // no saving to speak of
  close.candidates.erase(close.candidates.begin());
  close.chosen = 1, close.runners_up = {}, close.frontier = {}, close.knee = -1;
  CHECK_FALSE(has(terminal(file_of(close)), "times as many"));
  CHECK_FALSE(has(terminal(file_of(close)), "arithmetic"));
  CHECK(has(terminal(file_of(close)), "No other design comes near."));
}

TEST_CASE("a search that is settled, one that is not and one that was stopped say different things of their choice") {
  study::SizeResult result = grid();
  CHECK(has(terminal(file_of(result)), "Recommended: the cheapest design that meets the target"));
  result.settled = false;
  CHECK(has(terminal(file_of(result)), "Recommended: the cheapest design shown to meet the target"));
  CHECK(has(terminal(file_of(result)), "raise choose.most_replications (now 5000) to settle them"));
  CHECK(has(page(file_of(result)), "Some verdicts lack the confidence asked for: raise choose.most_replications to settle them."));
  result.stopped = true;
  CHECK(has(terminal(file_of(result)), "The search was stopped early; the verdicts are those reached by then."));
  CHECK(has(page(file_of(result)), "The search was stopped early."));
  CHECK_FALSE(has(terminal(file_of(result)), "raise choose.most_replications"));
  result.chosen = -1, result.nearest = 1;
  CHECK(has(terminal(file_of(result)), "The search was stopped before any design was shown to meet the target. The best so far"));
  result.stopped = false;
  CHECK(has(terminal(file_of(result)), "No design that was tried is shown to meet the target. The nearest miss"));
  CHECK(has(terminal(file_of(result)), "It of 4 tiers."));
  CHECK(has(page(file_of(result)), "None of the designs that were tried is shown to meet the target. The nearest is"));
  CHECK(has(page(file_of(result)), "limits broken in the years that missed the target"));
  result.nearest = -1;
  CHECK_FALSE(has(terminal(file_of(result)), "nearest miss"));
}

TEST_CASE("limits asked for by themselves stand in the portrait with the share of years that kept them") {
  const std::string text = terminal(file_of(grid()));
  CHECK(has(text, "kept: spoiled mats fed 99.5 % (99.2 to 99.8)"));
  CHECK_FALSE(has(text, "kept: mean fill rate"));       // a mean is no share of years
  CHECK_FALSE(has(text, "kept: the limits together"));  // told as years that meet the target
  CHECK(has(text, "years that meet the target 93.0 % (91.0 to 95.0)"));
  CHECK(has(text, "the target is met in 93.5 % (91.5 to 95.5) of years"));
  const std::string half = terminal(file_of(grid(), 180));
  CHECK(has(half, "runs that meet the target 93.0 %"));
  CHECK(has(half, "of runs"));
  CHECK_FALSE(has(half, "years that meet the target"));
}

TEST_CASE("what more money buys, where it bends, what would help and how long the rack lasts are told when there is anything to tell") {
  study::SizeResult result = grid();
  std::string text = terminal(file_of(result)), html = page(file_of(result));
  CHECK(has(text, "Promise: with 95 % confidence it meets the target."));
  CHECK(has(text, "What a bit more money buys - rack.tiers = 7: 200 EUR a year buys"));
  CHECK(has(text, "Of 4 designs none is served better for less money. Beyond rack.tiers = 5 (1000 EUR (995 to 1005) a year"));
  CHECK_FALSE(has(text, "What would help"));
  CHECK_FALSE(has(text, "How long the rack lasts"));
  CHECK(has(html, "The promise: with 95 % confidence it meets the target."));
  CHECK(has(html, "what a bit more money buys"));
  CHECK(has(html, "The filled dot, design 2, is where it bends most: beyond it money buys least."));
  result.runway.look_ahead = 1095;
  result.runway_words = "in half of the runs it is too small by May 2028";
  CHECK(has(terminal(file_of(result)), "How long the rack lasts: in half of the runs it is too small by May 2028."));
  CHECK(has(page(file_of(result)), "How long the rack lasts: in half of the runs it is too small by May 2028."));
  result.knee = -1, result.buys = {}, result.promise = "", result.help = {"a cooler of 500 W: meets the target in 95 % of years"};
  text = terminal(file_of(result)), html = page(file_of(result));
  CHECK(has(text, "What would help the nearest miss, told of years other than those it was found in - a cooler of 500 W"));
  CHECK(has(html, "what would help the nearest miss"));
  CHECK_FALSE(has(text, "Promise:"));
  CHECK_FALSE(has(text, "more money buys least"));
  CHECK_FALSE(has(html, "where it bends most"));
  CHECK(has(html, "Every design on this curve serves more than anything cheaper."));
  result.frontier = {1, 2};  // two dots are no curve
  CHECK_FALSE(has(page(file_of(result)), "Every design on this curve"));
}

TEST_CASE("where no design meets the target nothing is said of money that buys least, nor twice why the nearest fails") {
  study::SizeResult result = grid();
  result.binding = "the nearest cheaper, rack.tiers = 4, meets the target in 90 % of years";
  CHECK(has(terminal(file_of(result)), "What keeps a cheaper design from being chosen: the nearest cheaper, rack.tiers = 4"));
  CHECK(has(page(file_of(result)), "What keeps a cheaper design from being chosen"));
  result.chosen = -1, result.nearest = 1;
  result.candidates[2].verdict = Verdict::fails;
  result.binding = "the nearest, rack.tiers = 4, meets the target in 90 % of years";
  for (const std::string& text : {terminal(file_of(result)), page(file_of(result))}) {
    CHECK_FALSE(has(text, "money buys least"));
    CHECK_FALSE(has(text, "What keeps a cheaper design from being chosen"));
  }
  CHECK(has(page(file_of(result)), "Every design on this curve serves more than anything cheaper."));
}

TEST_CASE("a sizing without a choice judges the design as written") {
  study::SizeResult result;
  result.candidates = {candidate(5, Verdict::chosen, 1000, 0.97), candidate(5, Verdict::meets, 1001, 0.97)};
  for (Candidate& c : result.candidates) c.values.clear();
  result.chosen = 0;
  result.runners_up = {1};
  result.settled = true;
  results::ResultFile file = file_of(result);
  file.arrays.erase("design/choice"), file.arrays.erase("design/value");
  CHECK(has(terminal(file), "1. the design as written"));
  CHECK(has(page(file), "the design as written"));
}

TEST_CASE("the table of designs ends after so many and says of how many, and the drawing too") {
  study::SizeResult result;
  result.keys = {"rack.tiers"};
  for (int i = 0; i < 700; ++i) result.candidates.push_back(candidate(i + 1, i == 5 ? Verdict::chosen : Verdict::costlier, 900.0 + i, 0.97));
  result.chosen = 5;
  result.settled = true;
  const std::string html = page(file_of(result));
  CHECK(has(html, "The table holds 150 of 700 designs; rackwright report --json lists all."));
  CHECK(has(html, "600 designs as dots"));
  result.candidates.resize(150);
  CHECK_FALSE(has(page(file_of(result)), "The table holds"));
}

TEST_CASE("designs that were never played have no figures, and where none was there is no drawing") {
  study::SizeResult result;
  result.keys = {"rack.tiers"};
  result.candidates = {candidate(3, Verdict::screened, 0, 0.5, 0), candidate(4, Verdict::screened, 0, 0.5, 0)};
  const std::string html = page(file_of(result));
  CHECK(has(html, "2 designs were tried: 2 ruled out by arithmetic"));
  study::SizeResult alone = grid();
  alone.candidates = {alone.candidates[2]};
  alone.chosen = 0, alone.runners_up = {}, alone.frontier = {}, alone.knee = -1;
  CHECK(has(terminal(file_of(alone)), "1 design was tried"));
  CHECK(has(page(file_of(alone)), "1 design was tried"));
  CHECK_FALSE(has(html, "designs as dots"));
}
