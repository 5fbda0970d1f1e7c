// `rackwright schedule --log`: the rack by a log of trays is the rack by a state file, and hostile logs are refused.

#include <nlohmann/json.hpp>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;
using nlohmann::json;

namespace {

const std::string farm = shipped("hillside.toml");  // barley mornings at 7:00, wheat evenings at 18:30; soak 10 h
const char* state = R"(at = 2026-07-14T06:00
[[batch]]
sown = 2026-07-06
trays = 4
[[batch]]
sown = 2026-07-06T18:30
trays = 3
[[batch]]
sown = 2026-07-08
trays = 4
soak = "12 h"
[[soaking]]
since = 2026-07-13T21:00
trays = 4
)";

std::string times(int count, const std::string& row) {
  std::string text;
  for (int i = 0; i < count; ++i) text += row;
  return text;
}

/// The same rack, with trays that are gone, one that spoiled, readings of the room and a sowing that is to come.
std::string log() {
  return "# in the barn\ndate sown,lot,species,dry grain [kg],soak [h],room max [degC],room min [degC],days,fresh weight [kg],spoiled,notes\n" +
         times(4, "2026-07-05,A,barley,0.9,10,27,19,8,4.5,no,\n") + times(4, "2026-07-06,A,barley,0.9,,27,19,,,,\n") +
         times(3, "2026-07-06,B,wheat,0.9,,,,,,,\n") + "2026-07-06,B,wheat,0.9,,,,5,,mould,thrown out\n" +
         times(4, "2026-07-08,A,barley,0.9,12,,,,,,\n") + "2026-07-12,,,,,29,21,,,,hot\n" + times(4, "2026-07-14,A,barley,0.9,10,,,,,,\n") +
         "2026-07-14,B,wheat,0.9,10,,,,,,\n";
}

Said schedule(std::vector<std::string> words) {
  std::vector<std::string> all{"schedule", farm};
  all.insert(all.end(), words.begin(), words.end());
  return run(all);
}

}  // namespace

TEST_CASE("schedule: the same rack by a state file and by a log is the same worklist") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", state), trays = folder.write("trays.csv", log());
  const Said by_state = schedule({"--state", rack, "--days", "9", "--json"}), by_log = schedule({"--log", trays, "--from", "2026-07-14T06:00", "--days", "9", "--json"});
  INFO(by_state.err << by_log.err);
  REQUIRE(by_state.code == 0);
  REQUIRE(by_log.code == 0);
  json a = json::parse(by_state.out), b = json::parse(by_log.out);
  REQUIRE(b["remarks"].size() == 2);
  CHECK_FALSE(a.contains("remarks"));
  b.erase("remarks");
  CHECK(a["tasks"].size() > 40);
  CHECK(a == b);
  // A tray less is another worklist.
  std::string less = log();
  less.replace(less.rfind("2026-07-08,A,barley,0.9,12,,,,,,"), 32, "2026-07-08,A,barley,0.9,12,,,3,,,");
  json c = json::parse(schedule({"--log", folder.write("less.csv", less), "--from", "2026-07-14T06:00", "--days", "9", "--json"}).out);
  CHECK(c["tasks"] != a["tasks"]);
}

