// One sweep worked in many ways: threads, shares, ranks of an MPI run. The datasets are the same to the last bit.

#include <signal.h>
#include <sys/resource.h>

#include <chrono>
#include <cstring>
#include <filesystem>
#include <thread>

#include "models/base/checked_build.hpp"
#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;
using rackwright::results::ResultFile;

namespace {

namespace fs = std::filesystem;

std::vector<std::string> sweep_words(const std::string& out, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"sweep",  shipped("minimal.toml"), "--replications", "128",
                                 "--vary", "line.soak=6 h:14 h:4",  "--vary",         "rack.tiers=1,4,5",
                                 "--vary", "water.pump_shutoff=4 m,0.2 m", "--play-all", "--out", out};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

Said sweep(const std::string& out, std::vector<std::string> more = {}) { return run(sweep_words(out, std::move(more))); }

void check_same(const std::string& one, const std::string& other) {
  const ResultFile a = rackwright::results::read_result(one), b = rackwright::results::read_result(other);
  REQUIRE(a.arrays.size() == b.arrays.size());
  for (const auto& [path, array] : a.arrays) {
    INFO(path);
    const auto* found = b.find(path);
    REQUIRE(found != nullptr);
    CHECK(array.shape == found->shape);
    CHECK(array.texts == found->texts);
    REQUIRE(array.numbers.size() == found->numbers.size());
    CHECK((array.numbers.empty() ||
           std::memcmp(array.numbers.data(), found->numbers.data(), array.numbers.size() * sizeof(double)) == 0));
  }
}

std::string with_mpi() { return std::string(RACKWRIGHT_BINARY_DIR) + "/rackwright_mpi"; }

/// Under the address sanitizer, what Open MPI never frees is not asked for.
std::vector<std::string> ranks(int count, const std::vector<std::string>& words) {
  std::vector<std::string> all{"env", "ASAN_OPTIONS=detect_leaks=0", "OMPI_MCA_btl=self,vader", "OMPI_MCA_btl_vader_single_copy_mechanism=none",
                               "mpirun", "--allow-run-as-root", "--oversubscribe", "-np", std::to_string(count), with_mpi()};
  all.insert(all.end(), words.begin(), words.end());
  return all;
}

/// Processes of the program started by that one, found as the system lists them.
std::vector<pid_t> children(pid_t parent) {
  std::vector<pid_t> found;
  for (const auto& entry : fs::directory_iterator("/proc")) {
    const std::string name = entry.path().filename().string();
    if (name.find_first_not_of("0123456789") != std::string::npos) continue;
    const std::string stat = whole_file(entry.path() / "stat");
    const auto after = stat.rfind(')');
    if (after == std::string::npos || !contains(stat, "(rackwright_mpi)")) continue;
    if (std::atoi(stat.c_str() + after + 4) == parent) found.push_back(std::atoi(name.c_str()));
  }
  return found;
}

}  // namespace

TEST_CASE("cluster: one thread or two, three shares in any order: the same sweep") {
  const Folder folder;
  const std::string one = folder / "one.h5", two = folder / "two.h5", shares = folder / "shares.h5";
  const Said whole = sweep(one, {"--threads", "1", "--quiet"});
  INFO(whole.err);
  REQUIRE(whole.code == 0);
  REQUIRE(sweep(two, {"--threads", "2", "--quiet"}).code == 0);
  check_same(one, two);
  for (const char* share : {"2/3", "3/3"}) {
    const Said said = sweep(shares, {"--shard", share});
    CHECK(said.code == 0);
    CHECK(said.out.empty());
    CHECK(contains(said.err, "still to come"));
    CHECK_FALSE(fs::exists(shares));
  }
  const Said early = sweep(shares, {"--merge"});
  CHECK(early.code == 2);
  CHECK(contains(early.err, "blocks are not in"));
  CHECK(sweep(shares).code == 2);  // somebody's work is there
  const Said last = sweep(shares, {"--shard", "1/3", "--quiet"});
  CHECK(last.code == 0);
  CHECK(last.out == whole.out);
  CHECK_FALSE(fs::exists(shares + ".d"));
  check_same(one, shares);
  CHECK(contains(sweep(shares, {"--shard", "1/3"}).err, "finished already"));
}

TEST_CASE("cluster: simulate in shares") {
  const Folder folder;
  const auto simulate = [&](const std::string& out, std::vector<std::string> more) {
    more.insert(more.begin(), {"simulate", shipped("minimal.toml"), "--replications", "300", "--quiet", "--out", out});
    return run(more);
  };
  const Said whole = simulate(folder / "whole.h5", {});
  REQUIRE(whole.code == 0);
  for (const char* share : {"3/4", "1/4", "4/4"}) CHECK(simulate(folder / "shares.h5", {"--shard", share}).out.empty());
  CHECK(simulate(folder / "shares.h5", {"--shard", "2/4"}).out == whole.out);
  check_same(folder / "whole.h5", folder / "shares.h5");
  CHECK_FALSE(fs::exists(folder / "shares.h5.d"));
}

