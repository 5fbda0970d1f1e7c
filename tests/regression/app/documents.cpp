// The commands of the tutorial and the how-to pages do what they say there: each is run as it stands, page by page.

#include <filesystem>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "tests/catch.hpp"
#include "tests/program.hpp"

using namespace rackwright::test;

namespace {

/// Lines indented by four that begin with the program's name, or write a small file.
std::vector<std::string> commands_of(const std::string& page) {
  std::vector<std::string> commands;
  std::istringstream lines(whole_file(page));
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("    rackwright ") && !line.starts_with("    printf ")) continue;
    commands.push_back(line.substr(4));
    while (line.ends_with('\\') && std::getline(lines, line)) commands.back() += "\n" + line;  // the shell joins them
  }
  return commands;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) text.replace(at, from.size(), to);
  return text;
}

/// `quicker`: fewer points and replications than the page asks for.
void follow(const std::string& page, const std::vector<std::pair<std::string, std::string>>& quicker = {}) {
  const Folder folder;
  std::filesystem::create_directory_symlink(std::filesystem::path(RACKWRIGHT_SOURCE_DIR) / "scenarios", folder.path() / "scenarios");
  const auto commands = commands_of(std::string(RACKWRIGHT_SOURCE_DIR) + "/docs/" + page);
  REQUIRE_FALSE(commands.empty());
  for (std::string command : commands) {
    for (const auto& [from, to] : quicker) command = replaced(command, from, to);
    const Said said = Running({"sh", "-c", "cd '" + folder.path().string() + "' && PATH='" RACKWRIGHT_BINARY_DIR "':$PATH && " + command}).wait();
    INFO(page << ": " << command << "\n" << said.out << said.err);
    // A harder target may be beyond every design of the page's grid: the page says so.
    CHECK((said.code == 0 || (said.code == 3 && contains(command, "size98.h5"))));
    CHECK(((said.out + said.err).empty() == command.starts_with("printf")));
  }
}

}  // namespace

TEST_CASE("documents: the tutorial's commands run") { follow("tutorial.md"); }
TEST_CASE("documents: sizing before building runs") { follow("how-to/size-before-building.md"); }
TEST_CASE("documents: comparing two lots runs") { follow("how-to/compare-two-lots.md"); }
TEST_CASE("documents: sweeping on a workstation runs") {
  follow("how-to/sweep.md", {{"--replications 100", "--replications 4"}, {"--replications 50", "--replications 4"},
                             {"--points 1000", "--points 32"}, {"--points 512", "--points 16"}});
}
TEST_CASE("documents: logging trays and fitting runs") { follow("how-to/log-trays-and-fit.md"); }
TEST_CASE("documents: running the line runs") { follow("how-to/run-the-line.md"); }
TEST_CASE("documents: the page on uncertainty runs") { follow("uncertainty.md"); }

TEST_CASE("documents: links between pages lead somewhere") {
  namespace fs = std::filesystem;
  const fs::path docs = fs::path(RACKWRIGHT_SOURCE_DIR) / "docs";
  for (const char* page : {"tutorial.md", "cautions.md", "uncertainty.md", "changelog.md", "how-to/size-before-building.md",
                           "how-to/compare-two-lots.md", "how-to/log-trays-and-fit.md", "models/tray-fit.md", "how-to/run-the-line.md"}) {
    const std::string text = whole_file((docs / page).string());
    for (std::size_t at = text.find("]("); at != std::string::npos; at = text.find("](", at + 1)) {
      const std::string target = text.substr(at + 2, text.find(')', at) - at - 2);
      if (target.starts_with("http")) continue;
      INFO(page << " links to " << target);
      CHECK(fs::exists((docs / page).parent_path() / target));
    }
  }
}
