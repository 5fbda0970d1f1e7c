// Texts that are no scenario at all, what sizing may vary, and networks that cannot work.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>

#include "sim/scenario/document.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

/// The first problem whose reason holds `piece`; fails the test if there is none.
Problem complaint(const Reading& reading, const std::string& piece) {
  CHECK_FALSE(reading.scenario.has_value());
  std::string all;
  for (const Problem& p : reading.problems) {
    if (p.why.find(piece) != std::string::npos) return p;
    all += p.key + ": " + p.why + "\n";
  }
  FAIL("no complaint with \"" << piece << "\" among\n" << all);
  return {};
}

Problem complaint_of(const std::string& text, const std::string& piece) {
  return complaint(read_scenario(text), piece);
}

/// A path in the temporary folder, removed at the end.
struct Temporary {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("rackwright-read-" + std::to_string(::getpid()));
  ~Temporary() { std::filesystem::remove_all(path); }
};

}  // namespace

TEST_CASE("syntax errors name the line, in plain words where they can") {
  CHECK(complaint_of("title = \"x\"\n[rack\ntiers = 4\n", "write [rack]").line == 2);
  CHECK(complaint_of("a = 1\na = 2\n", "written twice").line == 2);
  const Problem rest = complaint_of("title = \"x\"\ntitle = \"y\" z\n", "written twice");
  CHECK(rest.line == 2);
  const Problem only = complaint_of("title = \"x\" z\n", "TOML");
  CHECK(only.line == 1);
  CHECK(only.key == "column 13");
  complaint_of("[#\n", "TOML");  // makes a header-only toml++ 3.3 abort
  complaint_of("[[[a]]]", "TOML");
  complaint_of("x = ", "no value");
  complaint_of("x = \"\\q\"", "TOML");
  complaint_of(std::string(100000, '['), "TOML");
  complaint_of("x = " + std::string(100000, '['), "TOML");
}

TEST_CASE("names of many parts are refused before the parser follows them") {
  std::string deep = "a";
  for (int i = 0; i < 50000; ++i) deep += ".a";
  CHECK(complaint_of("x = 1\n" + deep + " = 1\n", "too many parts").line == 2);
  complaint_of("[" + deep + "]", "too many parts");
  complaint_of("x = {" + deep + " = 1}", "too many parts");
}

TEST_CASE("a byte order mark is passed over, and no control of any kind is taken") {
  CHECK(read_scenario("\xEF\xBB\xBF" + std::string(sample::small)).scenario);
  for (const char* control : {"\xC2\x9B" "31m", "\xE2\x80\xAE", "\xE2\x81\xA6", "\xC2\x85"})
    complaint_of("title = \"a" + std::string(control) + "b\"\n" + std::string(sample::small), "control characters");
}

TEST_CASE("letters beyond ASCII are fine in quotes and comments only") {
  CHECK(complaint_of("title = \"a\"\n\xC3\xA9t\xC3\xA9 = 1\n", "plain ASCII").line == 2);
  CHECK(complaint_of("title = \"a\\\"\" \xC3\xA9\n", "plain ASCII").line == 1);
  CHECK(complaint_of("t = '''\n\n'''\xC3\xA9\n", "plain ASCII").line == 3);
  std::string fine = sample::small;
  fine.replace(fine.find("Sample"), 6, "\xC3\x89t\xC3\xA9");
  CHECK(read_scenario(fine + "# \xC3\xA9t\xC3\xA9, it's warm\n").scenario.has_value());
}

TEST_CASE("texts that are too large or not text") {
  CHECK_FALSE(complaint_of("#" + std::string(largest_text, 'x'), "larger than 1 MiB").why.empty());
  complaint_of(std::string("title = \"a\"\n\0", 13), "not a text file");
  complaint_of("title = \"\xFF\xFE\"\n", "TOML");
  complaint_of("", "no animals");
}

TEST_CASE("files that cannot be read") {
  CHECK(complaint(read_scenario_file("/no/such/file.toml"), "no such file").key == "/no/such/file.toml");
  const Temporary temporary;
  std::filesystem::create_directory(temporary.path);
  complaint(read_scenario_file(temporary.path.string()), "is a folder");
  const auto large = temporary.path / "large.toml";
  std::ofstream(large) << std::string(largest_text + 10, '\n');
  complaint(read_scenario_file(large.string()), "larger than 1 MiB");
  const auto good = temporary.path / "good.toml";
  std::ofstream(good) << sample::small;
  CHECK(read_scenario_file(good.string()).scenario.has_value());
}

TEST_CASE("all problems are reported at once, in the order of the file") {
  const Reading reading = read_scenario("colour = 3\n[rack]\ntiers = 99\n[line]\nsoak = \"3 kg\"\nsok = \"3 h\"\n");
  CHECK_FALSE(reading.scenario.has_value());
  REQUIRE(reading.problems.size() == 6);  // four keys, no grain, no animals
  for (std::size_t i = 1; i < reading.problems.size(); ++i) {
    const int before = reading.problems[i - 1].line, now = reading.problems[i].line;
    CHECK((now == 0 || before <= now));
  }
  CHECK(reading.problems.front().line == 1);
}

