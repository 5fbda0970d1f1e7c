#include "sim/results/collect.hpp"

#include <cctype>
#include <sstream>

#include "sim/results/build_info.hpp"
#include "sim/results/result_file.hpp"
#include "sim/results/sweep_part.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright;
using namespace rackwright::results;

TEST_CASE("the header tells what was run and what ran it") {
  Scenario scenario;
  scenario.title = "A hill";
  scenario.units = Units::us;
  scenario.run.random_seed = 7;
  scenario.run.length = days(730);
  const Header h = describe_run(scenario, "simulate", "rackwright simulate hill.toml", "2026-03-01T06:00:00Z");
  CHECK(h.title == "A hill");
  CHECK(h.display_units == "us");
  CHECK(h.random_seed == 7);
  CHECK(h.horizon_days == 730);
  CHECK(h.start_date == "2026-03-01");
  CHECK(h.replications_asked == 400);
  CHECK(describe_run(scenario, "size", "", "").replications_asked == 2000);
  CHECK(h.program_version == program_version());
  for (const std::string* text : {&h.program_version, &h.commit, &h.compiler, &h.flags}) CHECK_FALSE(text->empty());
  CHECK(h.dependencies.find("HDF5 1.") == 0);
  // Every library with its version: a name, a blank, and what begins with a digit.
  std::istringstream libraries(h.dependencies);
  int counted = 0;
  for (std::string one; std::getline(libraries, one, counted == 0 ? ';' : ','); ++counted) {
    const auto blank = one.rfind(' ');
    INFO(one);
    REQUIRE(blank != std::string::npos);
    CHECK(std::isdigit(static_cast<unsigned char>(one.at(blank + 1))) != 0);
  }
  CHECK(counted == 8);
  CHECK(utc_now().size() == 20);
}

TEST_CASE("limits that were not stated are absent") {
  Scenario scenario;
  const Arrays plain = scenario_arrays(scenario, "", "", {});
  CHECK(plain.count("target/short_days") == 0);
  CHECK(plain.count("scenario/text") == 0);
  CHECK(plain.at("scenario/hay_cost_per_kg_dry_matter").numbers.front() == Approx(0.25 / 0.88));
  scenario.target.short_days = 12.0;
  CHECK(scenario_arrays(scenario, "", "", {}).at("target/short_days").numbers.front() == 12.0);
}

TEST_CASE("every column, ratio and the success rate stand in the summary") {
  const Target target;
  study::Summary summary(target);
  for (std::uint32_t i = 0; i < 50; ++i) summary.add(sample::outcome(i));
  ResultFile file;
  file.arrays = summary_arrays(summary);
  for (const Column& c : outcome_columns()) {
    INFO(c.name);
    REQUIRE(file.estimate(c.name).has_value());
    CHECK(file.estimate(c.name)->mean == summary.estimate(c.name).mean);
    CHECK(file.estimate(c.name)->high == summary.estimate(c.name).high);
  }
  CHECK(file.estimate("served/wanted")->mean == summary.ratio("served", "wanted").mean);
  CHECK(file.estimate("success")->low == summary.success().low);
  for (const auto& [path, array] : file.arrays) CHECK(find_dataset(path) != nullptr);
}

TEST_CASE("bands have a row a day and a column a quantile") {
  study::Bands bands(10);
  CHECK(band_arrays(bands).empty());
  for (std::uint32_t i = 0; i < 20; ++i) bands.add(sample::series(i, 10).rows);
  const Arrays arrays = band_arrays(bands);
  CHECK(arrays.at("daily/day").numbers.back() == 9.0);
  const Array& served = arrays.at("daily/served");
  CHECK(served.shape == std::vector<std::size_t>{10, 5});
  CHECK(served.numbers[5 * 4 + 2] == bands.quantile(4, 1, 0.5));
  CHECK(arrays.at("daily/served_mean").numbers[4] == bands.mean(4, 1));
  CHECK(arrays.at("daily/served_mean").numbers[4] == Approx(13.5));  // days 4 of replications 0 to 19: 4 to 23
  for (const auto& [path, array] : arrays) CHECK(find_dataset(path) != nullptr);
}

TEST_CASE("words that a sweep lists are kept with their key, and a point's value is the place of its word") {
  study::Sweep sweep;
  sweep.axes = {{"rack.tiers", "1", true, 3.0, 5.0, {3.0, 5.0}, {}}, {"water.feed", "", false, 0.0, 0.0, {}, {"parallel", "cascade"}}};
  sweep.points = 4;
  const Arrays all = sweep_arrays(sweep);
  CHECK(all.at("sweep/key").texts == std::vector<std::string>{"rack.tiers", "water.feed"});
  CHECK(all.at("sweep/word").texts == std::vector<std::string>{"parallel", "cascade"});
  CHECK(all.at("sweep/word_key").numbers == std::vector<double>{1.0, 1.0});
  CHECK(all.at("sweep/high").numbers == std::vector<double>{5.0, 1.0});
  for (const auto& [path, array] : all) CHECK(find_dataset(path) != nullptr);
  sweep.axes.pop_back();
  CHECK_FALSE(sweep_arrays(sweep).contains("sweep/word"));
}
