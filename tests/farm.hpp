#pragma once
// A small farm for tests: a dozen goats, some hens and ewes, two grains, forty-eight places. Invented.

#include "sim/scenario/scenario.hpp"

namespace rackwright::test {

inline GrainSupply supply(const char* name, const char* species) {
  GrainSupply grain;
  grain.name = name;
  grain.species = species;
  grain.store.reorder_point = Kilograms(100.0);
  grain.store.order_up_to = Kilograms(400.0);
  return grain;
}

inline Group group(const char* name, const char* animal_class, int count, double ration_kg, int feedings) {
  Group animals;
  animals.name = name;
  animals.animal_class = animal_class;
  animals.count = count;
  animals.ration = Kilograms(ration_kg);
  animals.feedings = feedings;
  return animals;
}

/// Barley mornings, wheat evenings; eight days on the rack, so 2 x 3 trays a day fill 48 places.
inline Scenario small_farm() {
  Scenario farm;
  farm.rack.tiers = 4;
  farm.rack.trays_per_tier = 13;
  farm.line.days_on_rack = 8;
  farm.line.batches_per_day = 2;
  farm.line.trays_per_batch = 3;
  farm.line.grains = {"barley", "wheat"};
  farm.room.heat_capacity = HeatCapacity(40000.0);
  farm.grains = {supply("barley", "barley"), supply("wheat", "wheat")};
  farm.groups = {group("goats", "goat-milking", 9, 1.5, 2), group("hens", "laying-hen", 40, 0.03, 1), group("ewes", "ewe", 4, 1.0, 1)};
  farm.groups[0].breeding.first_birth_day = 40.0;
  return farm;
}

/// The same farm with nothing left to luck that a test could trip over: no failures, no slips, no wave or weather, no doubt.
inline Scenario quiet_farm() {
  Scenario farm = small_farm();
  farm.climate.mean.amplitude = Kelvins(0.0);
  farm.climate.anomaly_sd = Kelvins(0.0);
  farm.climate.mean.mean = Celsius(19.0);
  farm.climate.range_mean = Kelvins(4.0);
  farm.climate.range_amplitude = Kelvins(0.0);
  farm.keeper.miss_chance = 0.0;
  farm.run.ignorance = false;
  farm.water.pump_between_failures = farm.water.power_between_cuts = farm.water.emitter_between_clogs = Hours(1e9);
  farm.spoilage.mould_rate = farm.spoilage.sour_rate = 0.0;
  farm.groups[0].breeding.first_birth_day = -1.0;
  for (Group& animals : farm.groups) animals.demand_sd = animals.yearly_death = 0.0;
  return farm;
}

/// That farm for so many days.
inline Scenario quiet_farm(double run_days) {
  Scenario farm = quiet_farm();
  farm.run.length = days(run_days);
  return farm;
}

inline HardTime hard_time(HardTimeKind kind, double first_day, double length_days) {
  HardTime hard;
  hard.name = "it";
  hard.kind = kind;
  hard.first_day = first_day;
  hard.length = days(length_days);
  return hard;
}

}  // namespace rackwright::test
