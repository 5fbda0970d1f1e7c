// Studies that are there already, and studies stopped on the way: what is told, what is kept, and what is not done again.

#include <signal.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>
#include <vector>

#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

using Words = std::vector<std::string>;

Words with(Words words, const Words& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

const Words small_stress{"stress", shipped("minimal.toml"), "--hard-time", "pump-stop", "--hard-time", "power-cut", "--replications", "4"};

/// Interrupts the program as soon as it has finished a part of its work, and waits for what it says.
Said interrupted(Words words, const std::string& out) {
  words = with(words, {"--out", out});
  words.insert(words.begin(), program());
  const Running running(words);
  wait_for_part(out);
  kill(running.pid(), SIGINT);
  return running.wait();
}

}  // namespace

TEST_CASE("finished: a study that is there is told again, to the letter, and not played again") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", whole_file(shipped("minimal.toml")) + "\n[target]\nfill_rate = 0.5\nyears = \"70 %\"\n[choose]\n\"rack.tiers\" = [4, 5]\n");
  const std::string misses = folder.write("misses.toml", whole_file(farm) + "most_replications = 20\n");
  struct Study { std::string name; Words words; int code; };
  for (const Study& study : {Study{"simulate", {"simulate", shipped("minimal.toml"), "--replications", "20"}, 0}, Study{"stress", small_stress, 0},
                             Study{"size", {"size", farm}, 0}, Study{"none", {"size", misses, "--set", "target.fill_rate=1", "--set", "group.milkers.count=400"}, 3}}) {
    INFO(study.name);
    const std::string out = folder / (study.name + ".h5");
    const Words words = with(study.words, {"--out", out});
    const Said first = run(words);
    INFO(first.err);
    REQUIRE(first.code == study.code);
    CHECK_FALSE(contains(first.err, "finished already"));
    const std::string file = whole_file(out);
    const Said again = run(with(words, {"--resume"}));
    CHECK(again.code == study.code);
    CHECK(again.out == first.out);
    CHECK(contains(again.err, out + " was finished already"));
    CHECK(whole_file(out) == file);
    // Another study's file is not its own: it is neither told nor replaced.
    const Said other = run(with(words, {"--resume", "--random-seed", "77"}));
    CHECK(other.code == 2);
    CHECK(other.out.empty());
    CHECK(whole_file(out) == file);
  }
}

TEST_CASE("finished: stopped on the way, each study says what it keeps and how to go on with it") {
  const Folder folder;
  struct Study { std::string name; Words words; };
  for (const Study& study : {Study{"share", {"simulate", shipped("minimal.toml"), "--replications", "1000000", "--shard", "1/2"}},
                             Study{"precision", {"simulate", shipped("minimal.toml"), "--precision", "0.01 %"}},
                             Study{"stress", {"stress", shipped("minimal.toml"), "--replications", "60", "--hard-time", "pump-stop", "--hard-time", "power-cut"}},
                             Study{"sweep", {"sweep", shipped("minimal.toml"), "--replications", "2000", "--vary", "line.soak=6 h:14 h:50"}}}) {
    INFO(study.name);
    const std::string out = folder / (study.name + ".h5");
    const Said said = interrupted(study.words, out);
    INFO(said.err);
    CHECK(said.code == 1);
    CHECK(contains(said.err, study.name == "stress" ? "stopped" : "stopped early"));
    CHECK(contains(said.err, "what is finished is kept in " + out + ".d; go on with it by"));
    CHECK(contains(said.err, study.name == "share" ? "--shard 1/2" : "--resume"));
    CHECK(std::filesystem::exists(out + ".d"));
    CHECK((study.name == "stress" || !std::filesystem::exists(out)));
  }
}

TEST_CASE("finished: what a stopped study wrote of its hard times is replaced by the whole when it goes on") {
  // The axe may fall before the first hard time is through: then it is let work a little longer.
  const Folder folder;
  const std::string whole = folder / "whole.h5", out = folder / "out.h5";
  const Words words{"stress", shipped("minimal.toml"), "--replications", "8", "--hard-time", "pump-stop", "--hard-time", "power-cut", "--hard-time", "keeper-away", "--quiet"};
  REQUIRE(run(with(words, {"--out", whole})).code == 0);
  Said said;
  for (int tries = 1; tries < 60 && !std::filesystem::exists(out); ++tries) {
    const Running running(with({program()}, with(words, {"--resume", "--out", out})));
    std::this_thread::sleep_for(std::chrono::milliseconds(50 * tries));
    kill(running.pid(), SIGINT);
    said = running.wait();
  }
  INFO(said.err);
  REQUIRE(std::filesystem::exists(out));
  if (said.code == 1) {
    CHECK(contains(said.err, "holds the hard times that were through"));
    CHECK(rackwright::results::read_result(out).number("stress/stopped") == 1.0);
  }
  CHECK(run(with(words, {"--resume", "--out", out})).code == 0);
  CHECK(run({"report", out, "--text"}).out == run({"report", whole, "--text"}).out);
  CHECK_FALSE(std::filesystem::exists(out + ".d"));
}

