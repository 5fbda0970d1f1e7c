#include <random>

#include "models/design/rack.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {
std::vector<design::Rack> some_racks() {
  std::mt19937 engine(15);
  std::uniform_int_distribution<int> n(1, 12);
  std::uniform_real_distribution<double> u(0.1, 1.0);
  std::vector<design::Rack> racks;
  for (int i = 0; i < 300; ++i) {
    racks.push_back({n(engine), n(engine), Metres(u(engine)), Metres(u(engine)), Metres(u(engine)), Metres(u(engine)),
                     Kilograms(u(engine)), KilogramsPerSquareMetre(6 * u(engine))});
  }
  return racks;
}
}  // namespace

TEST_CASE("tiers are evenly spaced and below the top", "[property][design]") {
  for (const auto& rack : some_racks()) {
    const auto heights = design::tier_heights(rack);
    REQUIRE(static_cast<int>(heights.size()) == rack.tiers);
    REQUIRE(heights.front() == rack.lowest_tier);
    for (std::size_t i = 1; i < heights.size(); ++i) {
      REQUIRE((heights[i] - heights[i - 1]).value() == Approx(rack.tier_spacing.value()));
    }
    REQUIRE(heights.back() < design::total_height(rack));
    REQUIRE(design::slenderness(rack) > 0.0);
  }
}

TEST_CASE("loads add up over trays and tiers and grow with what is sown", "[property][design]") {
  for (const auto& rack : some_racks()) {
    const auto load = design::loaded(rack, KilogramsPerSquareMetre(5), 5.0);
    REQUIRE(load.total.value() == Approx(design::positions(rack) * load.per_tray.value()));
    REQUIRE(load.per_tier.value() == Approx(rack.trays_per_tier * load.per_tray.value()));
    REQUIRE(design::loaded(rack, KilogramsPerSquareMetre(6), 5.0).total > load.total);
    REQUIRE(design::loaded(rack, KilogramsPerSquareMetre(5), 6.0).total > load.total);
    REQUIRE(design::footprint(rack).value() == Approx(rack.trays_per_tier * design::tray_area(rack).value()));
  }
}