TEST_CASE("schedule: what a log cannot say, and what of it was left out, is told") {
  const Folder folder;
  const std::string trays = folder.write("trays.csv", log());
  const Said said = schedule({"--log", trays, "--from", "2026-07-14T06:00", "--days", "2"});
  CHECK(said.code == 0);
  CHECK(said.err.empty());
  CHECK(contains(said.out, "11 trays stand on the rack"));
  CHECK(contains(said.out, "Grain in store and orders, which a log does not tell, are taken from the"));
  CHECK(contains(said.out, "\"A\" of barley"));
  CHECK(contains(said.out, "Line 24 is of a later sowing"));
  const Said written = schedule({"--log", trays, "--from", "2026-07-14T06:00", "--out", folder / "work.ics"});
  CHECK(contains(written.err, "Grain in store and orders"));
  CHECK(contains(written.err, "Line 24"));
  CHECK(schedule({"--log", trays, "--from", "2026-07-14T06:00", "--out", folder / "work.ics", "--force", "--quiet"}).err.empty());
  // The day's beginning where no time is said; today where no day is.
  CHECK(contains(schedule({"--log", trays, "--from", "2026-07-14"}).out, "11 trays stand on the rack"));
  CHECK(contains(schedule({"--log", trays}).out, "0 trays stand on the rack"));
  // Germination that was tried is what grows, and what is in store.
  const auto with = [&](const std::string& germination) {
    const std::string path = folder.write("tried.csv", "date sown,lot,species,germination [%],grain [kg]\n" + times(4, "2026-07-08,A,barley," + germination + ",0.9\n"));
    return json::parse(schedule({"--log", path, "--from", "2026-07-14", "--json", "--days", "12"}).out);
  };
  CHECK(contains(with("60")["remarks"][0].get<std::string>(), "germinating 60 %"));
  CHECK(with("60")["tasks"] != with("95")["tasks"]);
}

TEST_CASE("schedule: a log may come through a pipe") {
  const Folder folder;
  folder.write("trays.csv", log());
  const Said said = Running({"sh", "-c", "cd '" + folder.path().string() + "' && cat trays.csv | '" + program() + "' schedule '" + farm + "' --log /dev/stdin --from 2026-07-14"}).wait();
  INFO(said.err);
  CHECK(said.code == 0);
  CHECK(contains(said.out, "11 trays stand on the rack"));
}

TEST_CASE("schedule: one way to say what stands there, and times only with a log") {
  const Folder folder;
  const std::string rack = folder.write("rack.toml", state), trays = folder.write("trays.csv", log());
  for (const auto& words : std::vector<std::vector<std::string>>{{"--log", trays, "--state", rack}, {"--log", trays, "--behind", "1"}, {"--log", trays, "--ahead", "1"}}) {
    const Said said = schedule(words);
    CHECK(said.code == 2);
    CHECK(contains(said.err, "--state, --log, --behind and --ahead each say"));
  }
  CHECK(contains(schedule({"--from", "2026-07-14T06:00"}).err, "a time goes with --log only"));
  CHECK(schedule({"--from", "2026-07-14T25:00", "--log", trays}).code == 2);
}

TEST_CASE("schedule: hostile logs are refused with their lines, in few of them, and nothing is written") {
  const Folder folder;
  const std::string header = "date sown,lot,species,dry grain [kg],soak [h],days,fresh weight [kg]\n";
  const auto refused = [&](const std::string& text, const std::string& part) {
    const std::string trays = folder.write("trays.csv", text);
    const Said said = schedule({"--log", trays, "--from", "2026-07-14", "--out", folder / "work.txt"});
    INFO(text.substr(0, 300) << "\n" << said.err.substr(0, 3000));
    CHECK(said.code == 2);
    CHECK(said.out.empty());
    CHECK(said.err.size() < 20000);
    CHECK(contains(said.err, part));
    CHECK(folder.names().size() == 1);
  };
  refused("", "the file is empty");
  refused(header, "no tray is in it");
  refused("lot,soak [h]\nA,3\n", "no column of dates");
  refused(header + "14.7.2026,A,barley,0.9,,,\n2026-02-30,A,barley,0.9,,,\n", "trays.csv:3: date sown = \"2026-02-30\": is not a date");
  refused(header + "14.7.2026,A,barley,0.9,,,\n2026-07-10,A,barley,-0.9,-3,-2,\n", "trays.csv:2:");
  refused(header + "14.7.2026,A,barley,0.9,,,\n2026-07-10,A,barley,-0.9,-3,-2,\n", "trays.csv:3: days");
  refused(header + "2026-07-10,A,barley,nan,inf,1e999,\n", "trays.csv:2: dry grain");
  refused(header + "2026-07-10,A,rye,0.9,,,\n", "trays.csv:2: species = \"rye\": is no grain of the scenario: it has barley, wheat");
  refused(header + "2026-07-10,A,\x1b[31mrye,0.9,,,\n", "?[31m");
  refused(header + times(200, "2026-07-10,A,barley,0.9,,,\n"), "trays.csv:72: date sown = \"2026-07-10\": finds no place: the rack has 70");
  refused(header + times(21000, "2026-07-10,A,barley,0.9,,,\n"), "more than 20000 trays");
  refused(header + times(5000, "x\n"), "and 4950 more like these");
  refused(std::string(17 << 20, 'a'), "larger than 16 MiB");
  refused(std::string(1000, '\0'), "");
  CHECK(contains(schedule({"--log", folder / "none.csv"}).err, "there is no such file"));
  CHECK(contains(schedule({"--log", folder.path().string()}).err, "is a folder"));
  CHECK(contains(schedule({"--log", "/dev/zero"}).err, "larger than 16 MiB"));
}

