// Mats warm the room and the room warms mats: where that runs away, and where it does not.

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

#include <fmt/format.h>

#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"
#include "tests/paths.hpp"

using namespace rackwright;

namespace {

// A dense rack in a small tin room in July, and a week of heat.
Scenario tin_room() {
  Scenario farm = test::quiet_farm();
  farm.climate.mean.mean = Celsius(25.0);
  farm.climate.range_mean = Kelvins(14.0);
  farm.run.start = {std::chrono::year(2026), std::chrono::July, std::chrono::day(1)};
  farm.run.length = days(40);
  farm.spells = {{15.0, 8.0, Kelvins(5.0)}};
  farm.spoilage = {};
  farm.rack.tiers = 6;
  farm.rack.trays_per_tier = 16;
  farm.line.trays_per_batch = 6;
  farm.line.sowing_density = KilogramsPerSquareMetre(8.0);
  farm.water.emitters_per_tier = 4;
  farm.water.pump.full_flow = LitresPerHour(4000.0);
  farm.water.pump.shutoff = Metres(10.0);
  farm.room.floor_area = SquareMetres(8.0);
  farm.room.height = Metres(2.2);
  farm.room.shell_area = SquareMetres(33.0);
  farm.room.shell = Transmittance(6.0);
  farm.room.air_changes = 0.5;
  farm.room.heat_capacity = HeatCapacity(1500.0);
  farm.room.solar_aperture = SquareMetres(4.0);
  return farm;
}

Scenario insulated(Scenario farm) {
  farm.room.shell = Transmittance(0.6);
  farm.room.solar_aperture = SquareMetres(0.4);
  farm.room.air_changes = 12.0;
  farm.room.heat_capacity = HeatCapacity(6000.0);
  return farm;
}

struct Seen { double hottest = 0.0, above_outdoors = 0.0, lost = 0.0; };

// Over the days of the heat and those before it.
Seen see(const Scenario& farm, int from, int to) {
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  replicator.run(2, 0);
  Seen seen;
  for (int day = from; day < to; ++day) {
    const DailyRow& row = replicator.daily()[static_cast<std::size_t>(day)];
    seen.hottest = std::max(seen.hottest, static_cast<double>(row.room_max));
    seen.above_outdoors += static_cast<double>(row.room_mean - row.outdoor_mean) / (to - from);
    seen.lost += static_cast<double>(row.spoiled);
  }
  return seen;
}

}  // namespace

TEST_CASE("the page's table of runaways is what the program says") {
  // Afternoons of the week of heat outdoors; half the range is 7 K, the heat 5 K.
  std::string table;
  for (const double afternoon : {23.0, 26.0, 29.0, 32.0, 35.0, 38.0}) {
    Scenario tin = tin_room();
    tin.climate.mean.mean = Celsius(afternoon - 12.0);
    Scenario aired_tin = tin, tight = insulated(tin), aired = insulated(tin), thin = aired;
    aired_tin.room.air_changes = 12.0;
    tight.room.air_changes = 0.5;
    thin.line.sowing_density = KilogramsPerSquareMetre(5.0);
    table += fmt::format("| {:.0f} |", afternoon);
    for (const Scenario* farm : {&tin, &aired_tin, &tight, &aired, &thin}) {
      const Seen seen = see(*farm, 16, 23);
      const double share = seen.lost / (7.0 * 12.0);
      table += share > 0.985 ? fmt::format(" {:.0f}; all |", seen.hottest) : fmt::format(" {:.0f}; {:.0f} % |", seen.hottest, 100.0 * share);
    }
    table += "\n";
  }
  std::ifstream file(RACKWRIGHT_SOURCE_DIR "/docs/models/room.md");
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  INFO("put this into docs/models/room.md:\n" << table);
  CHECK(page.find(table) != std::string::npos);
}

TEST_CASE("a dense rack in a small tin room runs away in a heat wave, an insulated, aired one does not") {
  const Seen tin = see(tin_room(), 16, 23), stone = see(insulated(tin_room()), 16, 23);
  const double sown = 7.0 * 12.0;
  CAPTURE(tin.hottest, tin.lost, tin.above_outdoors, stone.hottest, stone.lost, stone.above_outdoors);
  CHECK(tin.hottest > 40.0);
  CHECK(tin.lost > 0.5 * sown);
  CHECK(stone.hottest < tin.hottest - 5.0);
  CHECK(stone.lost < 0.4 * tin.lost);
}

TEST_CASE("it is the mats that do it: a tight insulated room runs away in mild weather, thin sowing or airing keeps it") {
  Scenario tight = tin_room();
  tight.spells.clear();
  tight.spoilage.mould_rate = tight.spoilage.sour_rate = 0.0;
  tight.climate.mean.mean = Celsius(16.0);
  tight.room.shell = Transmittance(0.6);
  tight.room.solar_aperture = SquareMetres(0.2);
  tight.room.air_changes = 0.3;
  Scenario thin = tight, aired = tight;
  thin.line.sowing_density = KilogramsPerSquareMetre(3.0);
  aired.room.air_changes = 12.0;
  const Seen dense = see(tight, 5, 30), half = see(thin, 5, 30), airy = see(aired, 5, 30);
  CAPTURE(dense.above_outdoors, half.above_outdoors, airy.above_outdoors, dense.hottest, half.hottest, airy.hottest);
  CHECK(dense.above_outdoors > half.above_outdoors + 3.0);
  CHECK(half.above_outdoors > airy.above_outdoors + 3.0);
}
