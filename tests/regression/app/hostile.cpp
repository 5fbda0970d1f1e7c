// What somebody may type by mistake or in malice: a clear message, the right exit code, nothing written, nothing
// overwritten.

#include <sys/stat.h>
#include <unistd.h>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  const auto at = text.find(what);
  if (at == std::string::npos) throw std::runtime_error("the scenario has no " + what);
  return text.replace(at, what.size(), with);
}

const std::string& minimal() {
  static const std::string text = whole_file(shipped("minimal.toml"));
  return text;
}

struct Hostile {
  std::string name, text;
  std::vector<std::string> says;
};

const std::string tiers = "tiers = 4", soak = "soak = \"10 h\"", trays = "trays_per_batch = 4";

// A watering network of the keeper's own: `pipes` between tank, foot and the four tiers.
std::string network(const std::string& pipes) {
  std::string text =
      "\n[[water.node]]\nname = \"tank\"\nkind = \"source\"\n[[water.node]]\nname = \"foot\"\nkind = \"junction\"\n";
  for (const char* tier : {"1", "2", "3", "4"})
    text += std::string("[[water.node]]\nname = \"t") + tier + "\"\nkind = \"tier\"\nheight = \"0.5 m\"\n";
  return minimal() + text + pipes;
}
std::string pipe(const std::string& from, const std::string& to) {
  return "[[water.pipe]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\n";
}

std::vector<Hostile> hostile() {
  const std::string watered = pipe("tank", "foot") + pipe("foot", "t1") + pipe("foot", "t2") + pipe("foot", "t3");
  const std::string herd =
      minimal().substr(minimal().find("[[group]]"), minimal().find("[room]") - minimal().find("[[group]]"));
  return {
      {"unknown key", replaced(minimal(), tiers, "teirs = 4"), {":6: ", "teirs", "did you mean", "tiers"}},
      {"unknown section", minimal() + "\n[rak]\ntiers = 3\n", {"rak"}},
      {"wrong dimension",
       replaced(minimal(), soak, "soak = \"3 kg\""),
       {":13: line.soak = \"3 kg\": ", "not a length of time"}},
      {"not a number", replaced(minimal(), soak, "soak = \"nan h\""), {"line.soak = \"nan h\"", "finite"}},
      {"infinite", replaced(minimal(), trays, "trays_per_batch = inf"), {"line.trays_per_batch"}},
      {"negative", replaced(minimal(), tiers, "tiers = -4"), {"rack.tiers = \"-4\"", "between 1 and 40"}},
      {"absurd", replaced(minimal(), tiers, "tiers = 10000"), {"rack.tiers = \"10000\"", "between 1 and 40"}},
      {"no herd", replaced(minimal(), herd, ""), {"group"}},
      {"nobody there", replaced(minimal(), herd, "[[group]]\nname = \"kids\"\nclass = \"goat-milking\"\ncount = 8\nration = \"1 kg\"\narrives_day = 400\n\n"), {"nobody wants fodder", "365 days"}},
      {"broken TOML", replaced(minimal(), tiers, "tiers = = 4"), {":6: "}},
      {"twice", replaced(minimal(), tiers, "tiers = 4\ntiers = 5"), {":7: "}},
      {"binary rubbish", std::string("\x00\xff\xfe\x01", 4) + minimal(), {}},
      {"empty file", "", {"group"}},
      {"water in a circle", network(watered + pipe("foot", "t4") + pipe("t4", "foot")), {"water.node"}},
      {"a tier no water reaches", network(watered), {"t4"}},
      {"nothing to choose from", minimal() + "\n[choose]\n\"rack.tiers\" = []\n", {"choose.rack.tiers"}},
      {"a choice of no key", minimal() + "\n[choose]\n\"rack.teirs\" = [3]\n", {"teirs", "did you mean"}},
      {"a choice that does not fit", minimal() + "\n[choose]\n\"rack.tiers\" = [3, 10000]\n", {"10000"}},
  };
}

}  // namespace

