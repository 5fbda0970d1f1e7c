// Keys of the keeper's own line and of ignorance: what they take, and what growth makes of them.
#include "sim/scenario/read.hpp"
#include "sim/scenario/watering.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

TEST_CASE("ties are pairs of laws with a correlation, and must fit together") {
  Scenario scenario = test::small_farm();
  CHECK_FALSE(set_key(scenario, "ignorance.ties", "loss swelling 0.75, pace height -0.5"));
  REQUIRE(scenario.ignorance.ties.size() == 2);
  CHECK(scenario.ignorance.ties[0] == Tie{Law::loss, Law::swelling, 0.75});
  CHECK(get_key(scenario, "ignorance.ties") == "loss swelling 0.75, pace height -0.5");
  const Reading again = read_scenario(resolved_text(scenario));
  REQUIRE(again.scenario);
  CHECK(again.scenario->ignorance == scenario.ignorance);
  for (const char* wrong : {"loss swelling", "loss swelling 1", "loss loss 0.5", "loss luck 0.5", "loss swelling x", "loss swelling nan",
                            "loss swelling 0.5, swelling loss 0.5", "loss swelling 0.9, swelling pace 0.9, pace loss -0.9"}) {
    INFO(wrong);
    CHECK(set_key(scenario, "ignorance.ties", wrong));
    CHECK(scenario.ignorance.ties.size() == 2);
  }
}

TEST_CASE("an own line moves every species' mats by its factors") {
  Scenario scenario = test::small_farm();
  const growth::Parameters before = growth_of(scenario, "barley");
  for (const char* setting : {"own_line.pace=1.25", "own_line.loss=0.8", "own_line.swelling=1.5", "own_line.height=0.9"}) {
    const std::string text(setting);
    REQUIRE_FALSE(set_key(scenario, text.substr(0, text.find('=')), text.substr(text.find('=') + 1)));
  }
  const growth::Parameters after = growth_of(scenario, "barley");
  for (const double t : {8.0, 20.0, 30.0}) CHECK(growth::growth_rate(after, Celsius(t)) == Approx(1.25 * growth::growth_rate(before, Celsius(t))));
  const KilogramsPerSquareMetre density(5.0);
  for (const double g : {1.0, 4.0, 8.0}) {
    const growth::Mat a = growth::mat(before, g, 1.0, density, 0.88), b = growth::mat(after, g, 1.0, density, 0.88);
    CHECK(b.dry_matter_loss == Approx(0.8 * a.dry_matter_loss));
    CHECK(b.height_cm == Approx(0.9 * a.height_cm));
    const double soaked = 1.0 / before.mat_dry_matter_start;
    CHECK(1.0 / b.dry_matter - soaked == Approx(1.5 * (1.0 / a.dry_matter - soaked)));
    CHECK(b.fresh_ratio == Approx(0.88 * (1.0 - b.dry_matter_loss) / b.dry_matter));
  }
}
