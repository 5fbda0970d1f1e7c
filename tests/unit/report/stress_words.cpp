// What a file of stress says in words, on the terminal and on the page: which hard time is worst, what helps, what to beware of.
#include "sim/report/stress_words.hpp"

#include <algorithm>
#include <limits>

#include "sim/report/html_page.hpp"
#include "sim/report/text.hpp"
#include "tests/catch.hpp"
#include "tests/unit/report/flat_pages.hpp"

using namespace rackwright;
using namespace rackwright::report;

namespace {

study::Estimate around(double mean, double half) { return {mean, mean - half, mean + half, 0.0, mean - half, mean + half}; }

study::Struck struck(const char* name, HardTimeKind kind, double first_day) {
  study::Struck s;
  s.hard.name = name;
  s.hard.kind = kind;
  s.hard.first_day = first_day;
  s.replications = 48;
  return s;
}

study::Trial trial(std::size_t hard_time, const char* name, const char* key, int by_service) {
  study::Trial t;
  t.hard_time = hard_time;
  t.what = {name, {{key, "1"}}};
  t.by_service = by_service;
  t.replications = 48;
  return t;
}

/// A heat wave from 18 July of 20 short days, a dead pump of 4, and an order that would come too late for the run.
study::StressResult three_hard_times() {
  study::StressResult result;
  result.hard_times = {struck("heat-wave", HardTimeKind::heat_wave, 139), struck("pump-stop", HardTimeKind::pump_stop, 0),
                       struck("late-delivery", HardTimeKind::late_delivery, 900)};
  study::Struck& heat = result.hard_times[0];
  heat.effects.short_days = around(20.0, 1.0);
  heat.effects.fill_rate = around(-0.05, 0.01);
  heat.effects.cost = around(31.0, 4.0);
  heat.first = {0, 0, 0, 0, 0, 0.75, 0.25, 0, 0, 0};
  heat.first_day = around(3.2, 0.2);
  heat.any_short = 0.5;
  heat.first_short = around(6.0, 0.5);
  heat.recovery = around(17.0, 2.0);
  heat.not_over = 0.001;
  heat.limit = study::HeatLimit{study::HeatLimit::Kind::found, 33.0, 32.5, 33.75};
  study::Struck& pump = result.hard_times[1];
  pump.effects.short_days = around(4.0, 1.0);
  pump.effects.fill_rate = around(-0.2, 0.01);
  pump.first = {0, 0, 1.0, 0, 0, 0, 0, 0, 0, 0};
  pump.first_day = around(0.0, 0.0);
  result.hard_times[2].why_not = "it begins after the end of this run";
  return result;
}

results::ResultFile file_of(const study::StressResult& result) {
  results::ResultFile file;
  file.header = results::sample::header("stress", 48);
  file.arrays = results::stress_arrays(result, 0.9);
  file.arrays["scenario/resolved"] = results::text(sample::resolved);
  return file;
}

bool has(const std::string& text, const std::string& part) { return sample::flat(text).find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a difference shows its sign, as many digits as it deserves, and no interval it does not have") {
  CHECK(signed_words(around(12.4, 0.5), 1.0, "h") == "+12.4 h (+11.9 to +12.9)");
  CHECK(signed_words(around(-0.05, 0.02), 100.0, "percentage points") == "-5.0 percentage points (-7.0 to -3.0)");
  CHECK(signed_words({}, 1.0, "EUR") == "0 EUR");
  CHECK(signed_words({}, 1.0, "") == "0");
  CHECK(signed_words(around(0.0, 2.0), 1.0, "") == "0.0 (-2.0 to +2.0)");
  constexpr double no_end = std::numeric_limits<double>::infinity();
  CHECK(signed_words({3.25, -no_end, no_end, 0, 0, 0}, 1.0, "d") == "+3.25 d");  // one pair tells no interval
}

TEST_CASE("the worst hard time leads, each tells what gives way, and what was not tried says why") {
  const results::ResultFile file = file_of(three_hard_times());
  const StressWords words(file);
  REQUIRE(words.count() == 3);
  CHECK(words.lead().starts_with("Hardest of those tried, by short days: heat-wave, a heat wave, 9 degC (16.2 degF) warmer for 10 days. Short days: +20.0 "));
  CHECK(words.lead().ends_with(" In their own time most fodder is lost in pump-stop: -20.0 percentage points (-21.0 to -19.0)."));
  CHECK(words.date(0) == "2026-07-18");  // 139 days after 1 March
  CHECK(words.date(1) == "2026-03-01");
  CHECK(words.first(0) == "souring, in 75 % of runs (mould, in 25 %); 3.2 days in");
  CHECK(words.first(1) == "no water, in 100 % of runs; 0.0 days in");
  CHECK(words.first(2) == "nothing");
  CHECK(words.first_short(0) == "in 50 % of runs, 6.0 days in");
  CHECK(words.first_short(1) == "none");
  CHECK(words.recovery(0).ends_with("; not before the end of the run in less than 1 %"));  // never told as none
  CHECK(words.recovery(1) == "0");
  CHECK(words.limit(0) == "33.0 degC (32.5 to 33.8)");
  CHECK(words.limit(1).empty());
  const std::string page = terminal_text(file), markup = html_page(file, {});
  INFO(page);
  CHECK(has(page, "late-delivery: a late delivery, the next order comes 10 days later, from 2028-08-17 Not tried: it begins after the end"));
  CHECK(has(page, "enough up to 33.0 degC (32.5 to 33.8)"));
  CHECK(has(page, "at least 90 % of the fodder wanted is served"));
  CHECK_FALSE(has(page, "stopped early"));
  CHECK(has(markup, "late-delivery was not tried: it begins after the end of this run"));
  CHECK(sample::markup_fault(markup) == "");
}

TEST_CASE("figures say which time they speak of, and spoiled mats that are fed stand on top") {
  study::StressResult result = three_hard_times();
  const auto both = [&] { return std::vector<std::string>{terminal_text(file_of(result)), html_page(file_of(result), {})}; };
  for (const std::string& text : both()) {
    for (const char* label : {"more short days, in its time", "more mats spoiled, in its time", "more spoiled mats fed, whole run", "more unripe mats fed, whole run",
                              "fodder served, in its time", "costs more, whole run"})
      CHECK(has(text, label));
    CHECK_FALSE(has(text, "Grave"));
  }
  result.hard_times[1].effects.spoiled_fed = around(2.0, 3.0);  // not shown
  for (const std::string& text : both()) CHECK_FALSE(has(text, "Grave"));
  result.hard_times[0].effects.spoiled_fed = around(4.0, 1.0);
  for (const std::string& text : both()) CHECK(has(text, "Grave: spoiled mats are fed because nobody saw them: +4.0 (+3.0 to +5.0) more in heat-wave."));
  results::ResultFile us = file_of(result);
  CHECK(has(terminal_text(us), "a quarter of a degree Celsius"));
  us.header.display_units = "us";
  CHECK(has(terminal_text(us), "half a degree Fahrenheit"));
}

TEST_CASE("what is too much of a ration stands on top of hard times, too") {
  results::ResultFile file = file_of(three_hard_times());
  const std::string grave = "Grave: fodder is to be too much of what they eat: pony, 61 % of the dry matter.";
  file.arrays["scenario/caution"] = results::row(std::vector<std::string>{grave, "Never feed a mouldy mat."});
  const std::string text = terminal_text(file);
  CHECK(has(text, grave));
  CHECK_FALSE(has(text, "- Grave"));
  CHECK(text.find("Grave: ") < text.find("What helps, against"));
  CHECK(has(html_page(file, {}), "<p class=\"grave\">" + grave + "</p>"));
}

TEST_CASE("where no hard time brings more short days the fodder served tells the worst, and else it is said that none does") {
  study::StressResult result = three_hard_times();
  for (study::Struck& s : result.hard_times) s.effects.short_days = around(0.5, 1.0);
  CHECK(has(terminal_text(file_of(result)), "Hardest of those tried, by the fodder served: pump-stop, the pump dead for 24 hours. It is not shown to bring more "
                                            "short days, but it leaves the animals with less: fodder served -20"));
  std::swap(result.hard_times[0], result.hard_times[1]);  // the worst is the worst in any order
  CHECK(has(terminal_text(file_of(result)), "Hardest of those tried, by the fodder served: pump-stop,"));
  for (study::Struck& s : result.hard_times) s.effects.fill_rate = around(-0.001, 0.01);
  CHECK(has(terminal_text(file_of(result)), "None of the hard times that were tried is shown to leave the animals short."));
}

TEST_CASE("where no hard time could be tried the headline says so, and no number of runs is told") {
  study::StressResult result = three_hard_times();
  result.hard_times = {result.hard_times[2]};
  result.hard_times[0].replications = 0;
  const std::string page = terminal_text(file_of(result)), markup = html_page(file_of(result), {});
  for (const std::string& text : {page, markup}) {
    CHECK(has(text, "Nothing was tried. late-delivery: it begins after the end of this run."));
    CHECK_FALSE(has(text, "is shown to leave the animals short"));
    CHECK_FALSE(has(text, "was played 0 times"));
  }
  result = three_hard_times();  // one of several, the first, is not tried
  std::swap(result.hard_times[0], result.hard_times[2]);
  result.hard_times[0].replications = 0;
  CHECK(has(terminal_text(file_of(result)), "Each hard time was played 48 times"));
}

TEST_CASE("animals that are never fed as usual again within the run have no day on which they are") {
  study::StressResult result = three_hard_times();
  result.hard_times[0].not_over = 1.0;
  CHECK(StressWords(file_of(result)).recovery(0) == "not before the end of the run");
  CHECK(has(terminal_text(file_of(result)), "fed as usual again, days in not before the end of the run"));
}

TEST_CASE("what a countermeasure needs is told with it") {
  study::StressResult result = three_hard_times();
  result.trials = {trial(0, "more grain kept back", "grain.1.reorder", 1), trial(0, "shade", "room.shade", 2)};
  result.trials[0].what.needs = "room for 425 kg of barley (the bin holds 300 kg)";
  const std::string needs = "To be had first: for more grain kept back: room for 425 kg of barley (the bin holds 300 kg).";
  CHECK(has(terminal_text(file_of(result)), needs));
  CHECK(has(html_page(file_of(result), {}), needs));
  result.trials[0].what.needs.clear();
  CHECK_FALSE(has(terminal_text(file_of(result)), "To be had first"));
  results::ResultFile before = file_of(result);  // of a version that told no needs
  before.arrays.erase("countermeasure/needs");
  CHECK_FALSE(has(terminal_text(before), "To be had first"));
}

TEST_CASE("limits of heat in words: found, none, and beyond all that was tried, in either unit") {
  study::StressResult result = three_hard_times();
  result.hard_times[0].limit = study::HeatLimit{study::HeatLimit::Kind::never, 0.0, 0.0, 0.0};
  results::ResultFile file = file_of(result);
  CHECK(StressWords(file).limit(0) == "not even an ordinary summer");
  result.hard_times[0].limit = study::HeatLimit{study::HeatLimit::Kind::beyond, 45.0, 45.0, 45.0};
  file = file_of(result);
  CHECK(StressWords(file).limit(0) == "45.0 degC and more");
  file.header.display_units = "us";
  CHECK(StressWords(file).limit(0) == "113.0 degF and more");
}

TEST_CASE("what helps most is named, then the cheapest that does no harm, and what has no price is said to have none") {
  study::StressResult result = three_hard_times();
  result.trials = {trial(0, "a cooler", "room.cooler", 1), trial(0, "shade", "room.shade", 2), trial(0, "fewer trays", "line.trays_per_batch", 3),
                   trial(0, "a longer soak", "line.soak", 0)};
  result.trials[0].effects = {around(-12.0, 1.0), {}, {}, {}, around(0.04, 0.01), around(25.0, 2.0)};
  result.trials[0].limit = study::HeatLimit{study::HeatLimit::Kind::found, 38.0, 37.5, 38.5};
  result.trials[1].effects = {around(-4.0, 1.0), {}, {}, {}, around(0.02, 0.01), around(-9.0, 2.0)};
  result.trials[1].what.priced = false;
  result.trials[2].effects = {around(5.0, 1.0), {}, {}, {}, around(-0.04, 0.01), around(-90.0, 2.0)};  // cheap in the wrong way
  result.trials[3].why_not = "line.soak: must be between 0 and 48 h";
  results::ResultFile file = file_of(result);
  CHECK(StressWords(file).trials(0).size() == 4);
  CHECK(StressWords(file).trials(1).empty());
  CHECK(StressWords(file).advice(0) ==
        "Most short days are avoided by a cooler (room.cooler=1). Cheapest of those that are shown to help then, and bring no more unripe or "
        "spoiled mats in the whole run: shade (room.shade=1). Without a price in the scenario, so not among the costs: shade.");
  const std::string page = terminal_text(file), markup = html_page(file, {});
  CHECK(has(page, "a longer soak: could not be tried: line.soak: must be between 0 and 48 h"));
  CHECK(has(page, "38.0 degC (37.5 to 38.5)"));
  CHECK(has(markup, "a longer soak could not be tried: line.soak: must be between 0 and 48 h"));
  CHECK(has(markup, "As it is, the design is enough up to 33.0 °C (32.5 to 33.8)."));
  CHECK(sample::markup_fault(markup) == "");

  SECTION("the one that helps most may be the cheapest as well") {
    result.trials[1].what.priced = true;
    result.trials[0].effects.cost = around(-20.0, 2.0);
    CHECK(StressWords(file_of(result)).advice(0) == "Most short days are avoided by a cooler (room.cooler=1). It costs least, too.");
  }
  SECTION("what is cheap but not shown to help, or helps by next to nothing, is no cure") {
    result.trials[1].effects.short_days = {};
    result.trials[1].effects.fill_rate = around(0.0, 0.01);
    CHECK_FALSE(has(StressWords(file_of(result)).advice(0), "Cheapest"));
    result.trials[1].effects.fill_rate = around(0.00006, 0.00001);  // of 5 percentage points that are lost
    CHECK_FALSE(has(StressWords(file_of(result)).advice(0), "Cheapest"));
    result.trials[0].effects = result.trials[1].effects;
    CHECK(has(StressWords(file_of(result)).advice(0), "Nothing that was tried is shown to avoid short days or to save fodder."));
    result.hard_times[0].hard.kind = HardTimeKind::price_jump;  // what is hard is the price alone
    CHECK(has(StressWords(file_of(result)).advice(0), "Cheapest of those that bring no more short days and no less fodder then, and bring no more unripe or spoiled mats in the whole run: a cooler (room.cooler=1)"));
  }
  SECTION("what feeds unripe mats in other seasons is no saving") {
    result.trials[1].effects.unripe_fed = around(194.0, 9.0);
    CHECK_FALSE(has(StressWords(file_of(result)).advice(0), "Cheapest"));
  }
  SECTION("another may save clearly more of the fodder") {
    result.trials[1].effects.fill_rate = around(0.09, 0.01);
    CHECK(has(StressWords(file_of(result)).advice(0), "a cooler (room.cooler=1). Most fodder is saved by shade (room.shade=1): +9.0 percentage points (+8.0 to +10.0)."));
  }
  SECTION("what makes up for more than the trouble is told as no cure of it alone") {
    result.trials[0].effects.short_days = around(-30.0, 1.0);
    CHECK(StressWords(file_of(result)).advice(0).starts_with(
        "Most short days are avoided by a cooler (room.cooler=1). It avoids more of them than this hard time brings, so it makes up for short days of ordinary times as well. Cheapest"));
  }
  SECTION("without fewer short days, fodder saved tells") {
    for (study::Trial& t : result.trials) t.effects.short_days = around(0.0, 1.0), t.what.priced = true;
    result.trials[1].effects.cost = around(3.0, 1.0);
    result.trials[2].effects.cost = {};
    CHECK(StressWords(file_of(result)).advice(0) ==
          "Nothing that was tried is shown to avoid short days, but most fodder is saved by a cooler (room.cooler=1): +4.0 percentage points (+3.0 to +5.0).");
    result.trials[0].effects.cost = around(-3.0, 1.0);
    CHECK(StressWords(file_of(result)).advice(0).ends_with(": +4.0 percentage points (+3.0 to +5.0). It costs least, too."));
  }
  SECTION("and where nothing helps that is what is said") {
    for (study::Trial& t : result.trials) t.effects = {}, t.what.priced = true;
    CHECK(StressWords(file_of(result)).advice(0) == "Nothing that was tried is shown to avoid short days or to save fodder.");
    result.trials.resize(1);
    result.trials[0].why_not = "room.cooler: no electricity";
    const std::string only_refused = html_page(file_of(result), {});
    CHECK(has(only_refused, "a cooler could not be tried: room.cooler: no electricity"));
    CHECK(has(terminal_text(file_of(result)), "What helps, against doing nothing (short days and fodder in its time, cost over the whole run) a cooler: could not be tried: room.cooler: no electricity"));
  }
}

TEST_CASE("a study that was stopped says so") {
  study::StressResult result = three_hard_times();
  result.stopped = true;
  const results::ResultFile file = file_of(result);
  CHECK(has(terminal_text(file), "The study was stopped early; hard times not shown were not tried."));
  CHECK(has(html_page(file, {}), "The study was stopped early; hard times not shown were not tried."));
}
