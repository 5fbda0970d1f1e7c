// Whole runs of the program: what they write and say, and how they stop.

#include <signal.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <regex>
#include <thread>

#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;
using nlohmann::json;

namespace {

Said simulate(const std::string& out, std::vector<std::string> more) {
  more.insert(more.begin(), {"simulate", shipped("minimal.toml"), "--out", out});
  return run(more);
}

}  // namespace

TEST_CASE("runs: check tells what follows from each shipped scenario") {
  for (const char* name : {"minimal.toml", "hillside.toml", "summer-heat.toml"}) {
    INFO(name);
    const Said text = run({"check", shipped(name)});
    CHECK(text.code == 0);
    CHECK(text.err.empty());
    for (const char* part :
         {"places needed", "one bag lasts", "level cups", "fodder wanted a day", "pump works at", "pipe that slows",
          "a full tier weighs", "height over depth", "work a day", "what limits that", "To be careful about"}) {
      INFO(part);
      CHECK(contains(text.out, part));
    }
    const json facts = json::parse(run({"check", shipped(name), "--json"}).out);
    CHECK(facts["line"]["positions_needed"]["value"].get<double>() ==
          Approx(facts["line"]["trays_per_day"]["value"].get<double>() *
                 facts["line"]["days_on_rack"]["value"].get<double>()));
    CHECK(facts["feed"]["served_per_day"]["value"].get<double>() <=
          facts["feed"]["wanted_per_day"]["value"].get<double>() * 1.0000001);
    CHECK(facts["cautions"].size() >= 3);
  }
  const json unsown = json::parse(run({"check", shipped("hillside.toml"), "--set", "line.grains=barley", "--json"}).out)["grain"];
  CHECK(unsown["wheat.per_day"]["value"] == 0.0);
  CHECK_FALSE(unsown.contains("wheat.bag_life"));  // it would last for ever
  CHECK(unsown.contains("barley.bag_life"));
}

TEST_CASE("runs: check in US units says the same in other words") {
  const Said us = run({"check", shipped("minimal.toml"), "--set", "units=us"});
  for (const char* unit : {" lb", " ft", " gal/h"}) CHECK(contains(us.out, unit));
  CHECK_FALSE(contains(us.out, " kg "));
  // Numbers for programs stay in native units; only the cautions, which are sentences, change.
  json here = json::parse(run({"check", shipped("minimal.toml"), "--set", "units=us", "--json"}).out);
  json there = json::parse(run({"check", shipped("minimal.toml"), "--json"}).out);
  here.erase("cautions");
  there.erase("cautions");
  CHECK(here == there);
}

TEST_CASE("runs: why feedings are short accounts for what lacked, the main cause first") {
  const Folder folder;
  const std::string out = folder / "runs.h5";
  const Said said = simulate(out, {"--replications", "16", "--quiet"});
  REQUIRE(said.code == 0);
  CHECK(contains(said.out, "Why feedings are short (16 runs"));
  const auto file = rackwright::results::read_result(out);
  const auto& missing = file.at("shortage/missing").numbers;
  REQUIRE(missing.size() >= 2);
  CHECK(std::is_sorted(missing.rbegin(), missing.rend()));
  double told = 0.0, lacked = 0.0;
  for (const double kilograms : missing) told += kilograms;
  for (std::size_t r = 0; r < 16; ++r)
    lacked += (file.at("replication/wanted").numbers[r] - file.at("replication/served").numbers[r]) / 16.0;
  // Feedings within the tolerance of a full one are not short.
  CHECK(told <= lacked * (1.0 + 1e-9));
  CHECK(told >= 0.95 * lacked);
  const Said full = simulate(folder / "full.h5", {"--replications", "2", "--years", "0.1", "--set", "group.milkers.count=1", "--set",
                                                  "keeper.miss_chance=0", "--quiet"});
  if (rackwright::results::read_result(folder / "full.h5").estimate("short_feedings")->mean == 0.0)
    CHECK_FALSE(contains(full.out, "Why feedings are short"));
}

