// What must come out alike, or in a known ratio, when a scenario is changed in a way whose effect is known.

#include <cmath>
#include <functional>

#include <fmt/format.h>

#include "sim/replication/replicate.hpp"
#include "sim/scenario/key_table.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/units.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

/// The small farm, short of fodder now and then: what is compared is not a row of ones.
Scenario pressed_farm() {
  Scenario farm = test::small_farm();
  farm.line.trays_per_batch = 2;
  farm.run.length = days(180);
  return farm;
}

std::vector<Outcome> played(const Scenario& farm, std::uint32_t replications, std::uint64_t seed = 11) {
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  std::vector<Outcome> years;
  for (std::uint32_t r = 0; r < replications; ++r) years.push_back(replicator.run(seed, r));
  return years;
}

double mean(const std::vector<Outcome>& years, const std::function<double(const Outcome&)>& of) {
  double sum = 0.0;
  for (const Outcome& o : years) sum += of(o);
  return sum / static_cast<double>(years.size());
}

/// |difference of means| in its own standard errors, of two independent samples.
double standard_errors(const std::vector<Outcome>& a, const std::vector<Outcome>& b, const std::function<double(const Outcome&)>& of) {
  const auto spread = [&](const std::vector<Outcome>& years) {
    const double m = mean(years, of);
    return mean(years, [&](const Outcome& o) { return (of(o) - m) * (of(o) - m); }) / static_cast<double>(years.size() - 1);
  };
  return std::abs(mean(a, of) - mean(b, of)) / std::sqrt(spread(a) + spread(b) + 1e-30);
}

/// Two in place of one of everything the line is made of; what is counted by the tray or by the kilogram stays.
Scenario doubled(Scenario farm) {
  farm.rack.trays_per_tier *= 2;
  farm.line.trays_per_batch *= 2;
  for (Group& group : farm.groups) group.count *= 2;
  for (GrainSupply& grain : farm.grains) {
    for (Kilograms* mass : {&grain.store.bag, &grain.store.reorder_point, &grain.store.order_up_to, &grain.store.least_order,
                            &grain.store.bin, &grain.on_hand})
      *mass = Kilograms(2.0 * mass->value());
  }
  room::Parameters& room = farm.room;
  room.floor_area = SquareMetres(2.0 * room.floor_area.value());
  room.shell_area = SquareMetres(2.0 * room.shell_area.value());
  room.heat_capacity = HeatCapacity(2.0 * room.heat_capacity.value());
  room.solar_aperture = SquareMetres(2.0 * room.solar_aperture.value());
  room.heater = Watts(2.0 * room.heater.value());
  room.cooler = Watts(2.0 * room.cooler.value());
  WaterSystem& water = farm.water;
  water.pump.full_flow = LitresPerHour(2.0 * water.pump.full_flow.value());
  water.tank_litres *= 2.0;
  water.emitters_per_tier *= 2;
  water.riser_diameter = Metres(1.4 * water.riser_diameter.value());
  water.branch_diameter = Metres(1.4 * water.branch_diameter.value());
  Keeper& keeper = farm.keeper;
  keeper.minutes_per_day = 1440.0;  // feeding a group takes its time whatever its number
  keeper.soak_buckets *= 2;
  keeper.wash_trays_per_day *= 2.0;
  return farm;
}

}  // namespace

