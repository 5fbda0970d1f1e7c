// Bad input, case by case: the line, the key and the reason must be named.
#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

struct Case {
  std::string what;
  std::string from, to;  ///< replaced in sample::small; empty `from`: appended
  int line;
  std::string key;
  std::string why;  ///< a piece of the reason
  std::string suggestion{};
};

std::string altered(const Case& c) {
  std::string text = sample::small;
  if (c.from.empty()) return text + c.to;
  const auto at = text.find(c.from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, c.from.size(), c.to);
}

std::string listed(const Problems& problems) {
  std::string out;
  for (const Problem& p : problems) {
    out += fmt::format("  line {}: {} = {}: {} [{}]\n", p.line, p.key, p.value, p.why, p.suggestion);
  }
  return out;
}

void check(const Case& c) {
  const Reading reading = read_scenario(altered(c));
  INFO(c.what << "\n" << listed(reading.problems));
  CHECK_FALSE(reading.scenario.has_value());
  const auto hit = std::find_if(reading.problems.begin(), reading.problems.end(), [&](const Problem& p) {
    return p.line == c.line && p.key == c.key && p.why.find(c.why) != std::string::npos &&
           (c.suggestion.empty() || p.suggestion == c.suggestion);
  });
  CHECK(hit != reading.problems.end());
}

void check_all(const std::vector<Case>& cases) {
  for (const Case& c : cases) check(c);
}

const std::string tiers = "tiers = 4", soaking = "soak = \"10 h\"", ration = "ration = \"1.5 kg\"";

}  // namespace

TEST_CASE("the sample itself is sound") {
  for (const std::string& text : {sample::small, sample::every_list}) {
    const Reading reading = read_scenario(text);
    INFO(listed(reading.problems));
    CHECK(reading.scenario.has_value());
    CHECK(reading.text == text);
  }
}

TEST_CASE("unknown names") {
  check_all({
      {"key", tiers, "teirs = 4", 3, "rack.teirs", "not a known key", "rack.tiers"},
      {"key of a list", ration, "rations = \"1.5 kg\"", 12, "group.goats.rations", "not a known key", "ration"},
      {"section", "[rack]", "[racks]", 2, "racks", "not a known section", "rack"},
      {"class", "goat-milking", "goat-milkin", 10, "group.goats.class", "not a kind of animal", "goat-milking"},
      {"species", "name = \"barley\"", "name = \"barley\"\nspecies = \"barly\"", 8, "grain.barley.species",
       "neither a species", "barley"},
      {"grain of the line", soaking, "grains = [\"barlee\"]", 5, "line.grains", "not the name of a [[grain]]",
       "barley"},
      {"option", "", "[water]\nfeed = \"cascad\"\n", 14, "water.feed", "must be \"parallel\" or \"cascade\"",
       "cascade"},
  });
}

TEST_CASE("wrong kinds of value") {
  check_all({
      {"text for a number", tiers, "tiers = \"four\"", 3, "rack.tiers", "whole number"},
      {"fraction for a whole number", tiers, "tiers = 4.5", 3, "rack.tiers", "whole number"},
      {"flag for a number", tiers, "tiers = true", 3, "rack.tiers", "must be a whole number, not true or false"},
      {"list for a number", tiers, "tiers = [4]", 3, "rack.tiers", "not a list"},
      {"number for text", "title = \"Sample\"", "title = 5", 1, "title", "must be text in quotes"},
      {"number for a section", "[rack]\ntiers = 4", "rack = 5", 2, "rack", "is a section"},
      {"single brackets for a list", "[[group]]", "[group]", 8, "", "[group] must be [[group]], once for each group"},
      {"double brackets for a section", "[rack]", "[[rack]]", 2, "rack", "stands once"},
      {"list of numbers for a list of tables", "", "[water]\nnode = [1, 2]\n", 14, "water.node", "must be tables"},
      {"date", "", "[run]\nstart = \"1 March\"\n", 14, "run.start", "date such as 2026-03-01"},
      {"no such day", "", "[run]\nstart = \"2026-02-30\"\n", 14, "run.start", "not a day of the calendar"},
      {"clock", "", "[keeper]\nmorning = \"25:00\"\n", 14, "keeper.morning", "time of day"},
      {"flag", "", "[run]\nfull_at_start = 1\n", 14, "run.full_at_start", "true or false"},
  });
}

TEST_CASE("quotes within quotes are named, and all there is is not taken for one in a hundred") {
  Scenario s;
  const auto why = [&](const char* key, const char* value) {
    const auto problem = set_key(s, key, value);
    return problem ? problem->why : std::string();
  };
  CHECK(why("target.fill_rate", "\"100 %\"").find("stands in quotes of its own: leave them out") != std::string::npos);
  CHECK(why("line.soak", "'8 h'").find("stands in quotes of its own") != std::string::npos);
  CHECK(why("keeper.miss_chance", "1").find("must be between 0 and 0.5") == 0);
  // In the unit that was written as well; 1 lb/ft2 is 4.88243 kg/m2 (NIST SP 811, appendix B).
  CHECK(why("line.sowing_density", "30 lb/ft2") == "must be between 0.5 and 20 kg/m2 (that is 0.102 to 4.1 lb/ft2)");
  CHECK(why("climate.mean", "300 degF") == "must be between -30 and 40 degC (that is -22 to 104 degF)");
  CHECK(why("line.soak", "90 h") == "must be between 0.5 and 72 h");
  CHECK(why("keeper.miss_chance", "1").find("write") == std::string::npos);
  CHECK(why("keeper.miss_chance", "2").find("write \"2 %\"") != std::string::npos);
}

