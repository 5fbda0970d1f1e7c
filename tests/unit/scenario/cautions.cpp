#include "sim/scenario/cautions.hpp"

#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "sim/scenario/describe.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

bool warns(const Scenario& s, const std::string& of) {
  const auto all = cautions(s);
  return std::any_of(all.begin(), all.end(), [&](const std::string& c) { return c.find(of) != std::string::npos; });
}

Scenario with(const std::vector<std::string>& settings) {
  const Reading reading = read_scenario(sample::small, settings);
  REQUIRE(reading.scenario.has_value());
  return *reading.scenario;
}

}  // namespace

TEST_CASE("some cautions always stand, mould first") {
  const Scenario s = with({});
  CHECK(cautions(s).front().find("mouldy") != std::string::npos);
  for (const char* always :
       {"dust", "untreated", "veterinarian", "RCD or GFCI", "licensed electrician", "mist", "slippery"}) {
    CHECK(warns(s, always));
  }
}

TEST_CASE("others have their conditions") {
  CHECK_FALSE(warns(with({}), "bleach"));
  CHECK(warns(with({"line.dip_strength=0.5 %"}), "bleach"));
  CHECK(warns(with({}), "Bring a new feed in over 7 to 14 days: the scenario starts at full ration for goats."));
  CHECK(warns(with({"group.goats.introduction=3 d"}), "Bring a new feed in over 7 to 14 days: the scenario takes less time for goats."));
  CHECK_FALSE(warns(with({"group.goats.introduction=7 d"}), "Bring a new feed in"));
  CHECK_FALSE(warns(with({}), "upper limit"));
  CHECK(warns(with({"group.goats.ration=10 kg"}), "upper limit"));
  CHECK(warns(with({"group.goats.ration=none", "group.goats.share=0.6"}), "60 %"));
  CHECK(warns(with({}), "Legionella"));
  CHECK_FALSE(warns(with({"climate.mean=8 degC", "climate.amplitude=6 K"}), "Legionella"));
  CHECK(warns(with({"climate.mean=8 degC", "climate.amplitude=6 K", "room.heater=2 kW", "room.heater_set=23 degC"}), "Legionella (germs of a lung disease): shade, drain and clean the tank while it is so warm; the heater holds the room at 23 degC."));
  CHECK_FALSE(warns(with({}), "fix it to the wall"));
  CHECK(warns(with({"rack.tiers=6"}), "fix it to the wall"));
  CHECK_FALSE(warns(with({}), "NIOSH"));
  CHECK(warns(with({"rack.tray_length=1.2 m", "rack.tray_width=60 cm"}), "NIOSH"));
  CHECK_FALSE(warns(with({}), "beyond safe reach"));
  CHECK(warns(with({"rack.tiers=7"}), "beyond safe reach"));
  const std::vector<std::string> light{"rack.tiers=6", "rack.tray_length=30 cm", "rack.tray_width=30 cm"}, heavy{"rack.tiers=6", "rack.tray_length=1.2 m", "rack.tray_width=60 cm"};
  CHECK(warns(with(light), "use a steady step"));
  CHECK_FALSE(warns(with(light), "no such tray up a step"));
  CHECK(warns(with(heavy), "carry no such tray up a step or a ladder"));
  CHECK_FALSE(warns(with(heavy), "use a steady step"));
}