TEST_CASE("twice the herd on twice the rack is fed as well") {
  Scenario farm = pressed_farm();
  farm.run.ignorance = false;
  farm.keeper.minutes_per_day = 1440.0;
  // Deaths, births and the luck of single trays average out over more of them: they alone make the larger farm steadier.
  for (Group& group : farm.groups) {
    group.yearly_death = 0.0;
    group.breeding.first_birth_day = -1.0;
  }
  for (GrainSupply& grain : farm.grains) grain.grade.tray_rho = 1e-4;
  farm.spoilage.mould_rate = farm.spoilage.sour_rate = 0.0;
  const auto one = played(farm, 120), two = played(doubled(farm), 120, 12);
  const auto fill = [](const Outcome& o) { return o.fill_rate; };
  REQUIRE(mean(one, fill) < 0.97);
  // Other luck (seed 12), so the two are independent: a false alarm in 16,000 at four standard errors. What is cut, over what is wanted:
  // mats are cut whole, and what the last of a round leaves over is half as much of a round that is twice as large, so that the larger
  // farm serves a little more of it.
  const auto cut = [](const Outcome& o) { return (o.served + o.leftover) / o.wanted; };
  CHECK(standard_errors(one, two, cut) < 4.0);
  CHECK(mean(two, fill) > mean(one, fill));
  CHECK(mean(two, fill) - mean(one, fill) < mean(one, [](const Outcome& o) { return o.leftover / o.wanted; }));
  CHECK(std::abs(mean(two, [](const Outcome& o) { return o.worst_season_fill_rate; }) -
                 mean(one, [](const Outcome& o) { return o.worst_season_fill_rate; })) < 0.03);
  CHECK(mean(two, [](const Outcome& o) { return o.wanted; }) / mean(one, [](const Outcome& o) { return o.wanted; }) == Approx(2.0).epsilon(0.01));
  CHECK(mean(two, [](const Outcome& o) { return o.grain_used; }) / mean(one, [](const Outcome& o) { return o.grain_used; }) == Approx(2.0).epsilon(0.02));
}

TEST_CASE("a group cut in two equal halves wants the same") {
  Scenario farm = pressed_farm();
  farm.groups = {test::group("goats", "goat-milking", 20, 1.5, 2)};
  farm.groups[0].demand_sd = farm.groups[0].yearly_death = 0.0;
  Scenario halves = farm;
  halves.groups = {test::group("left", "goat-milking", 10, 1.5, 2), test::group("right", "goat-milking", 10, 1.5, 2)};
  for (Group& group : halves.groups) group.demand_sd = group.yearly_death = 0.0;
  const auto whole = played(farm, 5), cut = played(halves, 5);
  for (std::size_t i = 0; i < whole.size(); ++i) CHECK(cut[i].wanted == Approx(whole[i].wanted).epsilon(1e-12));

  // With births and deaths the same holds in the mean over years.
  farm.groups[0].yearly_death = 0.1;
  farm.groups[0].breeding.first_birth_day = 40.0;
  for (Group& group : halves.groups) {
    group.yearly_death = 0.1;
    group.breeding.first_birth_day = 40.0;
  }
  const auto wanted = [](const Outcome& o) { return o.wanted; };
  CHECK(standard_errors(played(farm, 200), played(halves, 200, 12), wanted) < 4.0);  // a false alarm in 16,000
}

TEST_CASE("where no season is unlike another, the day a run starts does not matter") {
  Scenario farm = pressed_farm();
  for (Kelvins* wave : {&farm.climate.mean.amplitude, &farm.climate.mean.second, &farm.climate.range_amplitude,
                        &farm.climate.dew_depression_amplitude})
    *wave = Kelvins(0.0);
  farm.room.solar_aperture = SquareMetres(0.0);  // the sun has seasons at any place but the equator
  farm.climate.latitude = decltype(farm.climate.latitude)(0.0);
  for (Group& group : farm.groups) group.breeding.first_birth_day = -1.0;
  Scenario later = farm;
  REQUIRE_FALSE(set_key(farm, "run.start", "2026-03-01"));
  REQUIRE_FALSE(set_key(later, "run.start", "2026-10-17"));
  const auto spring = played(farm, 80), autumn = played(later, 80, 12);
  for (const auto& of : std::vector<std::function<double(const Outcome&)>>{[](const Outcome& o) { return o.fill_rate; },
                                                                          [](const Outcome& o) { return o.cost_total; },
                                                                          [](const Outcome& o) { return o.mat_height; }})
    CHECK(standard_errors(spring, autumn, of) < 4.0);
  REQUIRE(mean(spring, [](const Outcome& o) { return o.fill_rate; }) < 0.99);
}

