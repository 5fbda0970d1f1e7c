#include "sim/study/stress.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

Scenario summer() {
  Scenario farm = test::goat_farm();
  farm.run.start = std::chrono::year(2026) / std::chrono::June / 15;
  farm.run.length = days(80);
  farm.target.fill_rate = 0.9;
  return farm;
}

StressResult only(const Scenario& farm, std::vector<std::string> names, int threads = 2) {
  return stress(farm, {.pairs = {.random_seed = 3, .replications = 16, .threads = threads}, .names = std::move(names)});
}

}  // namespace

TEST_CASE("every kind is tried once, the scenario's own stands in for the built-in one, heat comes at the warmest time") {
  Scenario farm = summer();
  HardTime own;
  own.name = "my August";
  own.kind = HardTimeKind::heat_wave;
  own.first_day = 50;
  farm.hard_times = {own};
  const auto all = hard_list(farm);
  CHECK(all.size() == hard_time_names.size());
  CHECK(all[0].own);
  CHECK(all[0].hard.name == "my August");
  std::set<HardTimeKind> kinds;
  for (const Planned& p : all) kinds.insert(p.hard.kind);
  CHECK(kinds.size() == hard_time_names.size());
  const auto built_in = hard_list(summer());
  CHECK(built_in[0].hard.kind == HardTimeKind::heat_wave);
  // The wave's top of the default climate is day 204.8 of the year, 23 July; the middle of ten days.
  CHECK(built_in[0].hard.first_day == near(33.0, 2.0));
}

TEST_CASE("south of the equator the built-in dead pump comes in January") {
  Scenario farm = test::goat_farm();
  farm.run.start = std::chrono::year(2026) / std::chrono::March / 1;
  farm.run.length = days(365);
  farm.climate.mean.peak_day = 20.0;
  for (const Planned& p : hard_list(farm))
    if (p.hard.kind == HardTimeKind::pump_stop || p.hard.kind == HardTimeKind::power_cut) CHECK(p.hard.first_day == near(365 - 60 + 20, 3.0));
}

TEST_CASE("what is built in strikes while animals are fed, and power and pump fail where they are needed most") {
  Scenario farm = test::goat_farm();  // a year from 1 March
  farm.run.start = std::chrono::year(2026) / std::chrono::March / 1;
  farm.run.length = days(365);
  const auto begins = [&](HardTimeKind kind) {
    for (const Planned& p : hard_list(farm))
      if (p.hard.kind == kind) return p.hard.first_day;
    return -1.0;
  };
  for (const HardTimeKind kind : {HardTimeKind::missed_rounds, HardTimeKind::keeper_away}) CHECK(begins(kind) == 121.0);
  for (const HardTimeKind kind : {HardTimeKind::power_cut, HardTimeKind::pump_stop}) CHECK(begins(kind) == near(204.8 - 60, 2.0));
  CHECK(begins(HardTimeKind::heat_wave) == near(204.8 - 60 - 5, 2.0));
  // All are out at grass from 20 May until 15 September.
  for (Group& group : farm.groups) group.stay = {.arrives = 198.0, .leaves = 80.0, .each_year = true};
  for (const HardTimeKind kind : {HardTimeKind::power_cut, HardTimeKind::pump_stop, HardTimeKind::missed_rounds, HardTimeKind::keeper_away}) CHECK(begins(kind) == 198.0);
  const double heat = begins(HardTimeKind::heat_wave);
  CHECK((heat >= 198.0 || heat + 10.0 <= 80.0));
  CHECK(begins(HardTimeKind::cold_snap) > 198.0);
  // The middle of September is nearer to the wave's top than the middle of May.
  CHECK(heat == 198.0);
  HardTime away = hard_list(farm)[0].hard;
  away.first_day = 110.0;
  CHECK(cannot_strike(farm, away) == "no animals are fed here then");
  away.first_day = 185.0;  // it shows until they are back
  CHECK(cannot_strike(farm, away).empty());
  // What befalls grain shows later, and what befalls an empty rack not at all.
  away.kind = HardTimeKind::poor_lot;
  away.first_day = 110.0;
  CHECK(cannot_strike(farm, away).empty());
  Scenario sold = farm;
  for (Group& group : sold.groups) group.stay = {.leaves = 110.0};
  sold.run.rack_full_at_start = false;
  for (const Planned& p : hard_list(sold))
    if (p.hard.kind == HardTimeKind::pump_stop) CHECK((p.hard.first_day > sold.line.days_on_rack && p.hard.first_day < 110.0));
  // A few that stay are not what is asked for.
  farm.groups.push_back(farm.groups[0]);
  farm.groups.back().name = "two that stay";
  farm.groups.back().count = 1;
  farm.groups.back().stay = {};
  CHECK(begins(HardTimeKind::power_cut) == 198.0);
  farm.room.heater = Watts(2000.0);
  CHECK(begins(HardTimeKind::power_cut) > 280.0);  // in winter
  CHECK(begins(HardTimeKind::pump_stop) == 198.0);
  farm.room.heater = Watts(0.0);
  farm.room.cooler = Watts(2000.0);
  CHECK(begins(HardTimeKind::power_cut) == near(heat, 5.0));
}

