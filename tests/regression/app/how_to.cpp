// The commands of the how-to pages, run as they stand there.

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;
using nlohmann::json;

namespace {

std::string pages() { return std::string(RACKWRIGHT_SOURCE_DIR) + "/docs/how-to"; }

/// Lines of the page's ```sh blocks.
std::vector<std::string> commands_of(const std::string& page) {
  std::istringstream in(whole_file(page));
  std::vector<std::string> all;
  bool inside = false;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("```")) inside = line == "```sh";
    else if (inside && !line.empty()) all.push_back(line);
  }
  return all;
}

/// A folder as the pages see it: the scenarios beside what is written, and the program at hand.
struct Farm {
  Farm() { std::filesystem::create_directory_symlink(std::string(RACKWRIGHT_SOURCE_DIR) + "/scenarios", folder / "scenarios"); }
  [[nodiscard]] Said sh(const std::string& command) const {
    return Running({"sh", "-c", "cd '" + folder.path().string() + "' && PATH='" + std::string(RACKWRIGHT_BINARY_DIR) + "':\"$PATH\" && " + command}).wait();
  }
  Folder folder;
};

}  // namespace

TEST_CASE("how-to: every command of the pages on hard times, on choices and on herds runs as written") {
  for (const char* page : {"stress-a-summer.md", "compare-two-choices.md", "a-herd-that-changes.md"}) {
    const Farm farm;
    const auto commands = commands_of(pages() + "/" + page);
    REQUIRE(commands.size() >= 2);
    for (const std::string& command : commands) {
      INFO(command);
      const Said said = farm.sh(command);
      INFO(said.err);
      CHECK(said.code == 0);
      CHECK((contains(command, "report") || !said.out.empty()));
    }
  }
}

TEST_CASE("stress: its answer in JSON and on the page is the file's, and it refuses what it should") {
  const Farm farm;
  const std::string command = "rackwright stress scenarios/summer-heat.toml --hard-time 'July heat' --hard-time pump-stop "
                              "--replications 12 --out s.h5 --quiet";
  const Said said = farm.sh(command + " --json");
  REQUIRE(said.code == 0);
  const json answer = json::parse(said.out);
  CHECK(answer["kind"] == "stress");
  REQUIRE(answer["hard_times"].size() == 2);
  CHECK(answer["hard_times"][0]["hard_time"] == "July heat");
  CHECK(answer["hard_times"][0]["replications"] == 12);
  CHECK(answer["hard_times"][0]["spoiled"].get<double>() > 5.0);  // it sours trays: what that scenario is there to show
  CHECK(answer["countermeasures"].size() > 8);
  int found = 0;
  for (const json& what : answer["countermeasures"]) {
    if (what["limit_kind"] != "found") continue;
    ++found;
    CHECK(what["limit"].get<double>() > 35.0);
    CHECK(what["limit"].get<double>() < 60.0);
  }
  CHECK(found > 0);

  CHECK(farm.sh(command).code == 2);  // it is there already
  CHECK(farm.sh(command + " --force").code == 0);
  const Said page = farm.sh("rackwright report s.h5 --out s.html --quiet");
  CHECK(page.code == 0);
  const std::string html = whole_file(farm.folder / "s.html");
  for (const char* part : {"Hard times", "what each hard time does", "July heat", "what helps in July heat", "a cooler",
                           "enough up to, outdoors"}) {
    INFO(part);
    CHECK(contains(html, part));
  }
  const Said unknown = farm.sh("rackwright stress scenarios/summer-heat.toml --hard-time pump-stopp --out n.h5");
  CHECK(unknown.code == 2);
  CHECK(contains(unknown.err, "did you mean pump-stop?"));
  CHECK_FALSE(std::filesystem::exists(farm.folder / "n.h5"));
}

TEST_CASE("stress: where every day is short already, the fodder served tells what is hard and what helps") {
  const Farm farm;
  const Said made = farm.sh("rackwright new short.toml --units 'us, USD' --animals '8 dairy goats at 3 lb, 25 hens' --eats 'alfalfa at "
                            "0.15 /lb' --grain 'barley at 14 / 50 lb' --place shed --weather '45 and 95 degF' "
                            "--hours '90 min' --trays '20 in x 10 in'");
  REQUIRE(made.code == 0);
  const std::string command = "rackwright stress short.toml --hard-time pump-stop --replications 40 --out s.h5 --quiet";
  const Said said = farm.sh(command + " --json");
  REQUIRE(said.code == 0);
  const json answer = json::parse(said.out), pump = answer["hard_times"][0];
  REQUIRE(pump["short_days_low"].get<double>() <= 0.0);  // what this farm is here for
  REQUIRE(pump["fill_rate_high"].get<double>() < 0.0);
  const Said text = farm.sh("rackwright report s.h5 --text");
  CHECK_FALSE(contains(text.out, "None of the hard times"));
  CHECK(contains(text.out, "Hardest of those tried, by the fodder served: pump-stop"));
  CHECK(contains(text.out, "fodder, percentage points"));
  bool saved = false;
  for (const json& what : answer["countermeasures"]) saved = saved || what["fill_rate_low"].get<double>() > 0.0;
  CHECK(contains(text.out, "most fodder is saved") == saved);
}

TEST_CASE("against: five goats more are worse fed, and the difference is in the file") {
  const Farm farm;
  const Said said = farm.sh("rackwright simulate scenarios/hillside.toml --replications 24 --against 'group.milkers.count+=12' "
                            "--against 'prices.water=9 /m3' --out a.h5 --quiet --json");
  REQUIRE(said.code == 0);
  const json answer = json::parse(said.out);
  REQUIRE(answer["against"].size() == 2);
  CHECK(answer["quantities"][0] == "fill_rate");
  CHECK(answer["against"][0]["verdict"][0] == "worse");
  CHECK(answer["against"][0]["difference"][0].get<double>() < 0.0);
  CHECK(answer["against"][1]["verdict"][0] == "no difference shown");
  const Said text = farm.sh("rackwright report a.h5 --text");
  CHECK(contains(text.out, "Changed: group.milkers.count+=12 (against the scenario as it is)"));
  CHECK(contains(text.out, "worse"));
  const Said wrong = farm.sh("rackwright simulate scenarios/hillside.toml --against line.sock=8 --out b.h5");
  CHECK(wrong.code == 2);
  CHECK(contains(wrong.err, "line.soak"));
  CHECK_FALSE(std::filesystem::exists(farm.folder / "b.h5"));
  const Said kilograms = farm.sh("rackwright simulate scenarios/hillside.toml --against 'line.soak+=10 kg' --against line.soak --out b.h5");
  CHECK(kilograms.code == 2);
  CHECK(contains(kilograms.err, "must be in the unit of \"10 h\""));
  CHECK(contains(kilograms.err, "is no change: write KEY=VALUE"));  // all that is wrong at once
}