TEST_CASE("what is dated outside the run is told to do nothing") {
  const auto farm = [](const std::string& more, const std::vector<std::string>& settings = {}) {
    std::vector<std::string> all{"run.start=2026-03-01", "run.length=365 d"};
    all.insert(all.end(), settings.begin(), settings.end());
    const Reading reading = read_scenario(std::string(sample::small) + more, all);
    REQUIRE(reading.scenario.has_value());
    return *reading.scenario;
  };
  const auto spell = [&](const char* start) { return farm(std::string("\n[[spell]]\nstart = ") + start + "\nlength = \"5 d\"\nrise = \"8 K\"\n"); };
  CHECK(warns(spell("2025-07-01"), "spell.1: it begins on 2025-07-01, and the run goes from 2026-03-01 to 2027-02-28, so it does nothing."));
  CHECK(warns(spell("2026-02-24"), "spell.1: it begins"));  // over on the last of February
  CHECK(warns(spell("2027-03-01"), "spell.1: it begins"));
  for (const char* inside : {"2026-02-25", "2026-07-01", "2027-02-28"}) CHECK_FALSE(warns(spell(inside), "spell.1"));
  const auto hard = [&](const char* kind, const char* start) {
    return farm(fmt::format("\n[[hard_time]]\nname = \"x\"\nkind = \"{}\"\nstart = {}\n", kind, start));
  };
  CHECK(warns(hard("heat-wave", "2025-07-01"), "hard_time.x: it begins on 2025-07-01"));
  CHECK(warns(hard("poor-lot", "2027-03-01"), "hard_time.x: it begins"));
  CHECK_FALSE(warns(hard("poor-lot", "2026-02-20"), "hard_time.x"));  // it waits for the next lot
  CHECK(warns(hard("heat-wave", "2026-02-27"), "Every run is played with what the scenario lays upon it: x."));
  CHECK_FALSE(warns(hard("heat-wave", "2025-07-01"), "Every run is played with"));
  CHECK_FALSE(warns(hard("heat-wave", "2026-02-27"), "hard_time.x"));
  CHECK(warns(farm("", {"group.goats.first_births=2029-02-05"}), "group.goats: its first births fall on 2029-02-05, after the run ends on 2027-02-28: no young"));
  CHECK_FALSE(warns(farm("", {"group.goats.first_births=2027-02-05"}), "first births"));
  CHECK_FALSE(warns(farm("", {"group.goats.first_births=none"}), "first births"));
  CHECK_FALSE(warns(farm("", {"group.goats.first_births=2029-02-05", "group.goats.births_before=true"}), "first births"));  // every year before, too
}

TEST_CASE("a rack that does not fit its room, and mats that do not fit between tiers, are told") {
  for (const char* part : {"it does not fit", "leave room to walk", "leave no room for a mat that is due"}) CHECK_FALSE(warns(with({}), part));
  CHECK(warns(with({"room.floor_area=1 m2"}), "the room's floor is 1 m2: it does not fit"));
  Scenario tight = with({});
  tight.room.floor_area = SquareMetres(1.25 * design::footprint(tight.rack).value());
  CHECK(warns(tight, ": leave room to walk, carry and clean"));
  CHECK_FALSE(warns(tight, "it does not fit"));
  CHECK(warns(with({"room.height=1.6 m"}), "high: it does not fit"));
  CHECK(warns(with({"rack.tier_spacing=15 cm"}), "leave no room for a mat that is due"));
  // By the line's own pace; a grain of which no batch is sown has no say.
  Scenario close = with({"rack.tier_spacing=18 cm", "line.days_on_rack=4"});
  CHECK_FALSE(warns(close, "leave no room for a mat that is due"));
  close.own_line.pace = 2.0;
  CHECK(warns(close, "leave no room for a mat that is due"));
  Scenario tall = with({});
  GrainSupply other = tall.grains.front();
  other.name = other.species = "tall";
  OwnSpecies species;
  species.name = "tall";
  species.growth.height_end *= 4.0;
  tall.species.push_back(species);
  tall.grains.push_back(other);
  tall.line.grains = {tall.grains.front().name, "tall"};
  CHECK_FALSE(warns(tall, "leave no room for a mat that is due"));
  tall.line.batches_per_day = 2;
  CHECK(warns(tall, "leave no room for a mat that is due"));
}

