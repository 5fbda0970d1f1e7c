#include "sim/scenario/cautions_place.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include "models/herd/animals.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/paths.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

bool warns(const Scenario& s, const std::string& of) {
  const auto all = cautions(s);
  return std::any_of(all.begin(), all.end(), [&](const std::string& c) { return c.find(of) != std::string::npos; });
}

Scenario with(const std::vector<std::string>& settings, const std::string& more = "") {
  const Reading reading = read_scenario(sample::small + more, settings);
  REQUIRE(reading.scenario.has_value());
  return *reading.scenario;
}

const std::vector<std::string> mild{"climate.mean=18 degC", "climate.amplitude=4 K", "climate.anomaly_sd=2 K"};

Scenario mild_with(const std::string& setting, const std::string& more = "") {
  std::vector<std::string> all = mild;
  if (!setting.empty()) all.push_back(setting);
  return with(all, more);
}

}  // namespace

TEST_CASE("hay stays before ruminants, horses and rabbits, however slowly the fodder is brought in, and is asked of no others") {
  for (const char* slow : {"0 d", "3 d", "7 d", "14 d", "30 d"})
    for (const herd::Class& kind : herd::all_classes()) {
      Scenario s = with({std::string("group.goats.introduction=") + slow});
      s.groups.front().animal_class = kind.name;
      INFO(kind.name << ", " << slow);
      const bool needs = kind.species == "goat" || kind.species == "sheep" || kind.species == "cattle" || kind.species == "horse" || kind.species == "rabbit";
      CHECK(warns(s, "Keep hay or other long fibre before goats at all times.") == needs);
    }
}

TEST_CASE("a heater's fire, shock and fumes are told where there is one, one may be chosen, or one is advised") {
  const std::string fire = "A heater in a wet, dusty barn is a risk of fire and shock", fumes = "None that burns fuel without a flue to the open air: its fumes (carbon monoxide)";
  CHECK_FALSE(warns(mild_with(""), "heater"));
  CHECK(warns(mild_with("room.heater=500 W"), fire));
  CHECK(warns(mild_with("room.heater=500 W"), fumes));
  CHECK(warns(mild_with("choose.room.heater=0 W, 1 kW"), fire));
  CHECK_FALSE(warns(mild_with("choose.room.heater=0 W"), "heater"));
  CHECK(warns(mild_with("", "[[kit]]\npart = \"warmth\"\nname = \"stove\"\nsets = [\"room.heater = 2 kW\", \"prices.heater = 300\"]\n"), fire));
  CHECK_FALSE(warns(mild_with("", "[[kit]]\npart = \"warmth\"\nname = \"lagging\"\nsets = [\"room.insulation = 5 cm\"]\n"), "heater"));
  const Scenario cold = with({"climate.mean=9 degC", "climate.amplitude=4 K", "climate.anomaly_sd=0 K"});
  CHECK(warns(cold, "insulation, or a heater"));
  CHECK(warns(cold, fire));
}

TEST_CASE("frost in pipes and mats is told where an unheated room freezes, and nowhere else") {
  const std::string burst = "Pipes, pump, emitters and tank burst", never = "never feed frozen fodder";
  CHECK_FALSE(warns(mild_with(""), burst));
  const Scenario cold = with({"climate.mean=5 degC", "climate.amplitude=12 K", "room.heater=3 kW"});  // the heater may be out
  CHECK(warns(cold, burst));
  CHECK(warns(cold, never));
  CHECK(warns(mild_with("", "[[spell]]\nstart = 2026-01-10\nlength = \"4 d\"\nrise = \"-20 K\"\n"), burst));
  CHECK(warns(mild_with("", "[[hard_time]]\nname = \"snap\"\nkind = \"cold-snap\"\nstart = 2026-01-10\nchange = \"20 K\"\n"), burst));
  CHECK_FALSE(warns(mild_with("", "[[hard_time]]\nname = \"wave\"\nkind = \"heat-wave\"\nstart = 2026-01-10\nchange = \"20 K\"\n"), burst));
  // A room that stores much heat keeps out a cold night, one that stores little does not.
  const std::vector<std::string> nights{"climate.mean=12 degC", "climate.amplitude=10 K", "climate.anomaly_sd=0 K", "climate.range_mean=14 K", "climate.range_amplitude=0 K"};
  auto heavy = nights, light = nights;
  heavy.emplace_back("room.heat_capacity=100000 kJ/K");
  light.emplace_back("room.heat_capacity=100 kJ/K");
  CHECK_FALSE(warns(with(heavy), burst));
  CHECK(warns(with(light), burst));
}

