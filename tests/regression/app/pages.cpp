// The generated reference pages say what the program says.

#include <fstream>
#include <sstream>

#include "tests/catch.hpp"
#include "tests/program.hpp"
#include "tests/paths.hpp"

using namespace rackwright::test;

TEST_CASE("pages: docs hold what describe prints") {
  const std::pair<const char*, const char*> pages[] = {{"scenario", "docs/scenario-format.md"}, {"models", "docs/evaluate.md"}};
  for (const auto& [topic, path] : pages) {
    std::ifstream file(std::string(RACKWRIGHT_SOURCE_DIR) + "/" + path);
    std::stringstream page;
    page << file.rdbuf();
    INFO("make it anew: rackwright describe " << topic << " > " << path);
    CHECK(page.str() == run({"describe", topic}).out);
  }
}