TEST_CASE("water that runs past, places that lack, and weather too hot or too cold are told") {
  CHECK_FALSE(warns(with({}), "runs past the mats"));
  CHECK(warns(with({"water.on_time=20 min"}), "runs past the mats"));
  CHECK_FALSE(warns(with({"water.on_time=20 min", "water.recirculating=true"}), "runs past the mats"));
  CHECK(warns(with({}), "The weather is the one taken where none is stated"));
  CHECK_FALSE(warns(with({"climate.mean=12 degC"}), "The weather is the one taken where none is stated"));
  CHECK_FALSE(warns(with({}), "find no place"));
  CHECK(warns(with({"line.days_on_rack=14", "line.trays_per_batch=9"}), "find no place"));
  CHECK(warns(with({"climate.mean=22 degC", "climate.amplitude=9 K", "climate.range_mean=12 K", "climate.range_amplitude=0 K"}), "usual afternoon of the hottest weeks it is 37 degC"));
  CHECK_FALSE(warns(with({"climate.mean=22 degC", "climate.amplitude=9 K", "room.cooler=1 kW"}), "usual afternoon"));
  CHECK_FALSE(warns(with({"climate.mean=12 degC", "climate.amplitude=4 K", "climate.range_mean=6 K"}), "usual afternoon"));
  CHECK(warns(with({"climate.mean=5 degC", "climate.amplitude=9 K"}), "mats hardly grow below 8 degC"));
  CHECK_FALSE(warns(with({"climate.mean=5 degC", "climate.amplitude=9 K", "room.heater=1 kW"}), "mats hardly grow"));
}

TEST_CASE("choices whose price does not follow them are named") {
  CHECK_FALSE(warns(with({}), "no price that follows"));
  CHECK_FALSE(warns(with({"choose.room.insulation=0 cm, 5 cm", "choose.room.heater=0 W, 1 kW"}), "price"));
  CHECK(warns(with({"choose.rack.tray_length=60 cm, 1 m", "choose.room.shade=0, 0.9"}), "rack.tray_length and room.shade have no price that follows"));
  CHECK(warns(with({"choose.room.shade=0, 0.9"}), "room.shade has no price that follows"));
  CHECK(warns(with({"choose.room.shade=0, 0.9"}), "prices.shade gives shade one"));
  CHECK_FALSE(warns(with({"choose.room.shade=0, 0.9", "prices.shade=20 /m2"}), "price"));
  CHECK(warns(with({"choose.room.cooler=0 W, 1 kW, 2 kW"}), "Any size of room.cooler costs the same here"));
  CHECK(warns(with({"choose.room.heater=1 kW, 5 kW"}), "Any size of room.heater costs the same here"));
  CHECK_FALSE(warns(with({"choose.room.heater=0 W, 5 kW"}), "Any size of"));
  CHECK(warns(with({"choose.water.battery=0 h, 72 h"}), "water.battery has no price that follows"));
  CHECK(warns(with({"choose.grain.barley.bin=200 kg, 2000 kg"}), "grain.barley.bin has no price that follows"));
}

TEST_CASE("choices that nobody has are named") {
  const char* said = "You do not decide";
  CHECK_FALSE(warns(with({"choose.rack.tiers=3, 4", "choose.grain.barley.grade=bulk, seed", "choose.line.soak=8 h, 12 h", "choose.group.goats.ration=1 kg, 2 kg"}), said));
  CHECK(warns(with({"choose.climate.mean=14 degC, 17 degC", "choose.keeper.miss_chance=0, 0.1"}), "You do not decide climate.mean and keeper.miss_chance"));
  for (const char* key : {"choose.prices.power=0.1, 0.2", "choose.spoilage.mould_rate=0.0004 /d, 0.004 /d", "choose.grain.barley.germination=0.8, 0.9",
                          "choose.group.goats.litter=1, 2", "choose.water.power_cut=1 h, 2 h"}) {
    INFO(key);
    CHECK(warns(with({key}), said));
  }
}