TEST_CASE("more air or less is tried by the key that says how often it is renewed at the time") {
  Scenario farm = summer();  // from 15 June
  farm.opened = {.from = 182, .until = 213};  // July
  farm.open_air_changes = 6.0;
  const auto key = [&](HardTimeKind kind, const char* what, std::optional<int> day) {
    for (const Countermeasure& one : countermeasures(farm, kind, day))
      if (one.name == what) return one.settings.at(0).first;
    return std::string();
  };
  CHECK(key(HardTimeKind::heat_wave, "more air", 30) == "room.open_air_changes");
  CHECK(key(HardTimeKind::heat_wave, "more air", 60) == "room.air_changes");
  CHECK(key(HardTimeKind::cold_snap, "less air", 30) == "room.open_air_changes");
  CHECK(key(HardTimeKind::cold_snap, "less air", std::nullopt) == "room.air_changes");
  HardTime hard;
  hard.kind = HardTimeKind::heat_wave;
  hard.first_day = 20.0;
  hard.length = days(10);
  CHECK(middle_of(hard) == 25);
}

TEST_CASE("every countermeasure is a change the scenario takes, and none is tried twice") {
  Scenario farm = summer();
  farm.line.batches_per_day = 2;
  farm.line.trays_per_batch = 3;
  for (std::size_t k = 0; k < hard_time_names.size(); ++k) {
    std::set<std::string_view> names;
    for (const Countermeasure& what : countermeasures(farm, static_cast<HardTimeKind>(k))) {
      INFO(hard_time_names[k] << ": " << what.name);
      CHECK(names.insert(what.name).second);
      CHECK_FALSE(what.settings.empty());
      const auto after = changed(farm, what.settings);
      REQUIRE(std::holds_alternative<Scenario>(after));
      CHECK_FALSE(std::get<Scenario>(after) == farm);
    }
  }
}

TEST_CASE("a larger litter begins with the first births of the run, so that its days are counted from something") {
  const auto begins = [](const Scenario& farm) {
    for (const Planned& p : hard_list(farm))
      if (p.hard.kind == HardTimeKind::larger_litter) return p.hard.first_day;
    return -1.0;
  };
  Scenario farm = summer();
  CHECK(begins(farm) == 0.0);  // no births
  farm.groups[0].breeding.first_birth_day = 40.0;
  CHECK(begins(farm) == 40.0);
  farm.groups.push_back(farm.groups[0]);
  farm.groups[1].name = "ewes";
  farm.groups[1].breeding.first_birth_day = 25.0;
  CHECK(begins(farm) == 25.0);
  farm.groups[1].count = 0;
  CHECK(begins(farm) == 40.0);
  farm.groups[0].breeding.first_birth_day = 81.0;  // after the end
  CHECK(begins(farm) == 0.0);
  farm.groups[0].breeding.first_birth_day = 400.0;  // and a year before as well
  farm.groups[0].breeding.before = true;
  CHECK(begins(farm) == 35.0);
  const auto why = [&] { return cannot_strike(farm, hard_list(farm)[static_cast<std::size_t>(HardTimeKind::larger_litter)].hard); };
  farm.groups[0].breeding.weaning = days(20);
  CHECK(why().empty());
  farm.groups[0].breeding.weaning = days(60);  // they want fodder from then on
  CHECK(why() == "its young want fodder only after the end of this run; --years plays more");
  farm.groups[0].breeding.first_birth_day = 360.0;  // the last of the season before fall into the run
  CHECK(begins(farm) == 0.0);
}

TEST_CASE("more grain kept back says what room it needs where the bin holds less, and asks for no bin where it holds enough") {
  const auto kept = [](double bin) {
    Scenario farm = summer();
    GrainSupply& barley = farm.grains[0];
    barley.store.reorder_point = Kilograms(75.0);
    barley.store.order_up_to = Kilograms(275.0);
    barley.store.bin = Kilograms(bin);
    return countermeasures(farm, HardTimeKind::late_delivery).at(0);
  };
  const Countermeasure tight = kept(300.0), roomy = kept(500.0);
  CHECK(tight.needs == "room for 425 kg of barley (the bin holds 300 kg)");
  CHECK(tight.settings.at(0) == Setting{"grain.1.bin", "425 kg"});
  CHECK(roomy.needs.empty());
  for (const auto& [key, value] : roomy.settings) CHECK_FALSE(key.ends_with(".bin"));
}