TEST_CASE("hostile: a wrong scenario is refused by every command, and nothing is written") {
  for (const Hostile& h : hostile()) {
    INFO(h.name);
    const Folder folder;
    const std::string file = folder.write("farm.toml", h.text);
    for (const auto& words :
         std::vector<std::vector<std::string>>{{"check", file},
                                               {"simulate", file, "--replications", "2", "--out", folder / "out.h5"},
                                               {"size", file, "--out", folder / "out.h5"},
                                               {"journal", file, "--replication", "0"}}) {
      const Said said = run(words);
      INFO(words[0] << ": " << said.err);
      CHECK(said.code == 2);
      CHECK(said.out.empty());
      CHECK(contains(said.err, "farm.toml"));
      for (const std::string& part : h.says) CHECK(contains(said.err, part));
      CHECK(folder.names() == std::vector<std::string>{"farm.toml"});
    }
  }
}

TEST_CASE("hostile: standard error that cannot be written costs neither a result nor its exit code") {
  const Folder folder;
  const std::string program = RACKWRIGHT_BINARY_DIR "/rackwright ", farm = shipped("minimal.toml");
  const auto ended = [](const std::string& command) { return Running({"sh", "-c", command}).wait().code; };
  CHECK(ended(program + "check nowhere.toml 2>/dev/full") == 2);
  CHECK(ended(program + "check nowhere.toml 2>&-") == 2);
  CHECK(ended(program + "check " + farm + " >/dev/full 2>/dev/full") == 1);
  const std::string out = folder / "runs.h5";
  CHECK(ended(program + "simulate " + farm + " --replications 2 --threads 1 --out " + out + " 2>/dev/full") == 0);
  CHECK(ended(program + "report " + out + " --out " + folder / "runs.html" + " 2>/dev/full") == 0);
  CHECK(std::filesystem::exists(folder / "runs.html"));
  // Closed, it must not lend its number to the result: what is said would stand in that.
  const std::string closed = folder / "closed.h5";
  CHECK(ended(program + "simulate " + farm + " --replications 2 --threads 1 --out " + closed + " 2>&-") == 0);
  CHECK(ended(program + "report " + closed + " --text") == 0);
  CHECK(ended(program + "simulate " + farm + " --replications 2 --threads 1 --force --out " + closed + " >&- 2>&-") == 1);
  CHECK(ended(program + "report " + closed + " --text") == 0);
}

TEST_CASE("hostile: all problems of a scenario are told at once, each with its line") {
  const Folder folder;
  const std::string text = replaced(replaced(replaced(minimal(), tiers, "teirs = 4"), soak, "soak = \"3 kg\""), trays,
                                    "trays_per_batch = -1");
  const Said said = run({"check", folder.write("farm.toml", text), "--set", "rack.tray_width=1 h"});
  CHECK(said.code == 2);
  for (const char* part : {"teirs", ":13: line.soak", ":11: line.trays_per_batch", "rack.tray_width"}) {
    INFO(part << " in " << said.err);
    CHECK(contains(said.err, part));
  }
}

TEST_CASE("hostile: settings of the command line are judged like the file") {
  const std::string farm = shipped("minimal.toml");
  for (const auto& [words, part] :
       std::vector<std::pair<std::vector<std::string>, std::string>>{{{"--set", "rack.teirs=4"}, "rack.tiers"},
                                                                     {{"--set", "line.soak=3 kg"}, "line.soak"},
                                                                     {{"--years", "-1"}, "--years -1"},
                                                                     {{"--years", "1e9"}, "--years"},
                                                                     {{"--set", "rack.tiers"}, "KEY=VALUE"}}) {
    std::vector<std::string> all{"check", farm};
    all.insert(all.end(), words.begin(), words.end());
    const Said said = run(all);
    INFO(said.err);
    CHECK(said.code == 2);
    CHECK(contains(said.err, part));
  }
  const Folder folder;
  for (const char* number : {"0", "-3", "1.5", "many", "nan", "99999999999"}) {
    const Said said = run({"simulate", farm, "--out", folder / "out.h5", "--replications", number});
    INFO(said.err);
    CHECK(said.code == 2);
    CHECK(contains(said.err, "run.replications"));
  }
  CHECK(folder.names().empty());
}

