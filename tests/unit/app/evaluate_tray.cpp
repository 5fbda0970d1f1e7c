// `evaluate mat` against the simulator's own room and settling, and one figure for a ration wherever it is told.

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "sim/app/evaluate_tray.hpp"
#include "sim/replication/batch_settle.hpp"
#include "sim/scenario/cautions.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;
using namespace rackwright::app;

namespace {

constexpr double minutes_a_day = 24.0 * 60.0;

// A room that stays as it began: no wave, no sun, and a store of heat that nothing empties.
Scenario steady_farm(double celsius) {
  Scenario farm = test::quiet_farm();
  farm.climate.mean.mean = Celsius(celsius);
  farm.climate.range_mean = Kelvins(0.0);
  farm.climate.range_amplitude = Kelvins(0.0);
  farm.room.solar_aperture = SquareMetres(0.0);
  farm.room.heat_capacity = HeatCapacity(1e9);
  farm.spoilage = {};
  farm.line.batches_per_day = 1;
  farm.line.grains = {"barley"};
  return farm;
}

struct Simulated { Batch batch; double warmest = 0.0; };

// A batch sown at 7 in the morning, settled every morning by the simulator.
Simulated simulate(const SteadyTray& tray, double celsius, int days) {
  const Plan plan = make_plan(steady_farm(celsius));
  Fortune fortune;
  fortune.draw(plan, 1, 0);
  RoomMarch room(plan);
  const std::vector<double> no_heat(plan.species.size(), 0.0);
  const std::int64_t sown = 24 * 20 + 7;
  room.start(fortune, sown - 31);
  room.advance_to(fortune, sown, no_heat, true, 0);
  REQUIRE(room.temperature() == near(celsius, 1e-3));
  BatchSettler settler(plan);
  Batch b;
  b.germinable = tray.fraction * tray.soak.survival;
  const double ahead = (tray.soak.head_start - tray.soak.delay) / 24.0, median_rate = germination::rate(tray.germination, Celsius(20.0));
  b.vigour = tray.vigour;
  b.growth = ahead + (1.0 - 1.0 / tray.vigour) / median_rate;
  b.progress = std::max(0.0, ahead * median_rate);
  b.had_chance = b.germinated = settler.share_germinated(0, b.progress);
  b.load = 1.0;
  b.settled = static_cast<double>(sown) * 60.0;
  spoilage::Tray like{.density = tray.density, .relative_humidity = tray.relative_humidity, .soak_stress = tray.soak.stress, .undrained = tray.undrained};
  b.sour_rate = spoilage::sour_multiplier(tray.spoilage, like);
  like.dead_fraction = 1.0 - growth::growing_share(tray.growth, b.germinable, tray.density);
  b.load = spoilage::mould_multiplier(tray.spoilage, like);
  b.dead_inverse = 1.0 / spoilage::dead_grain_factor(tray.spoilage, like.dead_fraction);
  Simulated end;
  for (int day = 1; day <= days; ++day) {
    room.set_mark(b.mark);
    room.advance_to(fortune, sown + 24 * day, no_heat, true, 0);
    end.warmest = std::max(end.warmest, b.excess);
    settler.settle_one(b, room, static_cast<double>(sown) * 60.0 + day * minutes_a_day, 1.0);
  }
  end.batch = b;
  return end;
}

SteadyTray tray_at(double celsius, double days) {
  SteadyTray tray;
  tray.germination = *germination::preset("barley");
  tray.growth = *growth::preset("barley");
  tray.air = Celsius(celsius);
  tray.days = days;
  tray.soak = soak::effect(*soak::preset("barley"), tray.air, 0.12, Hours(10.0));
  return tray;
}

}  // namespace

TEST_CASE("evaluate's tray is the simulator's: growth, sprouting, warmth, mould and souring in a steady room") {
  struct Room { double celsius; int days; double vigour; };
  for (const auto& [celsius, days, vigour] : {Room{12.0, 10, 1.0}, Room{20.0, 7, 1.0}, Room{24.0, 8, 1.0}, Room{28.0, 7, 1.0}, Room{31.0, 6, 1.0}, Room{16.0, 9, 0.6}, Room{22.0, 7, 1.5}}) {
    INFO(celsius << " degC, " << days << " d, vigour " << vigour);
    SteadyTray tray = tray_at(celsius, days);
    tray.vigour = vigour;
    const SteadyEnd told = grow(tray);
    const Simulated played = simulate(tray, celsius, days);
    CHECK(told.growth_days == Approx(played.batch.growth).epsilon(0.002));
    CHECK(told.sprouted == Approx(played.batch.germinable * played.batch.germinated).epsilon(0.002));
    CHECK(told.excess.value() == Approx(played.warmest).epsilon(0.002));
    CHECK(told.excess.value() > 1.5);
    // Competing risks: the chance of either is that of the sum of both hazards.
    const double either = -std::expm1(-(played.batch.mould + played.batch.sour));
    CHECK(told.mould + told.sour == Approx(either).epsilon(0.005));
    CHECK(told.sour <= either);
    CHECK(told.sour / told.mould == Approx(played.batch.sour / played.batch.mould).epsilon(0.2).margin(1e-4));
  }
}

TEST_CASE("a mat that warms itself is ahead of one that is held at the air's temperature, and a held one follows the laws") {
  SteadyTray tray = tray_at(16.0, 8.0);
  const SteadyEnd own = grow(tray);
  tray.own_warmth = false;
  const SteadyEnd held = grow(tray);
  CHECK(own.growth_days > held.growth_days + 0.3);
  CHECK(own.mat.dry_matter_loss > held.mat.dry_matter_loss);
  CHECK(held.excess == Kelvins(0.0));
  CHECK(held.growth_days - held.first_growth_days == Approx(8.0 * growth::growth_rate(tray.growth, tray.air)));
  REQUIRE(days_until(tray, 4.0).has_value());
  tray.days = *days_until(tray, 4.0);
  CHECK(grow(tray).growth_days == Approx(4.0));
  CHECK_FALSE(days_until(tray, 5.0).has_value());
}

TEST_CASE("the caution about a ration and the table of check go by one figure and one limit") {
  for (double ration = 0.5; ration <= 10.0; ration += 0.25) {
    Scenario farm = test::small_farm();
    farm.line.grains = {"wheat", "barley"};  // the driest is not the one that is sown first
    farm.groups[0].ration = Kilograms(ration);
    farm.groups[1].ration = Kilograms(0.02 * ration);
    const Plan plan = make_plan(farm);
    std::string all;
    for (const std::string& line : cautions(farm)) all += line + "\n";
    for (std::size_t i = 0; i < 2; ++i) {
      const bool over = plan.groups[i].diet_share > plan.groups[i].limit;
      const std::string told = farm.groups[i].name + ", " + std::to_string(std::lround(100.0 * plan.groups[i].diet_share)) + " % of the dry matter";
      INFO(told << ", ration " << ration);
      CHECK((all.find(told) != std::string::npos) == over);
    }
  }
}
