// Progress at a terminal: a bar drawn over itself, and a line of its own when it is through.
#include "sim/app/progress.hpp"

#include <cstdio>
#include <pty.h>
#include <string>
#include <unistd.h>

#include "tests/catch.hpp"

using rackwright::app::Progress;

namespace {

/// What is shown of those steps where standard error is a terminal.
template <class Steps>
std::string at_terminal(bool quiet, const Steps& steps) {
  int master = -1, terminal = -1;
  REQUIRE(openpty(&master, &terminal, nullptr, nullptr, nullptr) == 0);
  const int before = dup(STDERR_FILENO);
  std::fflush(stderr);
  dup2(terminal, STDERR_FILENO);
  {
    Progress progress(quiet);
    steps(progress);
  }
  std::fputs("#", stderr);  // an end to read up to
  std::fflush(stderr);
  dup2(before, STDERR_FILENO);
  close(before);
  close(terminal);
  std::string shown;
  for (char c = 0; c != '#' && read(master, &c, 1) == 1;) shown += c;
  close(master);
  return shown;
}

}  // namespace

TEST_CASE("progress: at a terminal a bar as long as the work done, told to be through, and nothing where quiet is asked for") {
  const auto work = [](Progress& progress) {
    progress.show("designs", 0, 4);
    progress.show("designs", 4, 4);
  };
  const std::string bar = at_terminal(false, work);
  CHECK(bar.find("\r\033[Kdesigns [" + std::string(30, '=') + "] 4 of 4") != std::string::npos);
  CHECK(bar.find("\n") != std::string::npos);
  CHECK(at_terminal(true, work) == "#");
  CHECK(at_terminal(false, [](Progress& progress) { progress.show("designs", 1, 4); }) == "#");  // what takes no time needs no bar
}
