// Every key at its least and its greatest value, each pair of keys in every combination of the two; and just outside.

#include <cstdlib>
#include <set>

#include "tests/catch.hpp"
#include "tests/drafts/draw.hpp"
#include "tests/drafts/played.hpp"

using namespace rackwright;
using test::Draft;
using test::Statement;

namespace {

/// A key at one of its ends: "group.count" and 0 for the least.
std::string end_of(const Statement& s) { return fmt::format("{}{}{}:{}", s.list, s.list.empty() ? "" : ".", s.key, s.level); }

/// Which pairs of ends have stood in one scenario that was played or refused in words.
class Pairs {
 public:
  void add(const Draft& draft) {
    std::vector<std::size_t> here;
    for (const Statement& s : draft) {
      if (s.level < 0) continue;
      here.push_back(number(end_of(s)));
    }
    for (const std::size_t a : here) {
      for (const std::size_t b : here) met_.insert({std::min(a, b), std::max(a, b)});
    }
  }
  [[nodiscard]] std::size_t ends() const { return names_.size(); }
  [[nodiscard]] std::size_t met() const { return met_.size(); }
  [[nodiscard]] bool met(const std::string& a, const std::string& b) {
    const std::size_t i = number(a), j = number(b);
    return met_.contains({std::min(i, j), std::max(i, j)});
  }
  [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

 private:
  std::size_t number(const std::string& name) {
    const auto found = std::find(names_.begin(), names_.end(), name);
    if (found != names_.end()) return static_cast<std::size_t>(found - names_.begin());
    names_.push_back(name);
    return names_.size() - 1;
  }
  std::vector<std::string> names_;
  std::set<std::pair<std::size_t, std::size_t>> met_;
};

std::string key_part(const std::string& end) { return end.substr(0, end.rfind(':')); }

}  // namespace

TEST_CASE("keys at their ends, two by two, are played or refused in words") {
  const bool whole_test = std::getenv("RACKWRIGHT_LONG") != nullptr;
  const int rows = whole_test ? 1500 : 300;
  Pairs played, tried;
  int refusals = 0;
  for (int i = 0; i < rows; ++i) {
    test::Drawer drawer(static_cast<unsigned>(i) + 7000, {i % 2 == 0 ? 1.0 : 0.5, 1.0, whole_test ? 30.0 : 8.0, 2});
    Draft draft = drawer.draw();
    tried.add(draft);
    const Reading reading = read_scenario(test::text_of(draft));
    for (const Problem& problem : reading.problems) CHECK_FALSE(problem.why.empty());
    refusals += reading.problems.empty() ? 0 : 1;
    const auto scenario = test::settled(draft);
    INFO("row " << i);
    REQUIRE(scenario);
    INFO(test::text_of(draft));
    CHECK(test::fault_of(*scenario, 1) == "");
    played.add(draft);
  }
  // Pairs of different keys that never stood together even in a refused scenario.
  std::size_t missing = 0, all = 0, unplayed = 0;
  std::string which;
  const auto& names = tried.names();
  for (std::size_t a = 0; a < names.size(); ++a) {
    for (std::size_t b = a + 1; b < names.size(); ++b) {
      if (key_part(names[a]) == key_part(names[b])) continue;
      ++all;
      if (!tried.met(names[a], names[b]) && ++missing <= 20) which += names[a] + " with " + names[b] + "\n";
      unplayed += played.met(names[a], names[b]) ? 0 : 1;
    }
  }
  CHECK(names.size() > 500);
  INFO(rows << " rows, " << refusals << " refused as drawn, " << all << " pairs, " << missing << " never met, " << unplayed << " never played");
  if (whole_test) {
    INFO(which);
    CHECK(missing == 0);
    WARN(rows << " rows, " << refusals << " refused as drawn, " << all << " pairs, " << missing << " never met, " << unplayed << " never played");
  }
  CHECK(static_cast<double>(missing) < 0.003 * static_cast<double>(all));
  CHECK(static_cast<double>(unplayed) < 0.15 * static_cast<double>(all));
}

TEST_CASE("scenarios that were found to break the program are played or refused") {
  const std::string herd = "[[grain]]\nname = \"g\"\n[[group]]\nname = \"h\"\nclass = \"turkey\"\ncount = 9\n";
  for (const std::string& found : std::vector<std::string>{
           // A dew point below where the law of vapour pressure ends.
           "climate.mean = \"-30 degC\"\nclimate.amplitude = \"0 K\"\nclimate.dew_depression_mean = \"40 K\"\n"
           "climate.dew_depression_amplitude = \"30 K\"\nrun.length = \"4 d\"\n" + herd,
           // Emitters that pass alike under any head, more of them than the pump can feed.
           "rack.tiers = 40\nwater.pump_shutoff = \"100 m\"\nwater.pump_full_flow = \"100000 L/h\"\nwater.emitter_flow = \"2000 L/h\"\n"
           "water.emitter_exponent = 0\nwater.riser_diameter = \"0.3 m\"\n" + herd,
           // A species that does not grow at the temperature growth is counted by.
           "[[species]]\nname = \"s\"\ngrowth.base = \"20 degC\"\ngrowth.optimum = \"45 degC\"\ngrowth.ceiling = \"55 degC\"\n"
           "[[grain]]\nname = \"k\"\nspecies = \"s\"\n[[group]]\nname = \"h\"\nclass = \"turkey\"\ncount = 9\n",
           // One that does not germinate at the temperature vigour is counted by.
           "[[species]]\nname = \"s\"\ngermination.decline = \"10 degC\"\ngermination.ceiling = \"15 degC\"\n"
           "[[grain]]\nname = \"k\"\nspecies = \"s\"\n[[group]]\nname = \"h\"\nclass = \"turkey\"\ncount = 9\n",
           // One that hardly grows there and races at its best.
           "run.start = 2025-11-02\nrun.length = \"16 d\"\n[[species]]\nname = \"s\"\ngrowth.optimum = \"37.54 degC\"\ngrowth.curvature = 8\n"
           "[[grain]]\nname = \"k\"\nspecies = \"s\"\n[[group]]\nname = \"h\"\nclass = \"ram\"\ncount = 4622\n",
           // A room that takes years to follow the cold: next to no heat moves, and what it holds is below the tables' coldest.
           "climate.mean = \"-30 degC\"\nclimate.anomaly_memory = 0.99\nroom.heat_capacity = \"10000000 kJ/K\"\nroom.shell_area = \"2 m2\"\n"
           "room.shell = \"0.05 W/m2/K\"\nroom.insulation = \"1 m\"\nroom.air_changes = 0\nroom.solar_aperture = \"0 m2\"\nroom.heater = \"0 W\"\n"
           "run.warm_up_length = \"1440 h\"\nrun.length = \"3 d\"\n" + herd,
           herd}) {
    INFO(found);
    const Reading reading = read_scenario(found);
    if (reading.scenario) CHECK(test::fault_of(*reading.scenario, 2) == "");
    else CHECK_FALSE(reading.problems.front().why.empty());
  }
}

TEST_CASE("a value just outside its range is refused by name, for every key that has one") {
  const std::string base = "[[grain]]\nname = \"barley\"\n[[group]]\nname = \"goats\"\nclass = \"goat-milking\"\ncount = 6\n";
  int tried = 0;
  const auto refused = [&](const std::string& text, const std::string& name) {
    const Reading reading = read_scenario(text);
    INFO(text);
    CHECK_FALSE(reading.scenario);
    const bool named = std::any_of(reading.problems.begin(), reading.problems.end(),
                                   [&](const Problem& p) { return p.key.ends_with(name) && p.why.starts_with("must be "); });
    CHECK(named);
    ++tried;
  };
  const auto outside = [&](const auto& key, const auto& text_with) {
    if (key.kind == keys::Kind::real) {
      const double step = 1e-6 * std::max(1.0, std::abs(key.most));
      const double low = 1e-6 * std::max(std::abs(key.least), 1e-3);
      refused(text_with(keys::toml_text(key, keys::Value(key.least - low))), key.name);
      refused(text_with(keys::toml_text(key, keys::Value(key.most + step))), key.name);
    } else if (key.kind == keys::Kind::whole) {
      refused(text_with(fmt::format("{:.0f}", key.least - 1.0)), key.name);
      if (key.most < 1e15) refused(text_with(fmt::format("{:.0f}", key.most + 1.0)), key.name);
      CHECK_FALSE(read_scenario(text_with("99999999999999999999")).scenario);
    }
  };
  for (const auto& key : keys::scenario_keys()) {
    outside(key, [&](const std::string& value) { return fmt::format("{} = {}\n{}", key.name, value, base); });
  }
  keys::for_each_list([&](const auto& list) {
    for (const auto& key : list.keys()) {
      outside(key, [&](const std::string& value) { return fmt::format("{}[[{}]]\nname = \"x\"\n{} = {}\n", base, list.path, key.name, value); });
    }
  });
  CHECK(tried > 450);
}
