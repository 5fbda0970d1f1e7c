// What the program makes for the shell: completion that completes, a manual page that names everything.

#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "sim/app/commands.hpp"
#include "sim/app/guide.hpp"
#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright;
using namespace rackwright::test;

namespace {

/// What bash would offer for the words typed so far, the last one unfinished.
std::string offered(const std::vector<std::string>& words) {
  const Folder folder;
  const std::string script = folder.write("completion", run({"describe", "completion-bash"}).out);
  std::string line = "source '" + script + "'; COMP_WORDS=(";
  for (const std::string& word : words) line += "'" + word + "' ";
  line += "); COMP_CWORD=" + std::to_string(words.size() - 1) + "; _rackwright; echo \"${COMPREPLY[@]}\"";
  const Said said = Running({"bash", "-c", line}).wait();
  INFO(said.err);
  REQUIRE(said.code == 0);
  return said.out;
}

}  // namespace

TEST_CASE("guide: bash completes commands, options, models and kinds") {
  CHECK(offered({"rackwright", "si"}) == "simulate size\n");
  CHECK(offered({"rackwright", "lot", "farm.toml", "--tr"}) == "--trial\n");
  CHECK(offered({"rackwright", "check", "--rep"}) == "\n");  // check takes no --replications
  CHECK(offered({"rackwright", "evaluate", "mou"}) == "mould-growth\n");
  CHECK(offered({"rackwright", "new", "--from", "ra"}) == "rabbits\n");
  CHECK(offered({"rackwright", "describe", "completion-b"}) == "completion-bash\n");
}

TEST_CASE("guide: every command and option is in the completions and the manual page") {
  const std::string zsh = app::zsh_completion(), manual = app::manual_page(), bash = app::bash_completion();
  CHECK(zsh.starts_with("#compdef rackwright\n"));
  CHECK(manual.starts_with(".TH RACKWRIGHT 1"));
  for (const app::Command& command : app::commands()) {
    INFO(command.name);
    CHECK(contains(zsh, "    " + std::string(command.name) + ")\n"));
    CHECK(contains(bash, "    " + std::string(command.name) + ") options="));
    CHECK(contains(manual, ".SS " + std::string(command.name)));
    const Said help = run({std::string(command.name), "--help"});
    for (const app::Option option : command.options) {
      const std::string name(app::option_name(option));
      INFO(name);
      CHECK(contains(zsh, "--" + name + "["));
      CHECK(contains(help.out, "--" + name));
    }
    for (const app::Example& example : app::examples(command.name)) CHECK(contains(help.out, std::string(example.line)));
  }
  // No line of the manual page may be taken for a macro that there is not.
  std::istringstream lines(manual);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with(".")) continue;
    const std::string macro = line.substr(0, line.find(' '));
    INFO(line);
    CHECK((macro == ".TH" || macro == ".SH" || macro == ".SS" || macro == ".TP" || macro == ".PP" || macro == ".EX" || macro == ".EE" ||
           macro == ".B" || macro == ".I"));
  }
}

TEST_CASE("guide: no colours and no control characters away from a terminal") {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"--help"}, {"check", shipped("minimal.toml")}, {"evaluate"}, {"lot", shipped("minimal.toml"), "--trial", "40/50"}}) {
    const Said said = run(words);
    CHECK((said.out + said.err).find('\x1b') == std::string::npos);
  }
  CHECK(contains(run({"--version"}).out, "(commit "));
}