// Points that are no sound scenario cost next to nothing, but are kept, merged and told like any other.
TEST_CASE("cluster: memory does not grow with the points of a sweep") {
  const Folder folder;
  const auto most_kilobytes = [&](const std::string& points) {
    const std::string out = folder / (points + ".h5");
    const Said said = run({"sweep", shipped("minimal.toml"), "--replications", "1", "--vary", "water.pump_shutoff=0.2 m", "--vary",
                           "line.soak=6 h:14 h:" + points, "--vary", "line.wash=0:1:1000", "--quiet", "--out", out});
    INFO(said.err);
    CHECK(said.code == 0);
    CHECK(contains(said.out, points + "000 points (grid)"));
    rusage used{};
    getrusage(RUSAGE_CHILDREN, &used);  // the most any child has held so far
    return used.ru_maxrss;
  };
  const long few = most_kilobytes("10"), many = most_kilobytes("100");
  INFO(few << " kB for 10,000 points, " << many << " kB for 100,000");
  if (!RACKWRIGHT_CHECKED) CHECK(many - few < 12'000);  // a checker keeps what was freed
}

TEST_CASE("cluster: what --shard may not be") {
  const Folder folder;
  for (const char* share : {"0/3", "4/3", "3", "/3", "1/", "a/b", "-1/3", "1/0"}) {
    const Said said = sweep(folder / "x.h5", {"--shard", share});
    INFO(share << ": " << said.err);
    CHECK(said.code == 2);
    CHECK(contains(said.err, "--shard"));
  }
  CHECK(folder.names().empty());
}

TEST_CASE("cluster: the job file does its share and sends no half-typed job on its way") {
  const Folder folder;
  const auto task = [&](const char* number) {
    return Running({"env", "RACKWRIGHT=" + program(), std::string("SLURM_ARRAY_TASK_ID=") + number,
                    "SLURM_ARRAY_TASK_COUNT=2", std::string(RACKWRIGHT_SOURCE_DIR) + "/scripts/cluster_job",
                    shipped("minimal.toml"), folder / "out.h5", "--replications", "8", "--vary", "line.soak=6 h,8 h"})
        .wait();
  };
  CHECK(task("2").code == 0);
  const Said last = task("1");
  INFO(last.err);
  CHECK(last.code == 0);
  CHECK(contains(last.out, "2 points (grid)"));
  CHECK(task("3").code == 2);
  CHECK(Running({std::string(RACKWRIGHT_SOURCE_DIR) + "/scripts/cluster_job"}).wait().code == 2);
}

TEST_CASE("cluster: two programs on one output, the second is refused and the first not disturbed") {
  const Folder folder;
  std::vector<std::string> words = sweep_words(folder / "out.h5", {"--quiet"});
  words.insert(words.begin(), program());
  const Running first(words);
  while (!fs::exists(folder / "out.h5.d/lock")) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  for (const char* option : {"--resume", "--force", "--quiet"}) {
    const Said second = sweep(folder / "out.h5", {option == std::string("--quiet") ? "--json" : option});
    CHECK(second.code == 2);
    CHECK(contains(second.err, "another run is at work"));
  }
  CHECK(first.wait().code == 0);
}

TEST_CASE("cluster: four ranks, two and one write what threads write") {
  if (!fs::exists(with_mpi())) {
    WARN("built without MPI: ranks are not tested");
    return;
  }
  const Folder folder;
  REQUIRE(sweep(folder / "threads.h5", {"--quiet"}).code == 0);
  for (const int count : {4, 2, 1}) {
    const std::string out = folder / ("ranks" + std::to_string(count) + ".h5");
    const Said said = Running(ranks(count, sweep_words(out, {"--quiet"}))).wait();
    INFO(said.err);
    REQUIRE(said.code == 0);
    check_same(folder / "threads.h5", out);
    CHECK_FALSE(fs::exists(out + ".d"));
  }
  const Said share = Running(ranks(2, sweep_words(folder / "share.h5", {"--shard", "1/2"}))).wait();
  CHECK(share.code != 0);
  CHECK(contains(share.err, "--shard is for runs without MPI"));
  const Said refused = Running(ranks(3, sweep_words(folder / "ranks4.h5"))).wait();
  CHECK(refused.code == 2);
  CHECK(contains(refused.err, "is there already"));
  // Every rank would do the whole of it, and two would fight over the output.
  const Said alone = Running(ranks(2, {"simulate", shipped("minimal.toml"), "--replications", "3", "--out", folder / "alone.h5"})).wait();
  CHECK(alone.code == 2);
  CHECK(contains(alone.err, "ranks share the work of sweep alone"));
  CHECK_FALSE(fs::exists(folder / "alone.h5"));
  CHECK_FALSE(fs::exists(folder / "alone.h5.d"));
}

TEST_CASE("cluster: a lost rank ends the run, and what was finished is gone on with, with MPI or without") {
  if (!fs::exists(with_mpi())) return;
  const Folder folder;
  // Long enough for a busy machine to strike before the end.
  const std::vector<std::string> longer{"--quiet", "--vary", "line.grace_days=1,2,3,4,5"};
  REQUIRE(sweep(folder / "whole.h5", longer).code == 0);
  const std::string out = folder / "out.h5";
  const Running running(ranks(4, sweep_words(out, longer)));
  const auto parts = [&] {
    std::size_t count = 0;
    std::error_code gone;
    for (const auto& entry : fs::directory_iterator(out + ".d", gone))
      if (entry.path().extension() == ".part") ++count;
    return count;
  };
  while (parts() < 2 && !fs::exists(out)) std::this_thread::sleep_for(std::chrono::milliseconds(2));
  const auto pids = children(running.pid());
  REQUIRE(pids.size() == 4);
  kill(pids.back(), SIGKILL);
  const Said lost = running.wait();
  INFO(lost.err);
  CHECK(lost.code != 0);
  CHECK_FALSE(fs::exists(out));
  CHECK(parts() >= 2);
  std::vector<std::string> on = longer;
  on.emplace_back("--resume");
  const Said again = sweep(out, on);
  INFO(again.err);
  CHECK(again.code == 0);
  check_same(folder / "whole.h5", out);
  CHECK_FALSE(fs::exists(out + ".d"));
}