TEST_CASE("young that may stand there at the start are asked for") {
  const std::vector<std::string> births{"run.start=2026-03-01", "group.goats.first_births=2026-09-10", "group.goats.births_every=365 d", "group.goats.birth_spread=10 d"};
  const auto sold_at = [&](const char* sale, bool before) {
    auto settings = births;
    settings.push_back(std::string("group.goats.sale=") + sale);
    if (before) settings.push_back("group.goats.births_before=true");
    return with(settings);
  };
  CHECK(warns(sold_at("190 d", false), "goats: young born from 2025-09-10 on would still be there when the run starts, the last until 2026-03-29"));
  CHECK_FALSE(warns(sold_at("190 d", true), "would still be there"));
  CHECK_FALSE(warns(sold_at("100 d", false), "would still be there"));
}

TEST_CASE("grain that is never sown, and a price that its grade changes, are told") {
  const Reading two = read_scenario(sample::small + "[[grain]]\nname = \"cheap\"\ngrade = \"feed\"\nprice = \"0.27 /kg\"\n");
  REQUIRE(two.scenario);
  CHECK(warns(*two.scenario, "grain.cheap: no batch is sown of it"));
  CHECK(warns(*two.scenario, "grain.cheap: grade = \"feed\" makes it cost 0.243 a kg, 0.9 times the price stated"));
  Scenario other = *two.scenario;
  REQUIRE_FALSE(set_key(other, "line.grains", "cheap"));
  CHECK(warns(other, "grain.barley: no batch is sown of it"));
  REQUIRE_FALSE(set_key(other, "line.batches_per_day", "2"));
  REQUIRE_FALSE(set_key(other, "line.grains", "cheap, barley"));
  REQUIRE_FALSE(set_key(other, "grain.cheap.price_multiple", "1"));
  CHECK_FALSE(warns(other, "no batch is sown"));
  CHECK_FALSE(warns(other, "makes it cost"));
}

TEST_CASE("cautions speak the scenario's units") {
  CHECK(warns(with({"units=us"}), "68 degF"));
  CHECK(warns(with({"units=us"}), " lb"));
  CHECK_FALSE(warns(with({"units=us"}), " kg and the rack"));
}

TEST_CASE("the reference page holds every key") {
  const std::string page = describe_scenario();
  for (const auto& key : keys::scenario_keys()) {
    const auto dot = key.name.find('.');
    const std::string name = dot == std::string::npos ? key.name : key.name.substr(dot + 1);
    INFO(key.name);
    CHECK(page.find("| `" + name + "` |") != std::string::npos);
    CHECK(page.find(key.sentence) != std::string::npos);
  }
  keys::for_each_list([&](const auto& list) {
    CHECK(page.find("`[[" + std::string(list.path) + "]]`") != std::string::npos);
    for (const auto& key : list.keys()) CHECK(page.find("| `" + key.name + "` |") != std::string::npos);
  });
}

TEST_CASE("a group of nobody is not cautioned about") {
  const std::string ewes = "\n[[group]]\nname = \"ewes\"\nclass = \"ewe\"\ncount = COUNT\nration = \"5 kg\"\nfirst_births = 2026-12-20\nbirths_every = \"365 d\"\n";
  const auto told = [&](const std::string& count) {
    std::string text = sample::small + ewes;
    text.replace(text.find("COUNT"), 5, count);
    const Reading reading = read_scenario(text, {"run.start=2026-03-01"});
    for (const Problem& problem : reading.problems) FAIL(problem.key << ": " << problem.why);
    std::string all;
    for (const std::string& one : cautions(*reading.scenario)) all += one + "\n";
    return all;
  };
  const std::string some = told("4"), nobody = told("0");
  for (const char* of : {"Keep hay or other long fibre before goats and ewes at all times", "starts at full ration for goats and ewes", "ewes, 58 % of the dry matter", "ewes: young born from "}) {
    INFO(of);
    CHECK(some.find(of) != std::string::npos);
  }
  CHECK(nobody.find("ewes") == std::string::npos);
  CHECK(nobody.find("Keep hay or other long fibre before goats at all times") != std::string::npos);
}
