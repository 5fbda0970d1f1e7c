#pragma once
// A farm small enough that its years take no time: six goats, one barley, two months.

#include "sim/scenario/scenario.hpp"

namespace rackwright::test {

inline Scenario goat_farm() {
  Scenario farm;
  farm.run.length = days(60);
  farm.grains.emplace_back().name = "barley";
  Group& goats = farm.groups.emplace_back();
  goats.name = "goats";
  goats.count = 6;
  farm.line.trays_per_batch = 6;
  farm.rack.tiers = 5;
  farm.rack.trays_per_tier = 12;
  farm.target.unripe_fed = 1.0;  // a cold spring without a heater; what it is for is something else
  return farm;
}

}  // namespace rackwright::test