TEST_CASE("runs: the same numbers with one thread and with two, and again from the file") {
  const Folder folder;
  const Said one = simulate(folder / "one.h5", {"--replications", "70", "--threads", "1", "--json"});
  const Said two = simulate(folder / "two.h5", {"--replications", "70", "--threads", "2", "--json"});
  REQUIRE(one.code == 0);
  CHECK(one.out == two.out);
  CHECK(run({"report", folder / "one.h5", "--json"}).out == one.out);
  const json all = json::parse(one.out);
  CHECK(all["replications_completed"] == 70);
  CHECK(all["replications_failed"] == 0);
  const json& fill = all["summary"]["fill_rate"];
  CHECK(fill["low"].get<double>() <= fill["mean"].get<double>());
  CHECK(fill["mean"].get<double>() <= fill["high"].get<double>());
  const Said other = simulate(folder / "other.h5", {"--replications", "70", "--random-seed", "2", "--json"});
  CHECK(other.out != one.out);
}

TEST_CASE("runs: results go to standard output, talk to standard error, --quiet leaves the results") {
  const Folder folder;
  const Said loud = simulate(folder / "loud.h5", {"--replications", "8"});
  CHECK(loud.code == 0);
  CHECK(contains(loud.err, "written: "));
  CHECK_FALSE(contains(loud.out, "written: "));
  const Said quiet = simulate(folder / "quiet.h5", {"--replications", "8", "--quiet"});
  CHECK(quiet.err.empty());
  CHECK(quiet.out == loud.out);
  CHECK(run({"report", folder / "loud.h5", "--text"}).out == loud.out);
}

TEST_CASE("runs: a change that changes nothing, or what cannot be compared, is refused before anything is played") {
  const Folder folder;
  const auto against = [&](const std::string& change) { return simulate(folder / "out.h5", {"--replications", "2", "--years", "0.1", "--against", change}); };
  for (const char* change : {"line.soak*=1", "run.length=30 d", "run.random_seed=7", "title=x", "choose.rack.tiers=4, 5", "line.soak=8 h,line.soak=9 h"}) {
    const Said said = against(change);
    INFO(change << ": " << said.err);
    CHECK(said.code == 2);
    CHECK(said.out.empty());
  }
  CHECK(contains(against("line.soak*=1").err, "--against = \"line.soak*=1\": changes nothing"));
  const Said twice = simulate(folder / "out.h5", {"--replications", "2", "--against", "line.soak=9 h", "--against", "line.soak=540 min"});
  CHECK(twice.code == 2);
  CHECK(contains(twice.err, "--against = \"line.soak=540 min\": is there twice"));
  CHECK(against("line.soak*=1.1").code == 0);
}

TEST_CASE("runs: report writes every table for a spreadsheet, and keeps what is there") {
  const Folder folder;
  REQUIRE(simulate(folder / "out.h5", {"--replications", "5", "--quiet"}).code == 0);
  const std::string tables = folder / "tables";
  const Said said = run({"report", folder / "out.h5", "--csv", tables});
  INFO(said.err);
  CHECK(said.code == 0);
  CHECK(contains(said.err, "tables in "));
  const std::string replication = whole_file(tables + "/replication.csv");
  CHECK(std::count(replication.begin(), replication.end(), '\n') == 6);  // a heading and five replications
  CHECK(contains(replication, "fill_rate,"));
  CHECK(contains(replication, "cost_year [EUR]"));
  CHECK(contains(replication, "cost_per_kg_fresh [EUR/kg]"));
  CHECK(contains(replication, "fill_rate,"));
  const std::string summary = whole_file(tables + "/summary.csv");
  CHECK(contains(summary, "composted_surplus"));
  CHECK(contains(summary, "\ncost_year,EUR,"));
  CHECK(contains(summary, "\ncost_per_kg_fresh,EUR/kg,"));
  CHECK(contains(summary, "\nfill_rate,1,"));
  CHECK(run({"report", folder / "out.h5", "--csv", tables}).code == 2);
  CHECK(run({"report", folder / "out.h5", "--csv", tables, "--force"}).code == 0);
  CHECK(run({"report", folder / "out.h5", "--csv", folder / "no/such"}).code == 2);
  CHECK(run({"report", folder / "out.h5", "--csv", tables, "--text"}).code == 2);
}