TEST_CASE("schedule: mats are as heavy as the grain that the log says was sown") {
  const Folder folder;
  const auto cut = [&](const std::string& grain) {
    const std::string path = folder.write("weighed.csv", "date sown,species,dry grain [kg]\n" + times(4, "2026-07-08,barley," + grain + "\n"));
    const Said said = schedule({"--log", path, "--from", "2026-07-14", "--json", "--days", "12"});
    REQUIRE(said.code == 0);
    double kilograms = 0.0, trays = 0.0;
    const json all = json::parse(said.out);
    for (const json& task : all["tasks"]) {
      if (task["task"] != "harvest" || task["batch"]["date"] != "2026-07-08") continue;
      kilograms += task["kilograms"].get<double>();
      trays += task["trays"].get<int>();
    }
    REQUIRE(trays > 0.0);
    return kilograms / trays;
  };
  const double thin = cut("0.6"), usual = cut("0.9"), thick = cut("1.5");
  CHECK(usual == cut(""));
  CHECK(thin < 0.72 * usual);  // 0.67, and a little more in a thinner stand
  CHECK(thin > 0.6 * usual);
  CHECK(thick > 1.1 * usual);
  CHECK(thick < 1.67 * usual);
}

TEST_CASE("schedule: a log without the row of what is in soak is asked for it before double sowing is advised") {
  const Folder folder;
  const std::string header = "date sown,species,dry grain [kg],soak [h]\n";
  std::string rows;
  for (int day = 6; day < 14; ++day)
    for (const char* grain : {"barley", "wheat"}) rows += times(4, "2026-07-" + std::string(day < 10 ? "0" : "") + std::to_string(day) + "," + grain + ",0.9,\n");
  const auto at_six = [&](const std::string& text) {
    return schedule({"--log", folder.write("trays.csv", header + text), "--from", "2026-07-14T06:00", "--json"});
  };
  const Said without = at_six(rows), with = at_six(rows + times(4, "2026-07-14,barley,0.9,10\n"));
  INFO(without.err << with.err);
  REQUIRE(without.code == 0);
  REQUIRE(with.code == 0);
  const json a = json::parse(without.out), b = json::parse(with.out);
  CHECK(contains(a["nothing_in_soak"].get<std::string>(), "4 trays there now. If a bucket is full, write its row now"));
  CHECK(a["batches_ahead"].get<double>() == b["batches_ahead"].get<double>() - 1.0);
  REQUIRE(a.contains("recovery"));
  CHECK(contains(a["recovery"]["proviso"].get<std::string>(), "only if no bucket is full"));
  CHECK_FALSE(b.contains("nothing_in_soak"));
  CHECK_FALSE(b.contains("recovery"));
  const Said written = schedule({"--log", folder.write("trays.csv", header + rows), "--from", "2026-07-14T06:00", "--out", folder / "work.txt"});
  CHECK(contains(written.err, "! The log shows nothing in soak"));
  CHECK(contains(whole_file(folder / "work.txt"), "1 batch behind, if no bucket is full"));
  // At noon no bucket need be full.
  CHECK_FALSE(contains(schedule({"--log", folder / "trays.csv", "--from", "2026-07-13T07:30"}).out, "nothing in soak"));
}
