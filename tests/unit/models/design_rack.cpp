#include <stdexcept>

#include "models/design/rack.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {
const design::Rack rack{
    4, 8, Metres(0.6), Metres(0.3), Metres(0.35), Metres(0.3), Kilograms(0.8), KilogramsPerSquareMetre(4.0)};
}

TEST_CASE("places, area and heights of a rack", "[design]") {
  CHECK(design::positions(rack) == 32);
  CHECK(design::tray_area(rack).value() == Approx(0.18));
  CHECK(design::footprint(rack).value() == Approx(8 * 0.18));
  const auto heights = design::tier_heights(rack);
  REQUIRE(heights.size() == 4);
  CHECK(heights.front().value() == Approx(0.3));
  CHECK(heights.back().value() == Approx(1.35));
  CHECK(design::total_height(rack).value() == Approx(1.7));
}

TEST_CASE("what a loaded rack weighs", "[design]") {
  const auto load = design::loaded(rack, KilogramsPerSquareMetre(5.0), 5.0);
  CHECK(load.per_tray.value() == Approx(0.18 * (25.0 + 4.0) + 0.8));
  CHECK(load.per_tier.value() == Approx(8 * load.per_tray.value()));
  CHECK(load.total.value() == Approx(32 * load.per_tray.value()));
}

TEST_CASE("a tall narrow rack is slender", "[design]") {
  CHECK(design::slenderness(rack) == Approx(1.7 / 0.6));
  design::Rack tall = rack;
  tall.tiers = 6;
  CHECK(design::slenderness(rack) < design::slenderness_to_anchor);
  CHECK(design::slenderness(tall) > design::slenderness_to_anchor);
}

TEST_CASE("a rack without tiers or trays is refused", "[design]") {
  design::Rack none = rack;
  none.tiers = 0;
  CHECK_THROWS_AS(design::positions(none), std::logic_error);
  CHECK_THROWS_AS(design::tier_heights(none), std::logic_error);
  none = rack;
  none.tray_width = Metres(0.0);
  CHECK_THROWS_AS(design::tray_area(none), std::logic_error);
  CHECK_THROWS_AS(design::loaded(rack, KilogramsPerSquareMetre(-1), 5.0), std::logic_error);
}
