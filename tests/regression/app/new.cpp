// `rackwright new` as a stranger would run it: from options, at a terminal, and with answers that are none.

#include <poll.h>
#include <pty.h>
#include <csignal>
#include <unistd.h>

#include <string>
#include <vector>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

/// Runs the program at a pseudo-terminal and types the lines; what it showed, its own and the echo.
Said at_terminal(const std::vector<std::string>& words, const std::string& typed) {
  int master = 0;
  const pid_t child = forkpty(&master, nullptr, nullptr, nullptr);
  REQUIRE(child >= 0);
  if (child == 0) {
    std::vector<std::string> all = words;
    all.insert(all.begin(), program());
    std::vector<char*> argv;
    for (std::string& word : all) argv.push_back(word.data());
    argv.push_back(nullptr);
    execv(argv[0], argv.data());
    _exit(127);
  }
  // Typed once it has asked: before that the terminal is not yet the program's. A minute of silence ends it.
  Said said;
  char buffer[4096];
  bool sent = false;
  while (true) {
    pollfd ready{master, POLLIN, 0};
    if (poll(&ready, 1, 60'000) <= 0) kill(child, SIGKILL);
    const ssize_t n = read(master, buffer, sizeof buffer);
    if (n <= 0) break;
    said.out.append(buffer, static_cast<std::size_t>(n));
    if (sent || !contains(said.out, "]")) continue;
    sent = write(master, typed.data(), typed.size()) == static_cast<ssize_t>(typed.size());
    REQUIRE(sent);
  }
  close(master);
  int status = 0;
  waitpid(child, &status, 0);
  said.code = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
  return said;
}

}  // namespace

TEST_CASE("new: writes what check accepts, and never over what is there") {
  const Folder folder;
  const std::string path = folder / "farm.toml";
  for (const char* kind : {"goats", "hens", "sheep", "cows", "rabbits", "mixed"}) {
    const Said said = run({"new", "--from", kind, path, "--force"});
    INFO(kind << said.err);
    REQUIRE(said.code == 0);
    CHECK(said.out.empty());
    CHECK(run({"check", path, "--quiet"}).code == 0);
  }
  const std::string before = whole_file(path);
  const Said refused = run({"new", "--from", "goats", path});
  CHECK(refused.code == 2);
  CHECK(contains(refused.err, "exists"));
  CHECK(whole_file(path) == before);
  CHECK(folder.names() == std::vector<std::string>{"farm.toml"});
  CHECK(run({"new", "-", "--from", "hens"}).out.find("laying-hen") != std::string::npos);
}

TEST_CASE("new: options answer the questions, all that is wrong with them is told at once") {
  const Folder folder;
  const Said said = run({"new", folder / "a.toml", "--units", "us, USD", "--animals", "30 goats at 3 lb", "--grain",
                         "barley at 11 / 50 lb", "--weather", "40 and 82 degF", "--hours", "3", "--place", "shed"});
  INFO(said.err);
  REQUIRE(said.code == 0);
  const std::string text = whole_file(folder / "a.toml");
  for (const char* part : {"units = \"us\"", "currency = \"USD\"", "count = 30", "ration = \"3 lb\"", "\"11 / 50 lb\"", "\"61 degF\""})
    CHECK(contains(text, part));
  CHECK(run({"check", folder / "a.toml"}).code == 0);

  const Said bad = run({"new", folder / "b.toml", "--animals", "5 dragons", "--place", "castle"});
  CHECK(bad.code == 2);
  CHECK(contains(bad.err, "--animals"));
  CHECK(contains(bad.err, "--place"));
  const Said nowhere = run({"new", folder / "no/b.toml", "--from", "goats"}), long_name = run({"new", folder / std::string(300, 'a'), "--from", "goats"});
  CHECK(nowhere.code == 2);
  CHECK(contains(nowhere.err, "no/b.toml: cannot be written: No such file or directory"));
  CHECK(long_name.code == 2);
  CHECK(contains(long_name.err, "cannot be written: File name too long"));
  CHECK(run({"new", folder.path().string()}).code == 2);
  CHECK(run({"new"}).code == 2);
  CHECK(run({"new", folder / "b.toml", "--from", "dragon"}).code == 2);
  CHECK(folder.names() == std::vector<std::string>{"a.toml"});
  const Said hurried = run({"new", folder / "c.toml", "--animals", "40 goats at 1 kg", "--hours", "20 min"});
  CHECK(hurried.code == 0);
  CHECK_FALSE(contains(hurried.err, "is taken for the mean"));
  const Said hot = run({"new", folder / "d.toml", "--animals", "9 goats", "--weather", "3 and 41 degC"});
  CHECK(hot.code == 0);
  CHECK(contains(hot.err, "Mind: 41 degC is taken for the mean of day and night over the hottest month"));
  CHECK(contains(hurried.err, "Mind: the line as first drawn takes about 22.2 minutes a day, and you have 20."));
}

TEST_CASE("new: what is fed for hay costs by its dry matter, and a ton is asked for by its name") {
  const Folder folder;
  // Price over dry matter of what is bought, by hand: 0.2 / 0.88, 0.15 / 0.55, 60 / 1000 / 0.3, 0.05 / 0.18.
  const std::pair<const char*, const char*> feeds[] = {{"hay at 0.2 /kg", "hay (0.227 EUR/kg)"}, {"haylage at 0.15 /kg", "hay (0.273 EUR/kg)"}, {"silage at 60 / t", "hay (0.200 EUR/kg)"},
                                                       {"fresh grass at 0.05 /kg", "hay (0.278 EUR/kg)"}};
  for (const auto& [eats, price] : feeds) {
    INFO(eats);
    REQUIRE(run({"new", folder / "eats.toml", "--force", "--from", "goats", "--eats", eats}).code == 0);
    const Said said = run({"simulate", folder / "eats.toml", "--force", "--quiet", "--replications", "2", "--out", folder / "eats.h5"});
    std::string flat;
    for (const char c : said.out)
      if (c != '\n' && (c != ' ' || flat.empty() || flat.back() != ' ')) flat += c;
      else if (c == '\n' && !flat.empty() && flat.back() != ' ') flat += ' ';
    INFO(flat);
    CHECK(contains(flat, price));
  }
  for (const std::vector<std::string>& ton : {std::vector<std::string>{"new", folder / "b.toml", "--eats", "hay at 180 / ton"}, {"lot", folder / "eats.toml", "--trial", "46/50", "--price", "300 / ton"},
                                             {"check", folder / "eats.toml", "--set", "grain.barley.price=300 / ton"}, {"evaluate", "dairy-intake", "weight=0.6 tons", "milk=20 kg"}}) {
    const Said said = run(ton);
    INFO(ton.front() << said.err);
    CHECK(said.code == 2);
    CHECK(contains(said.err, "does not say which ton: write t for 1000 kg"));
  }
}

TEST_CASE("new: asks at a terminal, asks again where it cannot read the answer, and takes Enter") {
  const Folder folder;
  const Said said = at_terminal({"new", folder / "t.toml"},
                                "us, USD\n5 dragons\n8 goats at 3 lb and 20 hens\nhay at 0.12\n\nshed\n38 and 80\n2\n20 x 10 in\n");
  INFO(said.out);
  REQUIRE(said.code == 0);
  CHECK(contains(said.out, "no ration is known for \"dragons\""));
  const std::string text = whole_file(folder / "t.toml");
  for (const char* part : {"count = 8", "class = \"laying-hen\"", "\"0.12 /lb\"", "tray_length = \"20 in\"", "\"shed\""})
    CHECK(contains(text, part));
  CHECK(run({"check", folder / "t.toml"}).code == 0);
}

TEST_CASE("new: answers that stop, or never make sense, leave nothing behind") {
  const Folder folder;
  CHECK(at_terminal({"new", folder / "t.toml"}, "metric\n12 goats\n\x04").code == 2);
  CHECK(at_terminal({"new", folder / "t.toml"}, "\x03").code == -SIGINT);
  const Said stubborn = at_terminal({"new", folder / "t.toml"}, "\n?\n?\n?\n?\n?\n");
  CHECK(stubborn.code == 2);
  CHECK(at_terminal({"new", folder / "t.toml"}, std::string("\n12 goats\x1b[31m at 1 kg\n") + std::string(400, 'x') + "\n?\n?\n?\n").code == 2);
  CHECK(folder.names().empty());
}

TEST_CASE("new: size finds a rack for what it wrote") {
  const Folder folder;
  const std::vector<std::vector<std::string>> farms{
      {"--from", "sheep"}, {"--animals", "6 goats at 3 lb, 30 hens", "--units", "us, USD", "--weather", "35 and 80 degF"}};
  for (const auto& words : farms) {
    std::vector<std::string> all{"new", folder / "f.toml", "--force"};
    all.insert(all.end(), words.begin(), words.end());
    REQUIRE(run(all).code == 0);
    const Said said = run({"size", folder / "f.toml", "--out", folder / "f.h5", "--force", "--quiet"});
    INFO(said.out << said.err);
    CHECK(said.code == 0);
    CHECK(contains(said.out, "Recommended"));
  }
}
