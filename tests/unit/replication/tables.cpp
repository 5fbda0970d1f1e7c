// Tables the simulator reads instead of calling a model agree with the model.

#include <cmath>

#include "sim/replication/mat_table.hpp"
#include "sim/replication/plan.hpp"
#include "sim/replication/room_march.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

TEST_CASE("the mat table is growth::mat for any sprouted share") {
  const auto parameters = *growth::preset("barley");
  const KilogramsPerSquareMetre density(6.0);
  const MatTable table(parameters, density, 0.88);
  for (double age = 0.1; age < 14.0; age += 0.37) {
    for (const double sprouted : {0.0, 0.4, 0.93, 1.0}) {
      const growth::Mat mat = growth::mat(parameters, age, sprouted, density, 0.88);
      const MatPair pair = table.at(age);
      INFO("age " << age << " sprouted " << sprouted);
      CHECK(pair.soaked_fresh + sprouted * (pair.fresh - pair.soaked_fresh) == Approx(mat.fresh_ratio).epsilon(3e-4));
      CHECK(sprouted * pair.loss == near(mat.dry_matter_loss, 2e-5));
      CHECK(pair.soaked_taken_up + sprouted * (pair.taken_up - pair.soaked_taken_up) ==
            Approx(mat.taken_up_litres).epsilon(3e-4).margin(1e-3));
      CHECK(pair.height_cm * growth::stand(sprouted * table.uncrowded()) == Approx(mat.height_cm).epsilon(2e-3).margin(1e-3));
    }
  }
}

TEST_CASE("the response table holds the models' curves") {
  const Plan plan = make_plan(test::small_farm());
  const auto& barley = plan.species.front();
  for (const double celsius : {-5.0, 4.0, 12.5, 20.0, 27.75, 33.5, 41.0}) {
    const auto row = static_cast<std::size_t>((celsius - ResponseTable::coldest) / ResponseTable::bin);
    const float* values = plan.response.row(row);
    INFO(celsius << " degC");
    CHECK(24.0 * static_cast<double>(values[ResponseTable::growth(0)]) == Approx(growth::growth_rate(barley.growth, Celsius(celsius))).epsilon(1e-6));
    CHECK(24.0 * static_cast<double>(values[ResponseTable::rate(0)]) == Approx(germination::rate(barley.germination, Celsius(celsius))).epsilon(1e-6));
    CHECK(24.0 * static_cast<double>(values[ResponseTable::mould]) == Approx(spoilage::growth_factor(plan.scenario.spoilage.mould, Celsius(celsius))).epsilon(1e-6).margin(1e-9));
  }
}

TEST_CASE("running integrals of a steady room are rate times time, at any warmth of the mat") {
  Scenario farm = test::quiet_farm();
  farm.climate.range_mean = Kelvins(0.0);
  farm.room.solar_aperture = SquareMetres(0.0);
  farm.room.evaporation_film = 0.0;
  const Plan plan = make_plan(farm);
  Fortune fortune;
  fortune.draw(plan, 1, 0);
  RoomMarch room(plan);
  room.start(fortune, 0);
  const std::vector<double> no_heat(plan.species.size(), 0.0);
  room.advance_to(fortune, 24 * 20, no_heat, true, 0);
  room.set_mark(0);
  room.advance_to(fortune, 24 * 25, no_heat, true, 0);
  const double air = room.temperature();
  for (const double warmer : {-2.0, 0.0, 1.5, 3.0, 6.2}) {
    const Increment got = room.since(0, 0, warmer);
    INFO(air << " degC, mat warmer by " << warmer);
    CHECK(got.growth == Approx(5.0 * growth::growth_rate(plan.species[0].growth, Celsius(air + warmer))).epsilon(0.01));
    CHECK(got.rate == Approx(5.0 * germination::rate(plan.species[0].germination, Celsius(air + warmer))).epsilon(0.01));
  }
}
