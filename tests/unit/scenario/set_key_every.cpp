// Every key there is, of every list: what --set, [choose], --vary and the searches of studies rely on.
#include <string>
#include <type_traits>
#include <variant>

#include "sim/scenario/key_number.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Scenario with_every_list() { return read_scenario(sample::every_list).scenario.value(); }

}  // namespace

TEST_CASE("what get_key tells of a key set_key takes back, and nothing has changed") {
  const Scenario s = with_every_list();
  const std::string before = resolved_text(s);
  std::size_t told = 0;
  for (const std::string& name : keys::all_key_names(s)) {
    const auto text = get_key(s, name);
    if (!text) continue;
    CAPTURE(name, *text);
    Scenario copy = s;
    const auto problem = set_key(copy, name, *text);
    CHECK_FALSE(problem.has_value());
    CHECK(get_key(copy, name) == text);
    CHECK(resolved_text(copy) == before);
    ++told;
  }
  CHECK(told > 400);
}

TEST_CASE("a number lands in the key it is meant for, at both ends of its range and not beyond") {
  const Scenario s = with_every_list();
  std::size_t numbers = 0;
  for (const std::string& name : keys::all_key_names(s)) {
    const auto facts = key_facts(s, name);
    REQUIRE(facts.has_value());
    if (!facts->number) continue;
    ++numbers;
    for (const double end : {facts->least, facts->most}) {
      CAPTURE(name, end);
      Scenario copy = s;
      if (set_number(copy, name, end).has_value()) continue;  // fits its range, not the rest of the scenario
      const auto text = get_key(copy, name);
      if (!text) continue;  // another way to state other keys
      const auto read = read_number(copy, name, *text);
      REQUIRE(std::holds_alternative<double>(read));
      CHECK(std::get<double>(read) == Approx(end).epsilon(1e-12));
    }
    const double beyond = facts->most + std::max(1.0, std::abs(facts->most));
    Scenario copy = s;
    const auto problem = set_number(copy, name, beyond);
    CAPTURE(name, beyond);
    REQUIRE(problem.has_value());
    CHECK(problem->why.starts_with("must be between "));
    CHECK(resolved_text(copy) == resolved_text(s));
    CHECK(std::holds_alternative<Problem>(read_number(s, name, "plenty")));
  }
  CHECK(numbers > 300);
}

TEST_CASE("an entry or key that is not there is nobody's, in every list") {
  const Scenario s = with_every_list();
  keys::for_each_list([&](const auto& list) {
    const std::string path(list.path), key = list.keys().front().name;
    Scenario has = s;
    const std::size_t entries = list.items(has).size();
    REQUIRE(entries > 0);
    CHECK(key_facts(s, path + ".1." + key).has_value());
    CHECK(key_facts(s, path + "." + std::to_string(entries) + "." + key).has_value());
    for (const std::string& name : {path + ".0." + key, path + "." + std::to_string(entries + 1) + "." + key, path + ".nobody." + key,
                                    path + ".." + key, path + ".1", path + ".1.", path + ".1.no_such_key", path}) {
      CAPTURE(name);
      CHECK_FALSE(get_key(s, name).has_value());
      CHECK_FALSE(key_facts(s, name).has_value());
      for (const std::string& asked : {name, "choose." + name}) {
        Scenario copy = s;
        const auto problem = set_key(copy, asked, "1");
        REQUIRE(problem.has_value());
        CHECK(problem->why == "is not a known key");
        CHECK(resolved_text(copy) == resolved_text(s));
      }
    }
    Scenario copy = s;
    CHECK_FALSE(set_key(copy, "choose." + path + ".1." + key, "a, b").has_value());
    CHECK(copy.choose.choices.back().key == path + ".1." + key);
    CHECK(copy.choose.choices.back().values == std::vector<std::string>{"a", "b"});
  });
}

TEST_CASE("values of a choice given again take the place of those before") {
  Scenario s = with_every_list();
  const std::size_t choices = s.choose.choices.size();
  REQUIRE_FALSE(set_key(s, "choose.line.soak", "[\"6 h\", '9 h']").has_value());
  REQUIRE(s.choose.choices.size() == choices);
  for (const Choice& choice : s.choose.choices) {
    if (choice.key == "line.soak") CHECK(choice.values == std::vector<std::string>{"6 h", "9 h"});
    if (choice.key == "line.days_on_rack") CHECK(choice.values == std::vector<std::string>{"7", "8"});
  }
}

TEST_CASE("a typed value is text that a file could hold") {
  Scenario s = with_every_list();
  CHECK_FALSE(set_key(s, "title", "Ziegen, Hühner, Schafe").has_value());
  CHECK(s.title == "Ziegen, Hühner, Schafe");
  const auto cut = set_key(s, "title", "H\xC3");  // half a letter
  REQUIRE(cut.has_value());
  CHECK(cut->why == "is not text in UTF-8");
  CHECK(s.title == "Ziegen, Hühner, Schafe");
}