TEST_CASE("finished: a file that appears under the output's name while a study runs is left alone, and the result is beside it") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", whole_file(shipped("minimal.toml")) + "\n[target]\nfill_rate = 0.5\nyears = \"70 %\"\n[choose]\n\"rack.tiers\" = [4, 5]\n");
  for (const Words& study : {Words{"simulate", shipped("minimal.toml"), "--replications", "300"}, Words{"size", farm}, small_stress,
                             Words{"sweep", shipped("minimal.toml"), "--replications", "20", "--vary", "line.soak=6 h:14 h:40"}}) {
    const std::string name = study.front(), out = folder / (name + ".h5"), beside = folder / (name + "-2.h5");
    const Running running(with(with({program()}, study), {"--threads", "1", "--out", out}));
    while (!std::filesystem::exists(out + ".d/lock")) std::this_thread::sleep_for(std::chrono::milliseconds(1));
    std::ofstream(out) << "somebody else's";
    const Said said = running.wait();
    INFO(name << ": " << said.err);
    CHECK(said.code == 1);
    CHECK(contains(said.err, "left as it is; this result is in " + beside));
    CHECK(whole_file(out) == "somebody else's");
    CHECK_FALSE(rackwright::results::read_result(beside).arrays.empty());
    CHECK_FALSE(std::filesystem::exists(out + ".d"));
  }
}

// A limit on file size stands in for a full disk, as in hostile.cpp.
TEST_CASE("finished: where there is no room for the result the study fails, and leaves no half of one") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", whole_file(shipped("minimal.toml")) + "\n[target]\nfill_rate = 0.5\nyears = \"70 %\"\n[choose]\n\"rack.tiers\" = [4, 5]\n");
  for (const Words& study : {small_stress, Words{"size", farm}, Words{"sweep", shipped("minimal.toml"), "--replications", "2", "--vary", "line.soak=6 h,8 h"}}) {
    const std::string out = folder / (study.front() + ".h5");
    const Said said = Running(with(with({"bash", "-c", "ulimit -f 16; exec \"$0\" \"$@\"", program()}, study), {"--quiet", "--out", out})).wait();
    INFO(study.front() << ": " << said.err);
    CHECK(said.code == 1);
    CHECK(contains(said.err, "was not written"));
    CHECK(said.out.empty());
    CHECK_FALSE(std::filesystem::exists(out));
    const Said again = run(with(study, {"--quiet", "--resume", "--out", out}));  // once there is
    CHECK(again.code == 0);
    CHECK_FALSE(std::filesystem::exists(out + ".d"));
  }
}

TEST_CASE("finished: a sweep answers other programs with all that does not grow with its points") {
  const Folder folder;
  const Said said = run({"sweep", shipped("minimal.toml"), "--replications", "2", "--years", "0.2", "--vary", "line.soak=6 h,8 h", "--vary", "water.feed=parallel,cascade", "--json",
                         "--quiet", "--out", folder / "s.h5"});
  INFO(said.err);
  REQUIRE(said.code == 0);
  const auto all = nlohmann::json::parse(said.out)["sweep"];
  CHECK(all["points"] == 4);
  for (const nlohmann::json& whole : {all["points"], all["count"], all["effect_key"][3], all["effect_points"][0]}) CHECK(whole.is_number_integer());
  CHECK(all["effect_fill_rate"][0].is_number_float());
  CHECK(all["method"] == "grid");
  CHECK(all["key"] == nlohmann::json{"line.soak", "water.feed"});
  CHECK(all["word"] == nlohmann::json{"parallel", "cascade"});
  CHECK(all["effect_label"].size() == 4);
  CHECK(run({"report", folder / "s.h5", "--json"}).out == said.out);
}

TEST_CASE("finished: a line that starts empty is told how long it takes to settle where that is to be found") {
  const Folder folder;
  const Said said = run({"simulate", shipped("minimal.toml"), "--set", "run.warm_up=auto", "--years", "0.2", "--replications", "4", "--out", folder / "a.h5"});
  INFO(said.err);
  CHECK(said.code == 0);
  CHECK(contains(said.err, "the line forgets an empty start within "));
  CHECK(run({"sweep", shipped("minimal.toml"), "--method", "lhs", "--vary", "line.soak=6 h,8 h", "--out", folder / "s.h5"}).code == 2);
  CHECK(contains(run({"sweep", shipped("minimal.toml"), "--method", "lhs", "--vary", "line.soak=6 h,8 h", "--out", folder / "s.h5"}).err, "write grid, latin, even or sobol"));
}