TEST_CASE("runs: one replication is told without an interval") {
  const Folder folder;
  const Said said = simulate(folder / "one.h5", {"--replications", "1", "--quiet"});
  CHECK(said.code == 0);
  CHECK(std::regex_search(said.out, std::regex(R"(One replication \(the line\s+played\s+once\): no\s+interval)")));
  for (const char* no_number : {" inf", "-inf", " nan", "95 % interval"}) CHECK_FALSE(contains(said.out, no_number));
}

TEST_CASE("runs: stopped by a signal, the replications done are kept in a whole file") {
  for (const int signal : {SIGINT, SIGTERM}) {
    const Folder folder;
    const Running running({program(), "simulate", shipped("minimal.toml"), "--replications", "1000000", "--out",
                           folder / "out.h5", "--json"});
    wait_for_part(folder / "out.h5");
    kill(running.pid(), signal);
    const Said said = running.wait();
    INFO(said.err);
    CHECK(said.code == 1);
    CHECK(contains(said.err, "stopped early"));
    const json all = json::parse(said.out);
    CHECK(all["replications_asked"] == 1000000);
    CHECK(all["replications_completed"].get<int>() > 0);
    CHECK(all["replications_completed"].get<int>() < 1000000);
    std::vector<std::string> names = folder.names();
    std::sort(names.begin(), names.end());
    CHECK(names == std::vector<std::string>{"out.h5", "out.h5.d"});
    CHECK(contains(said.err, "--resume"));
    CHECK(run({"report", folder / "out.h5", "--json"}).out == said.out);
  }
}

TEST_CASE("runs: size recommends, or says that nothing meets the target") {
  const Folder folder;
  const std::string easy = whole_file(shipped("minimal.toml")) +
                           "\n[target]\nfill_rate = 0.5\nyears = \"70 %\"\n[choose]\n\"rack.tiers\" = [3, 4, "
                           "5]\n\"line.trays_per_batch\" = [3, 4]\n";
  const std::string farm = folder.write("farm.toml", easy);
  const Said met = run({"size", farm, "--out", folder / "met.h5", "--json", "--quiet"});
  INFO(met.err);
  CHECK(met.code == 0);
  const json all = json::parse(met.out);
  CHECK(all["designs"].size() == 6);
  const auto chosen = all["chosen"].get<std::size_t>();
  CHECK(all["designs"][chosen]["verdict"] == "chosen");
  CHECK(all["designs"][chosen]["choices"].contains("rack.tiers"));
  // Counts and indices are whole numbers to another program, means are not.
  for (const json& whole : {all["chosen"], all["random_seed"], all["replications_completed"], all["designs"][0]["candidate"], all["designs"][0]["replications"]})
    CHECK(whole.is_number_integer());
  CHECK(all["summary"]["trays_sown"]["mean"].is_number_float());
  CHECK(contains(all["promise"].get<std::string>(), "confidence"));
  const json& sure = all["doubt"]["success"];
  for (const char* what : {"luck", "both", "share"}) CHECK((sure[what]["low"] <= sure[what]["mean"] && sure[what]["mean"] <= sure[what]["high"]));
  const Said told = run({"report", folder / "met.h5", "--text"});
  CHECK(contains(told.out, "How sure"));
  CHECK(contains(told.out, "Promise: "));
  CHECK(run({"size", farm, "--out", folder / "again.h5", "--json", "--quiet", "--threads", "1"}).out == met.out);

  const Said price = run({"size", shipped("minimal.toml"), "--out", folder / "price.h5", "--quiet", "--years", "0.2", "--set", "choose.prices.tray=2, 3", "--set",
                          "target.fill_rate=0.3", "--set", "target.years=0.5"});
  CHECK(price.code == 0);
  CHECK(contains(price.out, "You do not decide prices.tray"));

  const Said missed = run({"size", farm, "--out", folder / "missed.h5", "--json", "--quiet", "--set",
                           "target.fill_rate=1", "--set", "group.milkers.count=400"});
  INFO(missed.err);
  CHECK(missed.code == 3);
  CHECK(json::parse(missed.out)["chosen"].is_null());
  CHECK(contains(run({"size", shipped("minimal.toml"), "--out", folder / "x.h5"}).err, "[choose]"));
}