TEST_CASE("a countermeasure is told in the farm's own units and in few digits, just as it is tried") {
  for (const Units units : {Units::us, Units::metric}) {
    Scenario farm = summer();
    farm.units = units;
    farm.line.sowing_density = KilogramsPerSquareMetre(4.882428);  // 1 lb/ft2
    std::set<std::string> seen;
    for (std::size_t k = 0; k < hard_time_names.size(); ++k) {
      for (const Countermeasure& what : countermeasures(farm, static_cast<HardTimeKind>(k))) {
        const auto after = changed(farm, what.settings);
        REQUIRE(std::holds_alternative<Scenario>(after));
        for (const auto& [key, value] : what.settings) {
          INFO(what.name << ": " << key << "=" << value);
          seen.insert(key + "=" + value);
          CHECK(get_key(std::get<Scenario>(after), key) == value);
          const std::string number = value.substr(0, value.find(' '));
          if (number.find('.') != std::string::npos)
            CHECK(std::count_if(number.begin(), number.end(), [](char c) { return c >= '0' && c <= '9'; }) <= 4);
        }
      }
    }
    CHECK(seen.contains(units == Units::us ? "line.sowing_density=0.75 lb/ft2" : "line.sowing_density=3.66 kg/m2"));
    CHECK(seen.contains(units == Units::us ? "line.soak_water=71.6 degF" : "line.soak_water=22 degC"));
  }
}

TEST_CASE("a dead pump gives way as water, costs short days, and a spare pump and a tank above the rack help") {
  Scenario farm = summer();
  farm.water.pump_between_failures = farm.water.power_between_cuts = Hours(1e6);
  const StressResult result = only(farm, {"pump-stop"});
  REQUIRE(result.hard_times.size() == 1);
  const Struck& pump = result.hard_times[0];
  CHECK(pump.replications == 16);
  CHECK(pump.first[static_cast<std::size_t>(Sign::no_water)] == 1.0);
  CHECK(pump.effects.fill_rate.mean < 0.0);
  CHECK(pump.recovery.mean > 0.0);
  for (const Trial& t : result.trials) {
    if (t.what.name != "a spare pump" && !t.what.name.starts_with("a tank")) continue;
    INFO(t.what.name);
    CHECK(t.effects.fill_rate.mean > 0.0);
  }
  CHECK(result.trials.front().by_service == 1);
}

TEST_CASE("a cold snap that freezes the room gives way as frost, and a tank above the rack is no help where it freezes") {
  Scenario farm = test::goat_farm();
  farm.run.start = std::chrono::year(2026) / std::chrono::January / 5;
  farm.climate.anomaly_sd = Kelvins(0.0);
  farm.water.pump_between_failures = farm.water.power_between_cuts = Hours(1e9);
  HardTime snap;
  snap.name = "January cold";
  snap.kind = HardTimeKind::cold_snap;
  snap.first_day = 20;
  snap.length = days(5);
  snap.change = Kelvins(22.0);
  HardTime pump;
  pump.name = "no pump";
  pump.kind = HardTimeKind::pump_stop;
  pump.first_day = 22;
  pump.length = days(2);
  farm.hard_times = {snap, pump};
  const StressResult cold = only(farm, {"January cold"});
  REQUIRE(cold.hard_times.size() == 1);
  CHECK(cold.hard_times[0].first[static_cast<std::size_t>(Sign::frost)] == 1.0);
  CHECK(cold.hard_times[0].effects.spoiled.mean > 6.0);  // more than one day's mats
  CHECK(cold.hard_times[0].effects.fill_rate.mean < 0.0);
  farm.spells = {{20.0, 6.0, Kelvins(-22.0)}};
  const StressResult frozen = only(farm, {"no pump"});
  int tanks = 0;
  for (const Trial& t : frozen.trials) {
    if (!t.what.name.starts_with("a tank")) continue;
    ++tanks;
    CHECK(t.effects.short_days.mean == 0.0);
    CHECK(t.effects.fill_rate.mean == 0.0);
  }
  CHECK(tanks == 1);
}

TEST_CASE("a trial of every lot is tried of a poor lot, where none is made yet and for grain that is sown") {
  Scenario farm = test::goat_farm();
  farm.run.length = days(150);
  farm.grains.emplace_back().name = "never sown";
  const auto trials = [&] {
    std::vector<Countermeasure> all = countermeasures(farm, HardTimeKind::poor_lot);
    std::erase_if(all, [](const Countermeasure& what) { return what.name.find("a trial of every new lot") != 0; });
    return all;
  };
  const auto found = trials();
  REQUIRE(found.size() == 1);
  REQUIRE_FALSE(found.front().settings.empty());
  for (const auto& [key, value] : found.front().settings) {
    INFO(key);
    CHECK(key.find("grain.1.") == 0);
  }
  farm.grains[0].policy.trial = 50;
  CHECK(trials().empty());
}

