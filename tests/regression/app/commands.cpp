// The words and exit codes of the command line. They may change with a better wording; the codes may not.

#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

TEST_CASE("program: help and version go to standard output and are good") {
  for (const auto& words : {std::vector<std::string>{"--help"}, {"-h"}, {"help"}}) {
    const Said said = run(words);
    CHECK(said.code == 0);
    CHECK(said.err.empty());
    for (const char* command : {"new", "check", "simulate", "size", "sweep", "stress", "journal", "report", "lot", "fit", "schedule", "evaluate", "describe"})
      CHECK(contains(said.out, command));
  }
  CHECK(run({"--version"}).out.substr(0, 11) == "rackwright ");
  for (const char* command : {"check", "simulate", "size", "journal", "report", "evaluate", "describe"}) {
    const Said said = run({command, "--help"});
    CHECK(said.code == 0);
    CHECK(contains(said.out, "rackwright " + std::string(command)));
  }
}

TEST_CASE("program: an unknown command is told the nearest known one") {
  const Said said = run({"simulte", "farm.toml"});
  CHECK(said.code == 2);
  CHECK(said.out.empty());
  CHECK(said.err == "there is no command \"simulte\" (did you mean simulate?); rackwright --help lists them all\n");
  for (const char* later : {"new", "stress", "sweep", "schedule", "lot", "fit", "", "--quiet"})
    CHECK(run({later}).code == 2);
  CHECK(run({}).code == 2);
}

TEST_CASE("program: evaluate answers in lines or in JSON, and both agree") {
  const Said lines = run({"evaluate", "orifice", "diameter=2 mm", "head=1"});
  CHECK(lines.code == 0);
  CHECK(lines.out.substr(0, 7) == "flow = ");
  CHECK(lines.out.substr(lines.out.size() - 5) == " L/h\n");
  const Said json = run({"evaluate", "orifice", "head=100 cm", "diameter=0.002", "--json"});
  const auto object = nlohmann::json::parse(json.out);
  CHECK(object["flow"]["unit"] == "L/h");
  CHECK(object["flow"]["value"].get<double>() == Approx(std::stod(lines.out.substr(7))).epsilon(1e-9));
}

TEST_CASE("program: evaluate without a model lists every model with its keys") {
  const auto all = nlohmann::json::parse(run({"evaluate", "--json"}).out);
  REQUIRE(all.size() >= 19);
  for (const auto& [name, model] : all.items()) {
    INFO(name);
    CHECK_FALSE(model["source"].get<std::string>().empty());
    CHECK(contains(run({"evaluate"}).out, name + "\n"));
  }
}

TEST_CASE("program: evaluate refuses wrong input, all of it at once") {
  const Said said = run({"evaluate", "soak", "tmperature=20", "time=3 kg", "start_moisture=nan"});
  CHECK(said.code == 2);
  CHECK(said.out.empty());
  for (const char* part : {"evaluate soak: tmperature = \"20\"", "(did you mean temperature?)", "time = \"3 kg\"",
                           "start_moisture = \"nan\"", "temperature: must be given"}) {
    INFO(part);
    CHECK(contains(said.err, part));
  }
  CHECK(contains(run({"evaluate", "saturation-presure", "temperature=20"}).err, "(did you mean saturation-pressure?)"));
  CHECK(contains(run({"evaluate", "humidty"}).err, "no model \"humidty\" (did you mean moist-air, which knows relative_humidity?)"));
  CHECK(contains(run({"evaluate", "mold"}).err, "(did you mean mould-growth?)"));
  CHECK(contains(run({"evaluate", "zzzzzz"}).err, "no model \"zzzzzz\"; rackwright evaluate lists"));
  CHECK(run({"evaluate", "test-tolerance", "mean=200"}).code == 2);
  CHECK(contains(run({"evaluate", "feed-value", "lost=100 %"}).err, "of protein would be left in"));
  CHECK(run({"evaluate", "feed-value", "lost=20 %"}).code == 0);
  // 8 % of its value a growth day past its best, as a run books it (assumed).
  const auto worth = [&](const char* days) { return run({"evaluate", "feed-value", "lost=20 %", "energy=10 MJ/kg", "dry_matter=100 %", days}).out; };
  CHECK(contains(worth("growth_days=9.5"), "mat_energy = 7.68 MJ"));
  CHECK(contains(worth("growth_days=11.5"), fmt::format("mat_energy = {:.6f}", 7.68 * std::exp(-0.16)).substr(0, 19)));
  const auto stay = [&](std::vector<std::string> more) {
    more.insert(more.begin(), {"evaluate", "stay", "day=400"});
    return run(more).err;
  };
  CHECK(contains(stay({"arrives=10", "leaves=375", "each_year=yes"}), "leaves must not be the day on which it arrives"));
  CHECK(contains(stay({"arrives=10", "leaves=500", "each_year=yes"}), "must lie within a year"));
  CHECK(contains(stay({"arrives=10", "each_year=yes"}), "each_year needs both"));
  CHECK(stay({"arrives=10", "leaves=500"}).empty());
  CHECK(run({"evaluate", "queue", "arrival=2", "service=1"}).code == 2);
}

