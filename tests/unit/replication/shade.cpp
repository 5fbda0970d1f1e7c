// Shade that hangs, and doors and windows that stand open, for a part of every year.

#include <cmath>
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
  for (const int day : {10, 100, 300, 365 + 50, 365 + 320}) CHECK(summer[static_cast<std::size_t>(day)].room_mean == near(open[static_cast<std::size_t>(day)].room_mean, 0.1));
  for (const int day : {140, 200, 270, 365 + 200}) CHECK(summer[static_cast<std::size_t>(day)].room_mean == near(dark[static_cast<std::size_t>(day)].room_mean, 0.1));
  CHECK(open[200].room_mean > dark[200].room_mean + 1.0F);
  // Round the turn of the year: a glass house that is shaded in winter only.
  REQUIRE_FALSE(set_key(farm, "room.shade_from", "2026-10-01"));
  REQUIRE_FALSE(set_key(farm, "room.shade_until", "2026-05-01"));
  const auto winter = days_of(farm);
  CHECK(winter[200].room_mean == near(open[200].room_mean, 0.1));
  CHECK(winter[50].room_mean == near(dark[50].room_mean, 0.1));
  CHECK(winter[365 + 350].room_mean == near(dark[365 + 350].room_mean, 0.1));
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

TEST_CASE("doors open for a season renew the air as if it were always so then, and not for the rest of every year") {
  Scenario farm = test::quiet_farm(2 * 365);
  farm.run.start = std::chrono::year_month_day{std::chrono::year(2026) / 1 / 1};
  farm.room.air_changes = 0.5;
  const auto shut = days_of(farm);
  farm.room.air_changes = 12.0;
  const auto open = days_of(farm);
  farm.room.air_changes = 0.5;
  REQUIRE_FALSE(set_key(farm, "room.open_air_changes", "12"));
  REQUIRE_FALSE(set_key(farm, "room.open_from", "1999-05-01"));
  REQUIRE_FALSE(set_key(farm, "room.open_until", "2030-10-01"));
  REQUIRE(check_scenario(farm).empty());
  const auto summer = days_of(farm);
  // A fortnight after it changed the room has forgotten what was before; what the trays hold may still differ a little.
  for (const int day : {10, 100, 300, 365 + 50, 365 + 320}) {
    const auto d = static_cast<std::size_t>(day);
    CHECK(summer[d].room_mean == near(shut[d].room_mean, 0.1));
    CHECK(summer[d].room_humidity == near(shut[d].room_humidity, 0.02));
    CHECK(std::abs(shut[d].room_mean - open[d].room_mean) > 0.5F);
  }
  for (const int day : {140, 200, 270, 365 + 200}) {
    const auto d = static_cast<std::size_t>(day);
    CHECK(summer[d].room_mean == near(open[d].room_mean, 0.1));
    CHECK(summer[d].room_humidity == near(open[d].room_humidity, 0.02));
    CHECK(std::abs(shut[d].room_humidity - open[d].room_humidity) > 0.05F);
  }
}

TEST_CASE("a season of open doors needs its days and its air, and is told by each key that misses") {
  Scenario farm = test::quiet_farm();
  const auto only = [&] {
    const Problems found = check_scenario(farm);
    REQUIRE(found.size() == 1);
    return found.front().key;
  };
  farm.open_air_changes = 6.0;
  CHECK(only() == "room.open_air_changes");
  farm.opened.from = 121;
  CHECK(only() == "room.open_from");
  farm.opened.until = 121;
  CHECK(only() == "room.open_until");
  farm.opened.until = 274;
  CHECK(check_scenario(farm).empty());
  farm.open_air_changes = 0.0;
  CHECK(only() == "room.open_air_changes");
  // To choose one of, too, it needs the days.
  farm.opened = {};
  farm.choose.choices = {{"room.open_air_changes", {"2", "8"}}};
  CHECK(only() == "choose.room.open_air_changes");
  farm.opened = {.from = 121, .until = 274};
  farm.open_air_changes = 6.0;
  CHECK(check_scenario(farm).empty());
}
