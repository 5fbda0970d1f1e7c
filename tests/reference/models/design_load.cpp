// Rack loads against plain arithmetic on published yields.

#include "models/design/rack.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("5.5 kg of grain a square metre at a ratio of 5 weigh about 27 kg a square metre", "[reference][design]") {
  // Computed apart: 27.5 kg/m2; consensus ratio 5.0, sowing 4 to 7 kg/m2 (published trials).
  CHECK(design::mat_load(KilogramsPerSquareMetre(5.5), 5.0).value() == Approx(27.5).margin(0.5).epsilon(0));
}

TEST_CASE("with the water film a loaded level carries 30 to 34 kg a square metre besides its trays",
          "[reference][design]") {
  design::Rack rack;
  rack.tray_mass = Kilograms(0.0);
  for (const double film : {3.0, 6.0}) {  // range of the film: common practice, no source
    rack.water_film = KilogramsPerSquareMetre(film);
    const auto load = design::loaded(rack, KilogramsPerSquareMetre(5.5), 5.0);
    const double per_area = load.per_tier.value() / (rack.trays_per_tier * design::tray_area(rack).value());
    CHECK(per_area == Approx(27.5 + film));
  }
}

TEST_CASE("racks of 3 to 4 times their depth want anchoring", "[reference][design]") {
  // common practice, no source
  CHECK(design::slenderness_to_anchor >= 3.0);
  CHECK(design::slenderness_to_anchor <= 4.0);
}