TEST_CASE("bleach is told of with all that it does, where something is dipped") {
  CHECK_FALSE(warns(with({}), "leach"));
  for (const char* dip : {"line.dip_strength=0.5 %", "line.tray_dip_strength=0.5 %"})
    for (const char* part : {"chlorine gas", "chloramines", "both can kill", "before any other disinfectant", "eats zinc, steel and aluminium", "weakens with heat, light and time"}) {
      INFO(dip << " " << part);
      CHECK(warns(with({dip}), part));
    }
}

TEST_CASE("what the page of cautions promises is told where it applies") {
  std::ifstream file(std::string(RACKWRIGHT_SOURCE_DIR) + "/docs/cautions.md");
  std::stringstream page;
  page << file.rdbuf();
  const Scenario all = with({"climate.mean=8 degC", "climate.amplitude=14 K", "room.heater=2 kW", "line.dip_strength=0.5 %", "rack.tiers=7", "group.goats.ration=10 kg", "line.sowing_density=12 kg/m2",
                             "line.soak_water=40 degC", "rack.tray_length=60 cm", "rack.tray_width=1.2 m"});
  const std::pair<const char*, const char*> promised[] = {
      {"smells sour; throw out the whole mat", "Throw out the whole mat"}, {"fine-dust mask (P2 or N95)", "fine-dust mask (P2 or N95)"}, {"spoiled mats is no forecast", "is no forecast"},
      {"Only untreated grain", "Sprout only untreated grain"}, {"trembles, staggers", "trembles, staggers"}, {"*Salmonella*, *E. coli*, *Listeria*", "Salmonella, E. coli, Listeria"},
      {"not with dry grain", "not with dry grain"}, {"Bring sprouts in over 7 to 14 days", "over 7 to 14 days"}, {"other long fibre before ruminants, horses and rabbits", "other long fibre before goats"},
      {"a bucketful is little dry", "a bucketful is little dry matter"}, {"is each class's own", "is the usual upper limit"}, {"ask first", "Ask a veterinarian"}, {"gives chlorine", "chlorine gas"},
      {"Rinse before any other disinfectant", "before any other disinfectant"}, {"eats zinc, steel and aluminium", "eats zinc, steel and aluminium"}, {"30 mA or less", "30 mA or less"},
      {"a licensed electrician", "licensed electrician"}, {"check the floor", "floor for it"}, {"fixed to the wall", "fix it to the wall"}, {"heavy trays low", "heavy trays low"}, {"lifting-limit", "NIOSH"},
      {"Drinking quality", "drinking-quality"}, {"*Legionella* grows", "Legionella"}, {"no mist", "avoid mist"}, {"another backflow preventer", "another backflow preventer"}, {"drain them before", "drain them before"},
      {"frozen fodder is not fed", "never feed frozen fodder"}, {"fire and shock", "fire and shock"}, {"on its own protected circuit", "protected circuit of its own"}, {"carbon monoxide", "carbon monoxide"},
      {"Wet floors are slippery", "Wet floors are slippery"}, {"drains need covers", "under covers"}, {"sowing below 2 or above 10 kg/m2", "3 to 8 kg/m2"}, {"soak water outside 5 to 35 degC", "Soak water of 40 degC"}};
  for (const auto& [on_page, said] : promised) {
    INFO(on_page << " -> " << said);
    CHECK(page.str().find(on_page) != std::string::npos);
    CHECK(warns(all, said));
  }
}

TEST_CASE("the air of a room that mats breathe in is told where it is worse than people work in for a day") {
  const std::string told = "carbon dioxide, where 0.5 % is the usual limit", deadly = "Build no room so tight.";
  const std::vector<std::string> full{"rack.trays_per_tier=20", "line.trays_per_batch=12", "line.days_on_rack=7"};  // 80 places, all of them used
  const auto aired = [&](const std::string& changes) {
    std::vector<std::string> all = full;
    all.push_back("room.air_changes=" + changes);
    return with(all);
  };
  CHECK_FALSE(warns(aired("30"), "carbon dioxide"));
  CHECK(warns(aired("0.1"), told));
  CHECK_FALSE(warns(aired("0.1"), deadly));
  CHECK(warns(aired("0.02"), deadly));
  // Mats that lose as much in half the time give twice as much a day.
  double changes = 0.1;
  while (warns(aired(std::to_string(changes)), told)) changes *= 1.2;
  Scenario quick = aired(std::to_string(changes));
  quick.own_line.pace = 1.5;
  CHECK(warns(quick, told));
  CHECK(warns(aired("0"), "comes to a fifth, all that mats can make, of carbon dioxide"));
  // Places beyond what is sown stand empty.
  Scenario few = aired("0.1");
  few.line.trays_per_batch = 1;
  CHECK_FALSE(warns(few, "carbon dioxide"));
}

TEST_CASE("a caution is said once") {
  std::vector<std::string> all{"one"};
  say_once(all, "two");
  say_once(all, "one");
  CHECK(all == std::vector<std::string>{"one", "two"});
}