TEST_CASE("choices") {
  const auto with = [](const std::string& choices) { return sample::small + "[choose]\n" + choices; };
  CHECK(complaint_of(with("\"rack.tiers\" = []\n"), "no values").line == 14);
  CHECK(complaint_of(with("\"rack.tires\" = [3]\n"), "not a known key").suggestion == "rack.tiers");
  CHECK(complaint_of(with("\"rack.tiers\" = [3, 300]\n"), "between 1 and 40").value == "300");
  complaint_of(with("\"line.soak\" = [\"8 h\", \"3 kg\"]\n"), "not a length of time");
  complaint_of(with("\"line.soak\" = [8]\n"), "needs its unit");
  complaint_of(with("\"rack.tiers\" = 3\n"), "must be a list");
  complaint_of(with("\"rack.tiers\" = [3, 3]\n"), "listed twice");
  complaint_of(with("\"target.years\" = [0.8, 0.9]\n"), "not part of a design");
  std::string many;
  for (int i = 1; i <= 40; ++i) many += std::to_string(i) + ",";
  complaint_of(with("\"rack.tiers\" = [" + many + "]\n\"rack.trays_per_tier\" = [" + many +
                    "]\n\"line.trays_per_batch\" = [" + many + "]\n\"keeper.soak_buckets\" = [" + many + "]\n"),
               "list fewer values");
  // Quoted or dotted, the same.
  const auto dotted = read_scenario(with("rack.tiers = [3, 5]\n")),
             quoted = read_scenario(with("\"rack.tiers\" = [3, 5]\n"));
  REQUIRE(dotted.scenario.has_value());
  REQUIRE(quoted.scenario.has_value());
  CHECK(*dotted.scenario == *quoted.scenario);
  CHECK(dotted.scenario->choose.choices.at(0).values == std::vector<std::string>{"3", "5"});
}

TEST_CASE("lists longer than are followed are refused at their first entry too many") {
  std::string groups = sample::small;
  for (int i = 0; i < 20000; ++i) groups += "[[group]]\nname = \"g" + std::to_string(i) + "\"\nclass = \"ewe\"\ncount = 1\n";
  const Problem group = complaint_of(groups, "more than 400 entries");
  CHECK(group.key == "group");
  CHECK(group.line > 1000);
  std::string nodes = sample::small + "[[water.node]]\nname = \"n0\"\nkind = \"source\"\n";
  for (int i = 1; i < 5000; ++i) {
    nodes += "[[water.node]]\nname = \"n" + std::to_string(i) + "\"\n";
    nodes += "[[water.pipe]]\nfrom = \"n" + std::to_string(i - 1) + "\"\nto = \"n" + std::to_string(i) + "\"\n";
  }
  complaint_of(nodes, "more than 500 entries");
  complaint_of(nodes, "more than 1000 entries");
  std::string names = "\"barley\"", values = "1";
  for (int i = 2; i < 1200; ++i) {
    names += ",\"barley\"";
    values += "," + std::to_string(i);
  }
  std::string text = sample::small;
  complaint_of(text.replace(text.find("[line]"), 6, "[line]\ngrains = [" + names + "]"), "more than 100 names");
  complaint_of(sample::small + "[choose]\n\"rack.tiers\" = [" + values + "]\n", "more than 1000");
}

TEST_CASE("watering networks that cannot work") {
  const auto replaced = [](const std::string& from, const std::string& to) {
    std::string text = sample::every_list;
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
  };
  REQUIRE(read_scenario(sample::every_list).scenario.has_value());
  const std::string cycle = "[[water.pipe]]\nfrom = \"low\"\nto = \"foot\"\n";
  CHECK_FALSE(read_scenario(sample::every_list + cycle).scenario.has_value());
  // A level no water reaches.
  const Reading dry = read_scenario(replaced("from = \"foot\"\nto = \"top\"\n", "from = \"foot\"\nto = \"third\"\n"));
  CHECK_FALSE(dry.scenario.has_value());
  REQUIRE_FALSE(dry.problems.empty());
  CHECK(dry.problems.front().key.starts_with("water.node."));
  CHECK(dry.problems.front().line > 0);
  complaint_of(replaced("to = \"top\"", "to = \"topp\""), "not the name of a [[water.node]]");
  complaint_of(replaced("tiers = 4", "tiers = 3"), "points are tiers, but rack.tiers is 3");
  complaint_of(replaced("\"line.days_on_rack\" = [7, 8]", "\"rack.tiers\" = [4, 5]"), "cannot vary while");
  // The usual network with a pump too weak for the top level.
  const Problem weak = complaint_of(sample::small + "[water]\npump_shutoff = \"0.5 m\"\n", "tier");
  CHECK(weak.key == "water.pump_shutoff");
  CHECK(weak.line == 14);
}
