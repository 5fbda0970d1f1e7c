// What is done in a quick way agrees with the plain way it stands for.

#include <cmath>
#include <cstring>

#include "sim/replication/batch_settle.hpp"
#include "sim/replication/sprout_curve.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

TEST_CASE("the sprout curve is share_germinated") {
  germination::Parameters law;
  const auto error = [&](double shape) {
    law.shape = shape;
    const std::vector<double> curve = SproutCurve::of(law);
    double worst = 0.0;
    for (double progress = 0.0; progress < 60.0; progress += 0.00131) {
      worst = std::max(worst, std::abs(SproutCurve::at(curve.data(), progress) - germination::share_germinated(law, progress)));
    }
    return worst;
  };
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    INFO(species);
    CHECK(error(germination::preset(species)->shape) < 1e-8);
  }
  for (const double shape : {1.0, 1.3, 2.0, 15.0, 40.0}) {  // what a scenario may state: 1 to 40
    INFO("shape " << shape);
    CHECK(error(shape) < 2e-5);
  }
}

TEST_CASE("a day's normal is day_from's") {
  const climate::Parameters site;
  for (int day = 1; day <= 365; day += 13) {
    const climate::Day plain = climate::day_from(site, day, {1.1, -0.4}, Kelvins(2.0));
    const climate::Day quick = climate::day_from(site, climate::normal_of(site, day), {1.1, -0.4}, Kelvins(2.0));
    CHECK(plain.maximum == quick.maximum);
    CHECK(plain.minimum == quick.minimum);
    CHECK(plain.humidity_ratio == quick.humidity_ratio);
  }
}

namespace {

// Batches of both grains and marks, young and old, cool and warm.
std::vector<Batch> mixed(std::size_t count, int species) {
  std::vector<Batch> batches(count);
  for (std::size_t i = 0; i < count; ++i) {
    Batch& b = batches[i];
    const double x = static_cast<double>(i);
    b.species = b.grain = static_cast<int>(i) % species;
    b.mark = i % 3 == 0 ? 1 : 0;
    b.offset = -0.6 + 0.1 * x;
    b.excess = 0.7 * x - 3.0;  // both ends of the warmths tabulated are passed
    b.water = 1.0 - 0.02 * x;
    b.growth = -0.3 + 0.9 * x;
    b.progress = 0.2 * x;
    b.had_chance = b.progress > 2.0 ? 0.9997 : 0.01 * x;
    b.germinated = (i % 2 == 0 ? 0.8 : 0.999) * b.had_chance;
    b.vigour = 0.8 + 0.03 * x;
    b.germinable = 0.85 + 0.01 * x;
    b.dead_inverse = 0.9;
    b.load = 1.0 + 0.2 * x;
    b.sour_rate = 0.3;
    b.settled = 24 * 60.0 * (i % 2 == 0 ? 20.0 : 20.3);
  }
  return batches;
}

}  // namespace

TEST_CASE("batches settled in lanes and one by one are the same to the bit") {
  const Plan plan = make_plan(test::small_farm());
  Fortune fortune;
  fortune.draw(plan, 1, 0);
  RoomMarch room(plan);
  room.start(fortune, 24 * 20);
  const std::vector<double> no_heat(plan.species.size(), 0.0);
  room.advance_to(fortune, 24 * 20 + 9, no_heat, true, 20);
  room.set_mark(1);
  room.advance_to(fortune, 24 * 21, no_heat, true, 20);
  BatchSettler settler(plan);
  for (std::size_t count = 0; count <= 13; ++count) {
    std::vector<Batch> lanes = mixed(count, static_cast<int>(plan.species.size())), single = lanes;
    settler.settle(lanes, room, 24 * 60.0 * 21.0, 0.93);
    for (std::size_t i = 0; i < count; ++i) {
      INFO("batch " << i << " of " << count);
      settler.settle_one(single[i], room, 24 * 60.0 * 21.0, 0.93);
      for (double Batch::*field : {&Batch::offset, &Batch::water, &Batch::excess, &Batch::heat_unit, &Batch::growth, &Batch::progress,
                                   &Batch::had_chance, &Batch::germinated, &Batch::mould, &Batch::sour, &Batch::settled, &Batch::sour_rate}) {
        CHECK(lanes[i].*field == single[i].*field);
      }
      CHECK(lanes[i].growth > mixed(count, 1)[i].growth);
    }
  }
}

TEST_CASE("without electricity the room is neither heated nor cooled") {
  Scenario farm = test::quiet_farm();
  farm.climate.mean.mean = Celsius(2.0);
  farm.room.heat_capacity = HeatCapacity(3000.0);
  farm.room.heater = Watts(3000.0);
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 1, 0);
  const std::vector<double> no_heat(plan.species.size(), 0.0);
  const auto after_two_days = [&](bool powered) {
    RoomMarch room(plan);
    room.start(fortune, 0);
    room.advance_to(fortune, 48, no_heat, powered, 0);
    CHECK((room.day().heater_wh > 0.0) == powered);
    return room.temperature();
  };
  CHECK(after_two_days(true) == near(farm.room.heater_set.value(), 0.01));
  CHECK(after_two_days(false) < 8.0);
}
