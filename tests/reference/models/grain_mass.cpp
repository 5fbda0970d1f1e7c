// What a volume of grain weighs, and what common practice says of tray charges and bags.

#include "models/grain/species.hpp"
#include "models/grain/store.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

constexpr double pound = 0.45359237, cup = 0.2365882365e-3, winchester_bushel = 35.23907017e-3;  // kg, m3, m3
constexpr SquareMetres us_tray(0.129);                                                           // 10 by 20 inches

struct Row {
  const char* species;
  double pounds_per_bushel, kg_per_m3;
};

}  // namespace

TEST_CASE("bulk density follows the legal bushel weights") {
  // Legal bushel weights (wheat 60, barley 48, oat 32, rye 56, maize 56 lb; triticale 50 lb for crop insurance) and the
  // kg/m3 column of a combine maker's manual; both print to 1 kg/m3.
  const Row rows[] = {{"barley", 48.0, 619.0}, {"wheat", 60.0, 774.0},     {"oat", 32.0, 413.0},
                      {"rye", 56.0, 722.0},    {"triticale", 50.0, 645.0}, {"maize", 56.0, 721.0}};
  for (const Row& row : rows) {
    INFO(row.species);
    const auto species = grain::find_species(row.species);
    REQUIRE(species);
    CHECK(species->bulk_density.value() == Approx(row.kg_per_m3).margin(1.0));
    CHECK(grain::mass_of_volume(*species, CubicMetres(winchester_bushel)).value() ==
          Approx(row.pounds_per_bushel * pound).epsilon(4e-3));
  }
}

TEST_CASE("about five cups of wheat or seven of barley charge a usual tray") {
  // common practice, no source: both volumes are one tray's charge, so both must land in the usual 4 to 8 kg/m2 and
  // agree.
  const Kilograms wheat = grain::mass_of_volume(*grain::find_species("wheat"), CubicMetres(5.0 * cup));
  const Kilograms barley = grain::mass_of_volume(*grain::find_species("barley"), CubicMetres(7.0 * cup));
  for (const Kilograms charge : {wheat, barley}) {
    INFO("charge " << charge.value() << " kg");
    CHECK(charge.value() / us_tray.value() > 4.0);
    CHECK(charge.value() / us_tray.value() < 8.0);
  }
  CHECK(wheat / barley == Approx(1.0).margin(0.15));
}

TEST_CASE("a bag of 25 lb at a tray a day lasts about two weeks or a little less") {
  // common practice, no source: a usual charge lies between 6 kg/m2 and the seven heaped cups above.
  const Kilograms bag(25.0 * pound);
  const Kilograms light = KilogramsPerSquareMetre(6.0) * us_tray;
  const Kilograms heavy = grain::mass_of_volume(*grain::find_species("barley"), CubicMetres(7.0 * cup));
  CHECK(in_days(grain::bag_life(bag, light)) == Approx(14.0).margin(1.0));
  CHECK(in_days(grain::bag_life(bag, heavy)) >= 11.0);
  CHECK(in_days(grain::bag_life(bag, heavy)) <= 14.0);
}
