// Whatever a keeper may write, in any combination, is played to the end or refused in words: drawn from THE key table.
// RACKWRIGHT_LONG=1 (scripts/test --long) draws 10,000 scenarios in place of some hundreds.

#include <cstdlib>
#include <fstream>

#include "tests/catch.hpp"
#include "tests/drafts/draw.hpp"
#include "tests/drafts/played.hpp"
#include "tests/drafts/shrink.hpp"

using namespace rackwright;
using test::Draft;

namespace {

/// What fails, in its shortest form, to be kept as a test.
std::string shortest(const Draft& draft, const std::string& fault) {
  const std::string head = fault.substr(0, 60);
  const Draft least = test::shrunk(draft, [&](const Draft& less) {
    const Reading reading = read_scenario(test::text_of(less));
    return reading.scenario && test::fault_of(*reading.scenario, 2).substr(0, 60) == head;
  });
  return fault + "\n" + test::text_of(least);
}

}  // namespace

TEST_CASE("random scenarios are played to the end") {
  const char* asked = std::getenv("RACKWRIGHT_DRAFTS");
  const int wanted = asked != nullptr ? std::atoi(asked) : std::getenv("RACKWRIGHT_LONG") != nullptr ? 10000 : 250;
  const char* trail = std::getenv("RACKWRIGHT_DRAFT_FILE");  // the draft under way, should the program end with it
  int played = 0;
  double slowest = 0.0;
  std::string slow;
  for (int i = 0; i < wanted; ++i) {
    const double stated[] = {0.03, 0.1, 0.3, 1.0};
    const double ends[] = {0.0, 0.3, 0.7};
    test::Drawer drawer(static_cast<unsigned>(i) + 1, {stated[i % 4], ends[i % 3], 60.0, i % 50 == 0 ? 40 : 4});
    Draft draft = drawer.draw();
    const auto scenario = test::settled(draft);
    if (!scenario) {
      const Problem left = read_scenario(test::text_of(draft)).problems.front();
      INFO("draft " << i + 1 << ": " << left.key << " " << left.value << " " << left.why);
      CHECK(scenario.has_value());
      continue;
    }
    if (trail != nullptr) std::ofstream(trail) << test::text_of(draft);
    std::string fault;
    const double seconds = test::seconds_of([&] { fault = test::fault_of(*scenario, 2); });
    if (seconds > slowest) {
      slowest = seconds;
      slow = test::text_of(draft);
    }
    if (!fault.empty()) {
      INFO("draft " << i + 1);
      INFO(shortest(draft, fault));
      CHECK(fault.empty());
    }
    ++played;
  }
  INFO("slowest " << slowest << " s:\n" << slow);
  CHECK(slowest < 10.0);
  CHECK(played == wanted);
  if (asked != nullptr) WARN("played " << played << ", slowest " << slowest << " s:\n" << slow);
}

TEST_CASE("a failing scenario shrinks to what makes it fail") {
  test::Drawer drawer(3, {1.0, 0.3, 60.0, 4});
  const auto states = [](const Draft& d, const char* key) {
    return std::any_of(d.begin(), d.end(), [&](const test::Statement& s) { return s.key == key; });
  };
  const auto both = [&](const Draft& d) { return states(d, "line.soak") && states(d, "growth"); };
  Draft draft = drawer.draw();
  for (int more = 0; more < 20 && !(both(draft) && draft.size() > 250); ++more) draft = drawer.draw();  // not every draft states both and much else
  REQUIRE(draft.size() > 250);
  REQUIRE(both(draft));
  const Draft least = test::shrunk(draft, both);
  CHECK(states(least, "line.soak"));
  CHECK(states(least, "growth"));
  // The group whose growth it is keeps what a group cannot do without, and what is always stated stays.
  INFO(test::text_of(least));
  CHECK(std::count_if(least.begin(), least.end(), [](const test::Statement& s) { return !s.needed; }) == 2);
  CHECK(std::count_if(least.begin(), least.end(), [](const test::Statement& s) { return !s.list.empty() && s.needed; }) == 3);
}
