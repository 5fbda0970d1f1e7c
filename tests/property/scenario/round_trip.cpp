// What is written reads back; what is read can be written.
#include <cmath>
#include <random>
#include <string>

#include <fmt/format.h>

#include "sim/scenario/key_table.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/names.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

Scenario sample_scenario() { return read_scenario(sample::every_list).scenario.value(); }

bool same(const Scenario& a, const Scenario& b) { return a == b; }  // keeps failure messages short

/// A random allowed text for a key; empty for kinds that name other things.
template <class T>
std::string random_text(const keys::Key<T>& key, std::mt19937& generator) {
  const double u = std::uniform_real_distribution<double>(0.02, 0.98)(generator);
  switch (key.kind) {
    case keys::Kind::real:
      return fmt::format("{} {}", key.least + u * (key.most - key.least), key.unit == "1" ? "" : key.unit);
    case keys::Kind::whole:
      return fmt::format("{}", static_cast<std::int64_t>(key.least + u * (std::min(key.most, 1e9) - key.least)));
    case keys::Kind::flag: return u < 0.5 ? "true" : "false";
    case keys::Kind::option: return std::string(key.options.at(generator() % key.options.size()));
    case keys::Kind::clock: return fmt::format("{:02}:{:02}", generator() % 24, generator() % 60);
    default: return "";
  }
}

/// Calls visit(dotted name, key) for every key a scenario answers to.
template <class Visit>
void for_each_key(Scenario& scenario, Visit&& visit) {
  for (const auto& key : keys::scenario_keys()) visit(key.name, key);
  keys::for_each_list([&](const auto& list) {
    const auto& items = list.items(scenario);
    for (std::size_t i = 0; i < items.size(); ++i) {
      const std::string head = fmt::format("{}.{}.", list.path, keys::item_label(items, i, list.name_of));
      for (const auto& key : list.keys()) visit(head + key.name, key);
    }
  });
}

}  // namespace

TEST_CASE("setting a key to what it says changes nothing, for every key") {
  const Scenario before = sample_scenario();
  int count = 0;
  Scenario walked = before;
  for_each_key(walked, [&](const std::string& name, const auto& key) {
    INFO(name);
    const auto text = get_key(before, name);
    if (!text) {
      CHECK(name == "climate.monthly_mean");  // only ever read
      return;
    }
    Scenario after = before;
    const auto problem = set_key(after, name, *text);
    INFO(*text << ": " << (problem ? problem->why : ""));
    CHECK_FALSE(problem.has_value());
    CHECK(same(after, before));
    CHECK((key.optional || *text != "none"));
    ++count;
  });
  CHECK(count > 300);
}

TEST_CASE("the same in US units, to the six digits people are shown") {
  Scenario us = sample_scenario();
  REQUIRE_FALSE(set_key(us, "units", "us"));
  Scenario walked = us;
  for_each_key(walked, [&](const std::string& name, const auto&) {
    const auto text = get_key(us, name);
    if (!text) return;
    Scenario after = us;
    INFO(name << " = " << *text);
    CHECK_FALSE(set_key(after, name, *text).has_value());
    CHECK(get_key(after, name) == text);
  });
}

TEST_CASE("any sound scenario reads back from its resolved text") {
  std::mt19937 generator(20260301);
  const Scenario start = sample_scenario();
  Scenario walked = start;
  int changed = 0, sound = 0;
  for_each_key(walked, [&](const std::string& name, const auto& key) {
    const std::string text = random_text(key, generator);
    if (text.empty()) return;
    Scenario scenario = start;
    const auto problem = set_key(scenario, name, text);
    INFO(name << " = " << text << ": " << (problem ? problem->why : ""));
    REQUIRE_FALSE(problem.has_value());
    ++changed;
    if (!check_scenario(scenario).empty()) return;  // allowed by itself, not with the rest
    ++sound;
    const Reading again = read_scenario(resolved_text(scenario));
    INFO((again.problems.empty() ? "" : again.problems.front().key + ": " + again.problems.front().why));
    REQUIRE(again.scenario.has_value());
    CHECK(same(*again.scenario, scenario));
    CHECK(resolved_text(*again.scenario) == resolved_text(scenario));
  });
  CHECK(changed > 280);
  CHECK(sound > changed * 3 / 4);
}

TEST_CASE("awkward names and texts survive") {
  Scenario s = sample_scenario();
  for (const std::string& text :
       {std::string("quote \" and \\ slash"), std::string("\xC3\x89t\xC3\xA9 # not a comment"), std::string()}) {
    REQUIRE_FALSE(set_key(s, "title", text));
    const Reading again = read_scenario(resolved_text(s));
    REQUIRE(again.scenario.has_value());
    CHECK(again.scenario->title == text);
  }
  CHECK(set_key(s, "title", "two\nlines").has_value());
  CHECK(set_key(s, "group.goats.name", "a.b").has_value());
  CHECK(set_key(s, "group.goats.name", "12").has_value());
}

TEST_CASE("damaged texts are refused or read, never fatal") {
  std::mt19937 generator(7);
  const std::string original = sample::every_list;
  int refused = 0;
  for (int round = 0; round < 1500; ++round) {
    std::string text = original;
    const int edits = 1 + static_cast<int>(generator() % 4);
    for (int e = 0; e < edits; ++e) {
      const std::size_t at = generator() % text.size();
      switch (generator() % 4) {
        case 0: text.erase(at, 1 + generator() % 12); break;
        case 1: text.insert(at, 1, static_cast<char>(generator() % 256)); break;
        case 2: text[at] = static_cast<char>(32 + generator() % 95); break;
        default: text.insert(at, text.substr(generator() % text.size(), 20)); break;
      }
    }
    Reading reading;
    REQUIRE_NOTHROW(reading = read_scenario(text));
    CHECK(reading.scenario.has_value() == reading.problems.empty());
    refused += reading.problems.empty() ? 0 : 1;
  }
  CHECK(refused > 500);
}

TEST_CASE("conversions there and back") {
  std::mt19937 generator(3);
  std::uniform_real_distribution<double> uniform(-50.0, 50.0);
  for (const auto& [a, b] : std::vector<std::pair<std::string, std::string>>{{"kg", "lb"},
                                                                             {"degC", "degF"},
                                                                             {"K", "degF"},
                                                                             {"L/h", "gal/h"},
                                                                             {"W/m2/K", "BTU/h/ft2/degF"},
                                                                             {"1/kg", "1/lb"}}) {
    for (int i = 0; i < 50; ++i) {
      const double x = uniform(generator);
      INFO(x << " " << a << " by way of " << b);
      CHECK(convert(convert(x, a, b), b, a) == Approx(x).epsilon(1e-12).margin(1e-11));
    }
  }
}