TEST_CASE("runs: the worst replication is told with its causes, in the units of the scenario, and none beyond the last") {
  const auto journal = [](std::vector<std::string> more) {
    std::vector<std::string> words{"journal", shipped("minimal.toml"), "--years", "0.3", "--replications", "20"};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  };
  const Said worst = journal({"--replication", "worst"});
  CHECK(worst.code == 0);
  CHECK(worst.out == journal({"--replication", "worst"}).out);
  CHECK(contains(worst.out, " (mean over the soak); "));  // not line.soak_water: the bucket takes on the room's warmth
  CHECK(contains(worst.out, "were short, by their main cause"));
  CHECK(contains(worst.out, " -> "));
  CHECK(contains(journal({"--replication", "worst", "--set", "units=us"}).out, " lb"));
  CHECK_FALSE(contains(journal({"--replication", "worst", "--set", "units=us"}).out, " kg"));
  CHECK(journal({"--replication", "median"}).code == 0);
  const Said beyond = journal({"--replication", "20"});
  CHECK(beyond.code == 2);
  CHECK(contains(beyond.err, "0 to 19"));
}

TEST_CASE("runs: --precision plays as many replications as it takes, and says so") {
  const Folder folder;
  const Said coarse = simulate(folder / "coarse.h5", {"--years", "0.2", "--precision", "20 %", "--json"});
  CHECK(json::parse(coarse.out)["replications_completed"] == 200);
  CHECK(contains(coarse.err, "200 replications: the share served is known to +-"));
  const json fine = json::parse(simulate(folder / "fine.h5", {"--years", "0.2", "--precision", "0.1 %", "--json"}).out);
  CHECK(fine["replications_completed"].get<int>() > 200);
  CHECK(fine["summary"]["cost_year"]["high"].get<double>() - fine["summary"]["cost_year"]["mean"].get<double>() <=
        0.001 * fine["summary"]["cost_year"]["mean"].get<double>());
  const Said capped =
      simulate(folder / "capped.h5", {"--years", "0.2", "--precision", "0.001 %", "--replications", "70", "--json"});
  CHECK(json::parse(capped.out)["replications_completed"] == 70);
  CHECK(contains(capped.err, "was not reached"));
  CHECK(simulate(folder / "bad.h5", {"--precision", "0"}).code == 2);
}

TEST_CASE("runs: the journal tells one replication, the same every time") {
  const Said told = run({"journal", shipped("minimal.toml"), "--replication", "3", "--years", "0.1"});
  CHECK(told.code == 0);
  CHECK(contains(told.out, "Day 1, Sunday 2026-03-01"));
  CHECK(contains(told.out, "Day 36,"));
  CHECK_FALSE(contains(told.out, "Day 38,"));
  CHECK(contains(told.err, "replication 3 of random seed 1"));
  CHECK(run({"journal", shipped("minimal.toml"), "--replication", "3", "--years", "0.1"}).out == told.out);
  CHECK(run({"journal", shipped("minimal.toml"), "--replication", "4", "--years", "0.1"}).out != told.out);
  const std::string lines =
      run({"journal", shipped("minimal.toml"), "--replication", "3", "--years", "0.1", "--json"}).out;
  CHECK(json::parse(lines.substr(0, lines.find('\n')))["day"].get<int>() == 1);
  CHECK(run({"journal", shipped("minimal.toml")}).code == 2);
}