TEST_CASE("the same values written in other units give the same answer") {
  // Values in the units a US keeper writes, to seventeen digits; a rounding in the last of them may move an event by nothing, as time
  // is in whole minutes, so answers agree to rounding of sums.
  const Scenario farm = pressed_farm();
  Scenario us = farm;
  int changed = 0;
  for (const auto& key : keys::scenario_keys()) {
    if (key.kind != keys::Kind::real || key.unit == "1") continue;
    const keys::Value value = key.get(farm, farm);
    const double* native = std::get_if<double>(&value);
    if (native == nullptr) continue;
    for (const auto& [metric, other] : std::vector<std::pair<std::string_view, const char*>>{
             {"kg", "lb"}, {"m", "ft"}, {"degC", "degF"}, {"K", "degF"}, {"m2", "ft2"}, {"L/h", "gal/h"}, {"W", "BTU/h"}, {"h", "s"}, {"L", "gal"},
             {"kg/m2", "lb/ft2"}}) {
      if (key.unit != metric) continue;
      INFO(key.name);
      const auto problem = set_key(us, key.name, fmt::format("{:.17g} {}", convert(*native, key.unit, other), other));
      CHECK_FALSE(problem);
      ++changed;
    }
  }
  CHECK(changed > 50);
  us.units = Units::us;  // how answers are shown; moves nothing
  const auto metric = played(farm, 12), foreign = played(us, 12);
  for (std::size_t i = 0; i < metric.size(); ++i) {
    INFO("replication " << i);
    CHECK(foreign[i].fill_rate == Approx(metric[i].fill_rate).epsilon(1e-9));
    CHECK(foreign[i].cost_total == Approx(metric[i].cost_total).epsilon(1e-9));
    CHECK(foreign[i].trays_sown == metric[i].trays_sown);
    CHECK(foreign[i].water_used == Approx(metric[i].water_used).epsilon(1e-9));
  }
}

TEST_CASE("names and a group of nobody change nothing, money in cents is a hundred times as much") {
  const Scenario farm = pressed_farm();
  Scenario renamed = farm;
  renamed.groups[0].name = "somebody else";
  renamed.grains[0].name = "other grain";
  for (std::string& name : renamed.line.grains) name = name == "barley" ? "other grain" : name;
  renamed.groups.push_back(test::group("nobody", "ewe", 0, 1.0, 1));
  Scenario cents = farm;
  for (const auto& key : keys::scenario_keys()) {
    if (!key.name.starts_with("prices.") || key.name == "prices.life" || key.name == "prices.interest") continue;
    const keys::Value value = key.get(farm, farm);
    key.set(cents, std::get<double>(value) * 100.0, cents);
  }
  for (GrainSupply& grain : cents.grains) grain.price_per_kg *= 100.0;
  const auto plain = played(farm, 6), other = played(renamed, 6), dear = played(cents, 6);
  for (std::size_t i = 0; i < plain.size(); ++i) {
    INFO("replication " << i);
    CHECK(other[i].served == plain[i].served);
    CHECK(other[i].spoiled_mould == plain[i].spoiled_mould);
    CHECK(dear[i].served == plain[i].served);
    CHECK(dear[i].cost_total == Approx(100.0 * plain[i].cost_total).epsilon(1e-9));
  }
}

TEST_CASE("grains in store that are never sown change nothing at the rack, however many kinds there are") {
  const Scenario farm = pressed_farm();
  const std::vector<Outcome> plain = played(farm, 2);
  const std::vector<const char*> kinds{"rye", "oat", "maize", "triticale"};
  for (std::size_t more = 1; more <= kinds.size(); ++more) {
    Scenario full = farm;
    for (std::size_t k = 0; k < more; ++k) full.grains.push_back(test::supply(kinds[k], kinds[k]));
    REQUIRE(check_scenario(full).empty());
    const std::vector<Outcome> years = played(full, 2);
    CAPTURE(more);
    for (std::size_t y = 0; y < years.size(); ++y) {
      CHECK(years[y].served == plain[y].served);
      CHECK(years[y].short_days == plain[y].short_days);
      CHECK(years[y].fodder_dry_matter == plain[y].fodder_dry_matter);
      CHECK(years[y].spoiled_mould == plain[y].spoiled_mould);
      CHECK(years[y].spoiled_sour == plain[y].spoiled_sour);
      CHECK(years[y].room_mean == plain[y].room_mean);
      CHECK(years[y].room_max == plain[y].room_max);
      CHECK(years[y].water_used == plain[y].water_used);
    }
  }
}