TEST_CASE("hotter waves sour more, a cooler moves the limit up, the answer does not depend on threads") {
  Scenario farm = summer();
  const StressResult one = only(farm, {"heat-wave"}, 1), two = only(farm, {"heat-wave"}, 2);
  REQUIRE(one.trials.size() == two.trials.size());
  const Struck& heat = one.hard_times.at(0);
  CHECK(heat.effects.spoiled.low > 0.0);
  CHECK(heat.effects.spoiled.mean == two.hard_times[0].effects.spoiled.mean);
  REQUIRE(heat.limit);
  for (std::size_t t = 0; t < one.trials.size(); ++t) {
    CHECK(one.trials[t].effects.cost.mean == two.trials[t].effects.cost.mean);
    REQUIRE(one.trials[t].limit);
    CHECK(one.trials[t].limit->peak == two.trials[t].limit->peak);
    CHECK(one.trials[t].limit->low <= one.trials[t].limit->peak);
    CHECK(one.trials[t].limit->peak <= one.trials[t].limit->high);
    if (one.trials[t].what.name == "a cooler") CHECK(one.trials[t].limit->peak >= heat.limit->peak);
  }
}

TEST_CASE("the limit falls when more is asked and rises with the cooler") {
  Scenario farm = summer();
  HardTime wave;
  wave.name = "it";
  wave.first_day = 33;
  farm.hard_times = {wave};
  const PairRequest request{.random_seed = 3, .replications = 16, .threads = 2};
  const auto asked = [&](double fill_rate) {
    farm.target.fill_rate = fill_rate;
    return heat_limit(farm, request);
  };
  CHECK(asked(0.0).kind == HeatLimit::Kind::beyond);
  double before = asked(0.0).peak;
  for (const double fill_rate : {0.3, 0.6, 0.8, 0.9, 0.999}) {
    const double now = asked(fill_rate).peak;
    CHECK(now <= before);
    before = now;
  }
  farm.target.fill_rate = 0.9;
  double least = 0.0;
  for (const double watts : {0.0, 1000.0, 2500.0}) {
    farm.room.cooler = Watts(watts);
    const double peak = heat_limit(farm, request).peak;
    CHECK(peak >= least);
    least = peak;
  }
}

TEST_CASE("a countermeasure that the scenario cannot take says why and is not played") {
  Scenario farm = summer();
  farm.rack.trays_per_tier = 200;  // no key takes more
  farm.rack.tiers = 1;
  farm.line.trays_per_batch = 200 / farm.line.days_on_rack / farm.line.batches_per_day;
  const StressResult result = only(farm, {"missed-rounds"});
  const auto more = std::find_if(result.trials.begin(), result.trials.end(), [](const Trial& t) { return t.what.name == "a tray more in every batch"; });
  REQUIRE(more != result.trials.end());
  CHECK(more->why_not.find("rack.trays_per_tier ") == 0);
  CHECK(more->replications == 0);
}

TEST_CASE("what cannot strike says why and is not played") {
  const StressResult result = only(summer(), {"larger-litter"});
  REQUIRE(result.hard_times.size() == 1);
  CHECK(result.hard_times[0].why_not == "no births fall into this run");
  CHECK(result.trials.empty());
}

TEST_CASE("an own hard time called as a usual one of another kind is remembered apart from it") {
  struct Memory : PieceMemory {
    std::map<std::string, std::string> pieces;
    std::optional<std::string> recall(const std::string& name) override {
      const auto at = pieces.find(name);
      return at == pieces.end() ? std::nullopt : std::optional(at->second);
    }
    void keep(const std::string& name, std::string_view bytes) override { pieces[name] = bytes; }
  };
  Scenario farm = summer();
  HardTime own;
  own.name = "heat-wave";
  own.kind = HardTimeKind::pump_stop;
  own.first_day = 30;
  own.length = days(5);
  farm.hard_times = {own};
  Memory memory;
  const StressResult apart = only(farm, {"heat-wave"});
  const StressResult remembered = stress(farm, {.pairs = {.random_seed = 3, .replications = 16, .threads = 2}, .names = {"heat-wave"}, .memory = &memory});
  REQUIRE(apart.hard_times.size() == 2);
  REQUIRE(remembered.hard_times.size() == 2);
  for (std::size_t i = 0; i < 2; ++i) CHECK(remembered.hard_times[i].effects.short_days.mean == apart.hard_times[i].effects.short_days.mean);
  CHECK(apart.hard_times[0].effects.fill_rate.mean != apart.hard_times[1].effects.fill_rate.mean);
  REQUIRE(remembered.trials.size() == apart.trials.size());
  for (std::size_t i = 0; i < apart.trials.size(); ++i) CHECK(remembered.trials[i].effects.cost.mean == apart.trials[i].effects.cost.mean);
}
