// Shade that hangs for a part of every year.

#include <vector>

#include "sim/replication/replicate.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

std::vector<DailyRow> days_of(const Scenario& farm) {
  const Plan plan = make_plan(farm);
  Replicator replicator(plan);
  replicator.run(3, 0);
  return {replicator.daily().begin(), replicator.daily().end()};
}

}  // namespace

TEST_CASE("shade of a season keeps the sun out then and lets it in for the rest of every year") {
  Scenario farm = test::quiet_farm(2 * 365);
  farm.run.start = std::chrono::year_month_day{std::chrono::year(2026) / 1 / 1};
  farm.room.solar_aperture = SquareMetres(6.0);
  const auto open = days_of(farm);
  farm.room.shade = 0.9;
  const auto dark = days_of(farm);
  REQUIRE_FALSE(set_key(farm, "room.shade_from", "1999-05-01"));
  REQUIRE_FALSE(set_key(farm, "room.shade_until", "2030-10-01"));
  REQUIRE(check_scenario(farm).empty());
  CHECK(get_key(farm, "room.shade_from") == "2026-05-01");
  const auto summer = days_of(farm);
  // A fortnight after it changed the room has forgotten what was before.
  for (const int day : {10, 100, 300, 365 + 50, 365 + 320}) CHECK(summer[static_cast<std::size_t>(day)].room_mean == Approx(open[static_cast<std::size_t>(day)].room_mean).margin(0.1));
  for (const int day : {140, 200, 270, 365 + 200}) CHECK(summer[static_cast<std::size_t>(day)].room_mean == Approx(dark[static_cast<std::size_t>(day)].room_mean).margin(0.1));
  CHECK(open[200].room_mean > dark[200].room_mean + 1.0F);
  // Round the turn of the year: a glass house that is shaded in winter only.
  REQUIRE_FALSE(set_key(farm, "room.shade_from", "2026-10-01"));
  REQUIRE_FALSE(set_key(farm, "room.shade_until", "2026-05-01"));
  const auto winter = days_of(farm);
  CHECK(winter[200].room_mean == Approx(open[200].room_mean).margin(0.1));
  CHECK(winter[50].room_mean == Approx(dark[50].room_mean).margin(0.1));
  CHECK(winter[365 + 350].room_mean == Approx(dark[365 + 350].room_mean).margin(0.1));
}

TEST_CASE("a season of shade needs both its days, and they differ") {
  Scenario farm = test::quiet_farm();
  farm.shaded.from = 121;
  REQUIRE(check_scenario(farm).size() == 1);
  CHECK(check_scenario(farm).front().why == "needs both room.shade_from and room.shade_until");
  farm.shaded.until = 121;
  CHECK(check_scenario(farm).front().key == "room.shade_until");
  farm.shaded.until = 274;
  CHECK(check_scenario(farm).empty());
}
