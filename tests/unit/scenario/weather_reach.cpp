// Which climates the check lets through, by the hours they reach.
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

bool too_far(const Scenario& farm) {
  for (const Problem& problem : check_scenario(farm))
    if (problem.key == "climate.mean") return true;
  return false;
}

}  // namespace

TEST_CASE("highs and lows that lean count as far as they reach") {
  Scenario farm = test::small_farm();
  CHECK_FALSE(too_far(farm));
  // As fitted to a hot inland station: a ceiling above, so nothing near 75 degC.
  farm.climate.range_sd = Kelvins(3.6);
  farm.climate.range_follow = 0.2;
  farm.climate.highs = {-0.13, -0.17, -0.3, 0.29, 0.34, -0.08};
  farm.climate.lows = {0.0, 0.07, 0.15, 0.3, -0.29, 0.05};
  CHECK_FALSE(too_far(farm));
  // Tails twice as long on the warm side of summer.
  farm.climate.highs = {0.6, 0.4, 0.0, -0.6, 0.0, 0.0};
  CHECK(too_far(farm));
  // The same leaning in the cold season only, and to the cold.
  farm.climate.highs = {};
  farm.climate.lows = {-0.7, 0.7, 0.0, -0.35, 0.35, 0.0};
  CHECK(too_far(farm));
}
