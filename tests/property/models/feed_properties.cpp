#include <random>

#include "models/feed/value.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("dry matter and protein of mat, breath and leachate add up to the grain's", "[property][feed]") {
  std::mt19937 engine(12);
  std::uniform_real_distribution<double> u(0.0, 1.0);
  for (int i = 0; i < 2000; ++i) {
    const double mass = 100.0 * u(engine), dry = 0.8 + 0.2 * u(engine), loss = 0.5 * u(engine), leached = u(engine);
    const feed::GrainValue value{0.05 + 0.2 * u(engine), 8.0 + 6.0 * u(engine)};
    const auto grain = feed::dry_grain(Kilograms(mass), dry, value);
    const auto mat = feed::mat(Kilograms(mass), dry, loss, leached, value, 0.96);
    const double lost = grain.dry_matter * loss;
    const double leachate = lost * leached, breath = lost - leachate;
    REQUIRE(mat.dry_matter + leachate + breath == Approx(grain.dry_matter).epsilon(1e-12).margin(1e-12));
    REQUIRE(mat.crude_protein + leachate * value.crude_protein ==
            Approx(grain.crude_protein).epsilon(1e-12).margin(1e-12));
    // What is kept of each: protein concentrates, energy does not.
    REQUIRE(mat.crude_protein * grain.dry_matter >= mat.dry_matter * grain.crude_protein * (1.0 - 1e-12));
    REQUIRE(mat.energy_mj * grain.dry_matter <= mat.dry_matter * grain.energy_mj * (1.0 + 1e-12));
  }
}

TEST_CASE("more loss or more leachate never adds a nutrient", "[property][feed]") {
  const feed::GrainValue value;
  for (double loss = 0.0; loss < 0.6; loss += 0.02) {
    for (double leached = 0.0; leached < 0.95; leached += 0.05) {
      const auto here = feed::mat(Kilograms(1), 0.89, loss, leached, value);
      const auto more_loss = feed::mat(Kilograms(1), 0.89, loss + 0.02, leached, value);
      const auto more_leached = feed::mat(Kilograms(1), 0.89, loss, leached + 0.05, value);
      REQUIRE(more_loss.dry_matter < here.dry_matter);
      REQUIRE(more_loss.energy_mj < here.energy_mj);
      REQUIRE(more_loss.crude_protein <= here.crude_protein);
      REQUIRE(more_leached.crude_protein <= here.crude_protein);
      REQUIRE(more_leached.dry_matter == here.dry_matter);
    }
  }
}
