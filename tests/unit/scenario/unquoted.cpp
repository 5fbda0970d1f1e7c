// What keepers write before they know the format: named by line and key, with the right way to write it.
#include "sim/scenario/unquoted.hpp"

#include <string>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

Problem only(const std::string& line) {
  const Mended mended = mend_lines("[line]\n" + line + "\n");
  INFO(line);
  REQUIRE(mended.problems.size() == 1);
  CHECK(mended.problems[0].line == 2);
  return mended.problems[0];
}

bool says(const std::string& line, const std::string& part) { return only(line).why.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a quantity without quotes is answered with its quoted form") {
  CHECK(only("soak = 12 h").key == "line.soak");
  CHECK(says("soak = 12 h", "write soak = \"12 h\""));
  CHECK(says("soak=12h # as ever", "write soak = \"12h\""));
  CHECK(says("wash = 92 %", "write wash = \"92 %\""));
  CHECK(says("soak_water = 60 degF", "write soak_water = \"60 degF\""));
  CHECK(says("price = 9 / 25 kg", "write price = \"9 / 25 kg\""));
  CHECK(says("name = barley", "text stands in quotes: write name = \"barley\""));
  CHECK(says("morning = 7:00", "time of day stands in quotes: write morning = \"7:00\""));
  CHECK(says("soaks = [8 h, 12 h]", "write soaks = [\"8 h\", \"12 h\"]"));
}

TEST_CASE("near misses of the format are named in plain words") {
  CHECK(says("wash = 0,9", "decimal is written with a point: write wash = 0.9"));
  CHECK(says("wash = .9", "write wash = 0.9"));
  CHECK(says("wash = 1.", "write wash = 1.0"));
  CHECK(says("days_on_rack = 08", "write days_on_rack = 8"));
  CHECK(says("full = Yes", "write full = true"));
  CHECK(says("full = FALSE", "write full = false"));
  CHECK(says("start = 2026-3-1", "write start = 2026-03-01"));
  CHECK(says("soak: \"12 h\"", "write an equals sign, not a colon: write soak = \"12 h\""));
  CHECK(says("soak 12 h", "the equals sign is missing: write soak = \"12 h\""));
  CHECK(says("days_on_rack == 8", "one equals sign is enough: write days_on_rack = 8"));
  CHECK(says("soak = \"12 h", "quotes are not closed"));
  CHECK(says("soak =", "no value"));
  CHECK(says("= 5", "no name"));
  CHECK(says("// remark", "begins with #"));
  CHECK(says("[rack", "write [rack]"));
  CHECK(says("[[group]", "write [[group]]"));
  CHECK(says("soaks = [8,", "never closed"));
}

TEST_CASE("a comma or semicolon at a line's end is told as one") {
  for (const char* line : {"tiers = 5,", "tiers = 5;", "tiers = 5 , # as planned", "tiers = 5,,"}) {
    CAPTURE(line);
    CHECK(says(line, "nothing stands behind a value but a remark: write tiers = 5"));
    CHECK_FALSE(says(line, "quantity"));
  }
  CHECK(says("soak = \"12 h\",", "write soak = \"12 h\""));
  CHECK(says("soak = 12 h,", "write soak = \"12 h\""));
  CHECK(says("grains = [\"barley\"],", "write grains = [\"barley\"]"));
  CHECK(says("soak = \"12 h,", "quotes are not closed"));
  CHECK(says("wash = ,", "\",\""));
}

TEST_CASE("what TOML takes is left alone") {
  for (const char* line :
       {"a = 1", "a = -1.5e3", "a = true", "a = \"x # y\"", "a = 'x'", "a = 2026-03-01", "a = 07:00:00", "a = [1, 2]",
        "a = [\n 1 x,\n]", "a = \"\"\"\nb = 12 h\n\"\"\"", "a = {x = 1}", "# b = 12 h", "", "[rack]", "[[group]]",
        "\"rack.tiers\" = [3, 4]", "a = 1_000", "a = nan", "a = \"say \\\"x\\\" = 12 h\""}) {
    INFO(line);
    CHECK(mend_lines(line).problems.empty());
  }
}

TEST_CASE("all such lines are told at once, and what else is wrong with the scenario too") {
  const Reading reading = read_scenario(
      "[rack]\ntiers = 99\n[line]\nsoak = 12 h\nsowing_density = 5 kg/m2\n[[grain]]\nname = barley\n[[group]]\nname = "
      "\"goats\"\nclass = \"goat\"\ncount = 6\n");
  REQUIRE(reading.problems.size() == 5);
  CHECK(reading.problems[0].key == "rack.tiers");
  CHECK(reading.problems[1].line == 4);
  CHECK(reading.problems[2].line == 5);
  CHECK(reading.problems[3].line == 7);
  CHECK(reading.problems[4].key == "group.goats.class");
  CHECK(reading.problems[4].suggestion == "goat-milking");
}

TEST_CASE("single brackets for a list are told once, however often they stand") {
  const std::string head = "[[grain]]\nname = \"barley\"\n";
  const auto group = [](const char* name, const char* open, const char* close) {
    return std::string(open) + "group" + close + "\nname = \"" + name + "\"\nclass = \"ewe\"\ncount = 3\n";
  };
  for (const std::string& text : {head + group("a", "[", "]") + group("b", "[", "]") + group("c", "[", "]"), head + group("a", "[", "]"),
                                  head + group("a", "[[", "]]") + group("b", "[", "]")}) {
    INFO(text);
    const Reading reading = read_scenario(text);
    REQUIRE(reading.problems.size() == 1);
    CHECK(reading.problems[0].why == "[group] must be [[group]], once for each group");
    CHECK(reading.problems[0].key.empty());
    CHECK(reading.problems[0].line == (text.find("[[group]]") == std::string::npos ? 3 : 7));
  }
  const auto only_why = [](const std::string& text) {
    const Mended mended = mend_lines(text);
    REQUIRE(mended.problems.size() == 1);
    return mended.problems[0].why;
  };
  CHECK(only_why("[hard_time]\nname = \"a\"\n[hard_time]\nname = \"b\"\n") == "[hard_time] must be [[hard_time]], once for each hard time");
  CHECK(only_why("[water.pipe]\nfrom = \"a\"\n[water.pipe]\nfrom = \"b\"\n") == "[water.pipe] must be [[water.pipe]], once for each pipe");
  CHECK(only_why("[group\n") == "the bracket is not closed as it was opened; write [[group]]");
}

TEST_CASE("one mistake in a pipe is one problem") {
  const Reading reading = read_scenario(
      "[rack]\ntiers = 1\n[[grain]]\nname = \"barley\"\n[[group]]\nname = \"g\"\nclass = \"ewe\"\ncount = "
      "6\n[[water.node]]\nname = \"tank\"\nkind = \"source\"\n[[water.node]]\nname = \"top\"\nkind = \"tier\"\nheight = "
      "\"0.5 m\"\n[[water.pipe]]\nfrom = \"tank\"\nto = \"topp\"\nlength = \"1 m\"\ndiameter = \"2 cm\"\n");
  REQUIRE(reading.problems.size() == 1);
  CHECK(reading.problems[0].key == "water.pipe.1.to");
}
