// Mass, water and heat of a mat balance for any species, age, share and density.

#include <cmath>

#include "models/growth/mat.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

template <class Check>
void for_every_mat(Check check) {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    const auto p = *growth::preset(species);
    for (double g = 0.0; g <= 14.0; g += 0.7) {
      for (const double sprouted : {0.0, 0.13, 0.6, 0.93, 1.0}) {
        for (const double density : {1.0, 5.0, 7.6, 11.0}) {
          for (const double solids : {0.82, 0.89, 1.0}) {
            INFO(species << " g " << g << " sprouted " << sprouted << " density " << density << " solids " << solids);
            check(p, g, sprouted, KilogramsPerSquareMetre(density), solids);
          }
        }
      }
    }
  }
}

}  // namespace

TEST_CASE("fresh mass, dry matter and loss satisfy the identity") {
  for_every_mat(
      [](const growth::Parameters& p, double g, double sprouted, KilogramsPerSquareMetre density, double solids) {
        const growth::Mat mat = growth::mat(p, g, sprouted, density, solids);
        CHECK(std::abs(mat.fresh_ratio - solids * (1.0 - mat.dry_matter_loss) / mat.dry_matter) < 1e-9);
      });
}

TEST_CASE("water in a mat is what it took up, brought and made") {
  for_every_mat(
      [](const growth::Parameters& p, double g, double sprouted, KilogramsPerSquareMetre density, double solids) {
        const growth::Mat mat = growth::mat(p, g, sprouted, density, solids);
        const double held = mat.fresh_ratio * (1.0 - mat.dry_matter);
        const double made = growth::respiration_water * p.respired_share * solids * mat.dry_matter_loss;
        CHECK(std::abs(held - (mat.taken_up_litres + (1.0 - solids) + made)) < 1e-9);
        CHECK(mat.water_litres >= mat.taken_up_litres);
      });
}

TEST_CASE("a mat stays within its bounds") {
  for_every_mat(
      [](const growth::Parameters& p, double g, double sprouted, KilogramsPerSquareMetre density, double solids) {
        const growth::Mat mat = growth::mat(p, g, sprouted, density, solids);
        CHECK(mat.fresh_ratio > 1.0);
        CHECK(mat.fresh_ratio < 9.0);
        CHECK(mat.dry_matter >= p.mat_dry_matter_end);
        CHECK(mat.dry_matter <= p.mat_dry_matter_start + 1e-12);
        CHECK(mat.dry_matter_loss >= 0.0);
        CHECK(mat.dry_matter_loss <= p.loss_plateau);
        CHECK(mat.height_cm >= 0.0);
        CHECK(mat.height_cm <= p.height_end);
        CHECK(mat.heat_watts >= 0.0);
      });
}

TEST_CASE("a mat only grows, gets wetter until ripe, and loses more dry matter, with time and with sprouting") {
  for_every_mat(
      [](const growth::Parameters& p, double g, double sprouted, KilogramsPerSquareMetre density, double solids) {
        const growth::Mat now = growth::mat(p, g, sprouted, density, solids),
                          later = growth::mat(p, g + 0.3, sprouted, density, solids);
        CHECK(later.height_cm >= now.height_cm);
        CHECK(later.dry_matter_loss >= now.dry_matter_loss);
        if (g + 0.3 <= p.ripe)
          CHECK(later.dry_matter <= now.dry_matter + 1e-12);  // past it, a wet part that shrinks can leave a drier mix
        CHECK(growth::value_kept(p, g + 0.3) <= growth::value_kept(p, g));
        if (sprouted < 0.95) {
          CHECK(growth::mat(p, g, sprouted + 0.05, density, solids).fresh_ratio >= now.fresh_ratio - 1e-12);
        }
      });
}

TEST_CASE("heat integrates to the dry matter respired, at any speed of the clock") {
  for (const char* species : {"barley", "oat", "maize"}) {
    const auto p = *growth::preset(species);
    for (const double rate : {0.4, 1.0, 1.2}) {
      for (const double end : {3.0, 7.0, 12.0}) {
        INFO(species << " rate " << rate << " to " << end << " growth days");
        constexpr int steps = 4000;  // midpoint rule
        const double day = end / rate / steps;
        double joules = 0.0;
        for (int i = 0; i < steps; ++i)
          joules += growth::heat_watts(p, rate * day * (i + 0.5), 0.9, rate, 0.89) * day * 86400.0;
        const double respired = 0.89 * 0.9 * growth::loss(p, end) * p.respired_share;
        CHECK(joules == Approx(respired * growth::respiration_heat_mj * 1e6).epsilon(1e-5));
      }
    }
  }
}

TEST_CASE("growth speeds up to the optimum and slows beyond it") {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    const auto p = *growth::preset(species);
    for (double t = -10.0; t < 45.0; t += 0.5) {
      INFO(species << " " << t << " degC");
      const double here = growth::growth_rate(p, Celsius(t)), warmer = growth::growth_rate(p, Celsius(t + 0.5));
      CHECK(here >= 0.0);
      if (t + 0.5 <= p.optimum.value()) CHECK(warmer >= here);
      if (t >= p.optimum.value()) CHECK(warmer <= here);
    }
  }
}