TEST_CASE("hostile: files that are no scenario") {
  const Folder folder;
  CHECK(contains(run({"check", folder / "none.toml"}).err, "there is no such file"));
  CHECK(run({"check", folder / "none.toml"}).code == 2);
  CHECK(contains(run({"check", folder.path().string()}).err, "is a folder"));
  CHECK(run({"check", "/dev/zero"}).code == 2);
  CHECK(run({"check"}).code == 2);
  CHECK(run({"check", shipped("minimal.toml"), shipped("minimal.toml")}).code == 2);
  if (geteuid() != 0) {
    const std::string secret = folder.write("secret.toml", minimal());
    chmod(secret.c_str(), 0);
    CHECK(contains(run({"check", secret}).err, "cannot be read"));
  }
}

TEST_CASE("hostile: outputs that may not or cannot be written") {
  const Folder folder;
  const std::string farm = folder.write("farm.toml", minimal()), kept = folder.write("kept.h5", "do not touch");
  const auto simulate = [&](const std::string& out, bool force = false) {
    std::vector<std::string> words{"simulate", farm, "--replications", "4", "--out", out};
    if (force) words.push_back("--force");
    return run(words);
  };
  CHECK(simulate(kept).code == 2);
  CHECK(contains(simulate(kept).err, "--force"));
  CHECK(whole_file(kept) == "do not touch");
  CHECK(run({"size", farm, "--set", "run.replications=2", "--out", kept}).code == 2);
  CHECK(run({"simulate", farm}).code == 2);
  CHECK(simulate("").code == 2);
  CHECK(simulate(folder / "no/such/folder.h5").code == 2);
  CHECK(simulate(folder.path().string(), true).code == 2);
  CHECK(simulate("/proc/nowhere.h5").code == 2);
  CHECK(simulate(farm + "/below.h5").code == 2);
  CHECK(simulate(farm, true).code == 2);
  CHECK(whole_file(farm) == minimal());
  CHECK(whole_file(kept) == "do not touch");
  CHECK(folder.names().size() == 2);
  CHECK(simulate(kept, true).code == 0);
  CHECK(whole_file(kept).substr(1, 3) == "HDF");
}

// A limit on file size stands in for a full disk: the write fails in the same place with another error number.
TEST_CASE("hostile: no room for the result") {
  const Folder folder;
  const std::string kept = folder.write("kept.h5", "do not touch");
  for (const std::string& out : {folder / "out.h5", kept}) {
    const Said said = Running({"bash", "-c", "ulimit -f 16; exec \"$0\" \"$@\"", program(), "simulate",
                               shipped("minimal.toml"), "--quiet", "--replications", "600", "--force", "--out", out})
                          .wait();
    INFO(said.err);
    CHECK(said.code == 1);
    CHECK(contains(said.err, "was not written"));
  }
  CHECK(folder.names() == std::vector<std::string>{"kept.h5"});
  CHECK(whole_file(kept) == "do not touch");
}

TEST_CASE("hostile: files that are no result") {
  const Folder folder;
  const std::string text = folder.write("text.h5", "this is no HDF5 file");
  for (const std::string& path : {text, folder / "none.h5", folder.path().string(), shipped("minimal.toml")}) {
    const Said said = run({"report", path, "--text"});
    INFO(path << ": " << said.err);
    CHECK(said.code == 2);
    CHECK(said.out.empty());
    CHECK_FALSE(said.err.empty());
  }
  CHECK(run({"report", text}).code == 2);
}
