// Values of a kind that their key does not take, and names that stand twice: refused in words that say what was found.
#include <sstream>
#include <string>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

/// Why what stands behind the sample is refused, of the key.
std::string why(const std::string& more, const std::string& key) {
  const Reading reading = read_scenario(sample::small + more);
  CHECK_FALSE(reading.scenario.has_value());
  for (const Problem& problem : reading.problems) {
    if (problem.key == key) return problem.why;
  }
  return "no complaint of " + key;
}

}  // namespace

TEST_CASE("a quantity is not a flag, a list, a date, a time or a table, and infinity is no amount") {
  CHECK(why("[water]\ntank = true\n", "water.tank").ends_with(", not true or false"));
  CHECK(why("[water]\ntank = true\n", "water.tank").starts_with("must be "));
  CHECK(why("[water]\ntank = [100]\n", "water.tank").ends_with(", not a list"));
  CHECK(why("[water]\ntank = 2026-03-01\n", "water.tank").ends_with(", not a date"));
  CHECK(why("[water]\ntank = 07:30:00\n", "water.tank").ends_with(", not a time of day"));
  CHECK(why("[water]\ntank = inf\n", "water.tank").starts_with("is no number to reckon with"));
  CHECK(why("[water]\ntank = nan\n", "water.tank").starts_with("is no number to reckon with"));
  CHECK(why("[water]\ntank = 100\n", "water.tank").starts_with("needs its unit"));
  CHECK(why("[run]\nreplications = 2026-03-01\n", "run.replications") == "must be a whole number, not a date");
  Scenario s = read_scenario(sample::small).scenario.value();
  CHECK(set_key(s, "run.replications", "99999999999999999999").value().why.starts_with("must be between "));
  CHECK(why("[run]\nstart = [2026]\n", "run.start").starts_with("must be a date such as"));
  CHECK(why("[run]\nstart = 1899-12-31\n", "run.start") == "must lie between 1900 and 2200");
  CHECK(why("[run]\nstart = 2201-01-01\n", "run.start") == "must lie between 1900 and 2200");
  CHECK(why("[keeper]\nmorning = 7\n", "keeper.morning").starts_with("must be a time of day"));
  CHECK(why("[keeper]\nmorning = \"7:5\"\n", "keeper.morning").starts_with("must be a time of day"));
  CHECK(why("[keeper]\nmorning = \"07:60\"\n", "keeper.morning").starts_with("must be a time of day"));
  CHECK(why("[keeper]\nmorning = \"0a:00\"\n", "keeper.morning").starts_with("must be a time of day"));
}

TEST_CASE("a list of names holds names, and not too many") {
  CHECK(why("[[group]]\nname = \"ewes\"\nclass = \"ewe\"\ncount = 2\nfeedings = \"two\"\n", "group.ewes.feedings").find("whole number") != std::string::npos);
  const auto grains = [](const std::string& list) {
    std::string text = sample::small;
    text.replace(text.find("soak = "), 0, "grains = " + list + "\n");
    const Reading reading = read_scenario(text);
    return reading.problems.empty() ? "" : reading.problems.front().why;
  };
  CHECK(grains("[\"barley\"]").empty());
  CHECK(grains("[\"barley\", 5]") == "must be a list of names such as [\"barley\"]");
  CHECK(grains("[\"\"]") == "must be a list of names such as [\"barley\"]");
  CHECK(grains("[\"barley\", { name = \"wheat\" }]") == "must be a list of names such as [\"barley\"]");
  CHECK(grains("\"barley\"") == "must be a list of names such as [\"barley\"], not text");
  CHECK(why("[climate]\nmonthly_mean = [\"3 degC\", { mean = 3 }]\n", "climate.monthly_mean").ends_with(", not a table"));
  CHECK(grains("true") == "must be a list of names such as [\"barley\"], not true or false");
  std::string many = "[\"barley\"";
  for (int i = 0; i < 100; ++i) many += ", \"barley\"";
  CHECK(grains(many + "]") == "lists more than 100 names");
}

TEST_CASE("one value is not a section, and what a table may not hold is told by its name") {
  CHECK(why("[run.length]\ndays = 5\n", "run.length").starts_with("is one value, not a section"));
  CHECK(why("[run]\nlength = { days = 5 }\n", "run.length").starts_with("is one value, not a section"));
  CHECK(why("[barn]\nx = 1\n", "barn").starts_with("is not a known section"));
  CHECK(why("[[barn]]\nx = 1\n", "barn").starts_with("is not a known section"));
}

TEST_CASE("a time of TOML's own is a time of day, as in quotes") {
  const Reading reading = read_scenario(sample::small + "[keeper]\nmorning = 06:30:00\nevening = \"19:15\"\n");
  REQUIRE(reading.scenario.has_value());
  CHECK(reading.scenario->keeper.morning == Hours(6.5));
  CHECK(reading.scenario->keeper.evening == Hours(19.25));
}

TEST_CASE("curly quotes are told from other letters") {
  CHECK(why("[water]\ntank = \xE2\x80\x9C" "100 L\xE2\x80\x9D\n", "") == "has curly quotes; write straight ones, as in soak = \"10 h\"");
  CHECK(why("[water]\ntank = \xE2\x80\x98" "100 L\xE2\x80\x99\n", "") == "has curly quotes; write straight ones, as in soak = \"10 h\"");
  CHECK(why("[water]\ntänk = 5\n", "") == "has a letter outside plain ASCII; put such names and texts in quotes");
}

TEST_CASE("a choice or a species that stands twice is refused once") {
  Scenario s = read_scenario(sample::every_list).scenario.value();
  s.choose.choices.push_back(s.choose.choices.front());
  const auto twice = [](const Problems& problems, const std::string& words) {
    int count = 0;
    for (const Problem& p : problems) count += p.why == words ? 1 : 0;
    return count;
  };
  CHECK(twice(check_scenario(s), "is listed twice") == 1);
  s.choose.choices.pop_back();
  CHECK(check_scenario(s).empty());
  s.species.push_back(s.species.front());
  CHECK(twice(check_scenario(s), "is the name of another species too") >= 1);
}

TEST_CASE("a scenario written to a stream is its resolved text") {
  const Scenario s = read_scenario(sample::small).scenario.value();
  std::ostringstream out;
  out << s;
  CHECK(out.str() == resolved_text(s));
}