TEST_CASE("program: a mistake is looked for where it was made: in the file, or on the command line") {
  const Said typed = run({"check", shipped("minimal.toml"), "--set", "rack.tiers=0", "--set", "rack.teirs=4"});
  CHECK(typed.code == 2);
  CHECK(typed.err == "command line: rack.tiers = \"0\": must be between 1 and 40\n"
                     "command line: rack.teirs = \"4\": is not a known key (did you mean rack.tiers?)\n");
  const Folder folder;
  std::ofstream(folder / "wrong.toml") << "[rack]\ntiers = 0\n";
  const Said read = run({"check", folder / "wrong.toml", "--set", "rack.trays_per_tier=0"});
  CHECK(contains(read.err, "wrong.toml:2: rack.tiers = \"0\""));
  CHECK(contains(read.err, "command line: rack.trays_per_tier = \"0\""));
  // A file of settings is its own place, but where what is typed after it wins.
  std::ofstream(folder / "mine.toml") << "[line]\n\nsoak = \"3 kg\"\n";
  const Said set = run({"check", shipped("minimal.toml"), "--set", "@" + (folder / "mine.toml")});
  CHECK(set.code == 2);
  CHECK(contains(set.err, "--set @" + (folder / "mine.toml") + ":3: line.soak = \"3 kg\": "));
  CHECK_FALSE(contains(set.err, "minimal.toml"));
  std::ofstream(folder / "list.toml") << "[line]\nsoak = \"8 h\"\n[[grain]]\nname = \"x\"\n";
  CHECK(contains(run({"check", shipped("minimal.toml"), "--set", "@" + (folder / "list.toml")}).err, "--set @" + (folder / "list.toml") + ":3: grain: is a list"));
}

TEST_CASE("program: check says what a line lacks where its plays leave no doubt that it misses what is asked, and only then") {
  CHECK(contains(run({"check", shipped("hillside.toml"), "--set", "line.trays_per_batch=1"}).out, "The 2 trays a day give about 8.75 kg where nothing is lost"));
  CHECK(contains(run({"check", shipped("hillside.toml")}).out, "This line serves about 95 % of the fodder the animals are to get"));  // as first drawn: 97 % are asked for
  CHECK_FALSE(contains(run({"check", shipped("hillside.toml"), "--set", "target.fill_rate=94 %"}).out, "This line serves about"));
}

TEST_CASE("program: describe writes each page, and no other") {
  for (const char* page : {"scenario", "results", "models"}) {
    const Said said = run({"describe", page});
    CHECK(said.code == 0);
    CHECK(said.out.size() > 2000);
    CHECK(said.out.substr(0, 2) == "# ");
  }
  CHECK(contains(run({"describe", "modles"}).err, "(did you mean models?)"));
  CHECK(run({"describe"}).code == 2);
}

TEST_CASE("program: output that cannot be written is a fault") {
  Said said = Running({program(), "describe", "models"}, "/dev/full").wait();
  CHECK(said.code == 1);
  CHECK(contains(said.err, "No space left on device"));
  said = Running({program(), "--version"}, "/dev/full").wait();  // little enough to wait in a buffer until the end
  CHECK(said.code == 1);
  CHECK(contains(said.err, "standard output could not be written"));
}