TEST_CASE("wrong dimensions and missing units") {
  check_all({
      {"per cent as a bare number", "name = \"barley\"", "name = \"barley\"\ngermination = 94", 8, "grain.barley.germination", "(that is 2 to 99.9 %): write \"94 %\""},
      {"per cent in quotes", "", "[target]\nyears = \"90\"\n", 14, "target.years", ": write \"90 %\""},
      {"mass for a time", soaking, "soak = \"3 kg\"", 5, "line.soak", "not a length of time"},
      {"volume for a mass", ration, "ration = \"7 cups\"", 12, "group.goats.ration", "not a mass"},
      {"bare number", soaking, "soak = 10", 5, "line.soak", "needs its unit"},
      {"bare number in quotes", soaking, "soak = \"10\"", 5, "line.soak", "needs its unit"},
      {"unknown unit", soaking, "soak = \"10 hovrs\"", 5, "line.soak", "unknown unit"},
      {"no number", soaking, "soak = \"long\"", 5, "line.soak", "does not start with a number"},
      {"monthly mean", "", "[climate]\nmonthly_mean = [\"3 degC\", \"4 kg\"]\n", 14, "climate.monthly_mean", "entry 2"},
      {"eleven months", "", "[climate]\nmonthly_mean = [\"3 degC\"]\n", 14, "climate.monthly_mean", "twelve"},
  });
}

TEST_CASE("numbers that are no numbers, negative or absurd") {
  check_all({
      {"nan as number", soaking, "wash = nan", 5, "line.wash", "not a finite number"},
      {"nan in text", soaking, "soak = \"nan h\"", 5, "line.soak", "not a finite number"},
      {"infinite", soaking, "wash = inf", 5, "line.wash", "not a finite number"},
      {"beyond doubles", soaking, "soak = \"1e999 h\"", 5, "line.soak", "beyond what a number can hold"},
      {"negative", soaking, "soak = \"-3 h\"", 5, "line.soak", "must be between"},
      {"negative count", "count = 6", "count = -6", 11, "group.goats.count", "must be between 0"},
      {"absurd", tiers, "tiers = 10000", 3, "rack.tiers", "must be between 1 and 40"},
      {"beyond integers", tiers, "tiers = 9223372036854775807", 3, "rack.tiers", "must be between 1 and 40"},
      {"share above one", soaking, "wash = \"120 %\"", 5, "line.wash", "must be between 0 and 1"},
  });
}

TEST_CASE("things that are missing or stand twice") {
  check_all({
      {"herd", sample::small.substr(sample::small.find("[[group]]")), "", 0, "group", "no animals"},
      {"grain", "[[grain]]\nname = \"barley\"\n", "", 0, "grain", "no grain"},
      {"a group's name", "name = \"goats\"\n", "", 8, "group.1.name", "is missing"},
      {"a group's count", "count = 6\n", "", 8, "group.goats.count", "is missing"},
      {"a spell's day", "", "[[spell]]\nlength = \"5 d\"\nrise = \"5 K\"\n", 13, "spell.1.day", "is missing"},
      {"nobody hungry", "count = 6", "count = 0", 0, "group", "nobody wants fodder"},
      {"same group twice", "", "[[group]]\nname = \"goats\"\nclass = \"ewe\"\ncount = 2\n", 14, "group.2.name",
       "another group"},
      {"same grain twice", "", "[[grain]]\nname = \"barley\"\n", 14, "grain.2.name", "another grain"},
      {"two statements", "", "[[spell]]\nday = \"3 d\"\nstart = 2026-04-01\nlength = \"5 d\"\nrise = \"5 K\"\n", 15,
       "spell.1.start", "stated twice"},
      {"births before the start", "", "first_births = 2026-01-01\n", 13, "group.goats.first_births",
       "before run.start"},
      {"a known species redefined", "", "[[species]]\nname = \"rye\"\n", 14, "species.rye.name", "choose another name"},
      {"a species that races when it is warm", "", "[[species]]\nname = \"s\"\ngrowth.optimum = \"37.5 degC\"\ngrowth.curvature = 8\n", 16,
       "species.s.growth.curvature", "times as fast at 37.5 degC as at 20 degC"},
  });
}

TEST_CASE("a stay of odd days, and one whose date was refused") {
  const std::string stay = ration + "\nleaves = 2026-12-01\nstays_each_year = true\n";
  const auto told = [](const Case& c) {
    std::string all;
    for (const Problem& p : read_scenario(altered(c)).problems) all += p.key + ": " + p.why + "\n";
    return all;
  };
  CHECK(told({"", ration, stay + "arrives_day = 30.5", 0, "", ""}) == "group.goats.arrives_day: must be a whole day of the run\n");
  const std::string refused = told({"", ration, stay + "arrives = 1990-01-01", 0, "", ""});
  CHECK(refused.starts_with("group.goats.arrives: must not lie before run.start"));
  CHECK(refused.find("stays_each_year") == std::string::npos);
  // A day of the run beyond what can be stated as one.
  for (const char* key : {"arrives", "first_births"}) {
    CHECK(told({"", ration, ration + "\n" + key + " = 2041-10-05", 0, "", ""}) == std::string("group.goats.") + key + ": must not lie more than 4000 days after run.start\n");
  }
  CHECK(told({"", ration, ration + "\nfirst_births = 2036-01-01", 0, "", ""}).empty());
  const std::string nobody = told({"", ration, ration + "\narrives = 2036-01-01", 0, "", ""});
  CHECK(nobody == "group: nobody wants fodder: no group that does is here on any of the 365 days of the run\n");
  CHECK(told({"", ration, stay, 0, "", ""}) == "group.goats.stays_each_year: needs both arrives and leaves\n");
}
