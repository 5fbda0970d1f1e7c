// kill -9 at random moments of simulate, size, stress and sweep, each time gone on with by --resume: no finished part is worked
// again, and what comes out at the end is what comes out undisturbed. RACKWRIGHT_KILLS says how many (50).

#include <signal.h>
#include <sys/stat.h>

#include <chrono>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <map>
#include <random>
#include <thread>

#include "sim/results/result_file.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;
using rackwright::results::Array;
using rackwright::results::ResultFile;

namespace {

/// Equal to the last bit, NaN to NaN.
bool same(const Array& a, const Array& b) {
  return a.shape == b.shape && a.texts == b.texts && a.numbers.size() == b.numbers.size() &&
         (a.numbers.empty() ||
          std::memcmp(a.numbers.data(), b.numbers.data(), a.numbers.size() * sizeof(double)) == 0);
}

void check_same(const std::string& one, const std::string& other) {
  const ResultFile a = rackwright::results::read_result(one), b = rackwright::results::read_result(other);
  CHECK(a.header.replications_completed == b.header.replications_completed);
  CHECK(a.arrays.size() == b.arrays.size());
  for (const auto& [path, array] : a.arrays) {
    INFO(path);
    const Array* found = b.find(path);
    REQUIRE(found != nullptr);
    CHECK(same(array, *found));
  }
}

/// Finished work in a folder of parts by name, with what would change if it were written again. Days of a chain are
/// replaced as the chain grows; they are not work.
std::map<std::string, std::pair<ino_t, long>> finished(const std::string& folder) {
  std::map<std::string, std::pair<ino_t, long>> parts;
  std::error_code gone;
  for (const auto& entry : std::filesystem::directory_iterator(folder, gone)) {
    const std::string name = entry.path().filename().string();
    struct stat what {};
    if (!name.ends_with(".part") || name.starts_with("bands-") || stat(entry.path().c_str(), &what) != 0) continue;
    parts[name] = {what.st_ino, what.st_mtim.tv_nsec};
  }
  return parts;
}

struct Study {
  std::string name;
  std::vector<std::string> words;  ///< without --out
};

std::vector<Study> studies() {
  return {
      {"simulate", {"simulate", shipped("minimal.toml"), "--replications", "2000", "--quiet"}},
      {"against",
       {"simulate", shipped("minimal.toml"), "--precision", "1 %", "--against", "line.soak=8 h", "--against",
        "line.days_on_rack=6", "--quiet"}},
      {"stress",
       {"stress", shipped("summer-heat.toml"), "--hard-time", "pump-stop", "--hard-time", "July heat", "--replications", "24",
        "--quiet"}},
      {"size", {"size", shipped("hillside.toml"), "--set", "choose.most_replications=400", "--quiet"}},
      {"sweep",
       {"sweep", shipped("minimal.toml"), "--replications", "128", "--vary", "line.soak=6 h:14 h:6", "--vary",
        "rack.tiers=1,4,5", "--play-all", "--quiet"}},
  };
}

std::vector<std::string> command(const Study& study, const std::string& out, bool resume) {
  std::vector<std::string> words{program()};
  words.insert(words.end(), study.words.begin(), study.words.end());
  words.insert(words.end(), {"--out", out});
  if (resume) words.emplace_back("--resume");
  return words;
}

int kills_asked() {
  const char* text = std::getenv("RACKWRIGHT_KILLS");
  return text == nullptr ? 50 : std::atoi(text);
}

}  // namespace

TEST_CASE("killed at random moments, every study ends as if it had not been") {
  const Folder folder;
  std::mt19937 luck(20260301);  // of the test alone: when the axe falls
  int kills = 0, after_parts = 0;
  int left = static_cast<int>(studies().size());
  for (const Study& study : studies()) {
    INFO(study.name);
    const std::string whole = folder / ("whole-" + study.name + ".h5"), out = folder / (study.name + ".h5");
    const auto begun = std::chrono::steady_clock::now();
    const Said undisturbed = Running(command(study, whole, false)).wait();
    REQUIRE((undisturbed.code == 0 || undisturbed.code == 3));
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
    std::uniform_real_distribution<double> moment(0.005, 0.7 * seconds);

    const int wanted = kills + (kills_asked() - kills) / left--;
    int ended = 0;
    while (kills < wanted) {
      const auto before = finished(out + ".d");
      const Running running(command(study, out, true));
      std::this_thread::sleep_for(std::chrono::duration<double>(moment(luck)));
      kill(running.pid(), SIGKILL);
      const Said said = running.wait();
      if (said.code != -SIGKILL) {  // it was quicker than the axe
        CHECK(said.code == undisturbed.code);
        check_same(whole, out);
        CHECK_FALSE(std::filesystem::exists(out + ".d"));
        std::filesystem::remove(out);
        ++ended;
        continue;
      }
      ++kills;
      const auto after = finished(out + ".d");
      if (!before.empty()) ++after_parts;
      if (std::filesystem::exists(out)) continue;  // killed while it tidied up
      for (const auto& [name, identity] : before) {
        INFO(name);
        const auto found = after.find(name);
        REQUIRE(found != after.end());
        CHECK(found->second == identity);
      }
    }
    const Said last = Running(command(study, out, true)).wait();
    INFO(last.err);
    CHECK(last.code == undisturbed.code);
    check_same(whole, out);
    CHECK_FALSE(std::filesystem::exists(out + ".d"));
    INFO("ended before the axe: " << ended);
    CHECK(last.out == run({"report", whole, "--text"}).out);
  }
  CHECK(kills >= kills_asked());
  CHECK(after_parts > kills / 4);  // many of them met work that was finished before
}
