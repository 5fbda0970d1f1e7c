#include <cmath>
#include <random>

#include "models/herd/breeding.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {
std::vector<herd::GrowthCurve> some_curves() {
  std::mt19937 engine(11);
  std::uniform_real_distribution<double> u(0.0, 1.0);
  std::vector<herd::GrowthCurve> curves;
  for (int i = 0; i < 200; ++i) {
    const double mature = std::pow(10.0, -0.3 + 3.2 * u(engine));
    curves.push_back({Kilograms(mature), 0.002 + 0.05 * u(engine), Kilograms(mature * (0.005 + 0.3 * u(engine)))});
  }
  return curves;
}
}  // namespace

TEST_CASE("weight climbs, never passes the mature weight, and gain is its slope", "[property][herd]") {
  for (const auto& curve : some_curves()) {
    INFO("mature " << curve.mature.value() << " rate " << curve.rate_per_day << " start " << curve.start.value());
    double before = 0.0;
    for (double age = 0.0; age < 800.0; age += 23.0) {
      const double weight = herd::weight_at(curve, days(age)).value();
      REQUIRE(weight > before * (1.0 - 1e-12));
      REQUIRE(weight <= curve.mature.value() * (1.0 + 1e-12));
      const double slope =
          (herd::weight_at(curve, days(age + 0.01)) - herd::weight_at(curve, days(age))).value() / 0.01;
      REQUIRE(herd::gain_at(curve, days(age + 0.005)).value() ==
              Approx(slope).epsilon(1e-5).margin(1e-9 * curve.mature.value()));
      REQUIRE(herd::gain_at(curve, days(age)) <= herd::greatest_gain(curve) * (1.0 + 1e-12));
      before = weight;
    }
  }
}

TEST_CASE("scaling there and back is the same curve", "[property][herd]") {
  for (const auto& curve : some_curves()) {
    const auto back = herd::scaled_to(herd::scaled_to(curve, Kilograms(77)), curve.mature);
    REQUIRE(back.rate_per_day == Approx(curve.rate_per_day).epsilon(1e-12));
    REQUIRE(back.start.value() == Approx(curve.start.value()).epsilon(1e-12));
  }
}

TEST_CASE("heavier animals and more milk never eat less, and shares stay sane", "[property][herd]") {
  for (const auto& animal : herd::all_classes()) {
    INFO(animal.name);
    double before = 0.0;
    for (int i = 1; i <= 40; ++i) {
      const Kilograms weight = animal.weight * (0.5 + 0.025 * i);
      const double eaten = herd::intake(animal, weight, Kilograms(2)).value();
      REQUIRE(eaten > before);
      REQUIRE(eaten / weight.value() > 0.005);
      REQUIRE(eaten / weight.value() < 0.10);
      before = eaten;
    }
    before = 0.0;
    for (double milk = 0.5; milk < 40.0; milk += 0.5) {
      const double eaten = herd::intake(animal, animal.weight, Kilograms(milk)).value();
      REQUIRE(eaten >= before);
      before = eaten;
    }
  }
}

TEST_CASE("pig feed is continuous and climbs", "[property][herd]") {
  double before = 0.0;
  for (double w = 0.1; w < 200.0; w += 0.1) {
    const double feed = herd::growing_pig_feed(Kilograms(w)).value();
    REQUIRE(feed > before);
    REQUIRE(feed - before < 0.02);
    before = feed;
  }
}

TEST_CASE("an introduction never falls back", "[property][herd]") {
  for (const double length : {0.5, 7.0, 14.0, 60.0}) {
    double before = 0.0;
    for (double day = -2.0; day < 70.0; day += 0.25) {
      const double share = herd::introduction_share(days(day), days(length));
      REQUIRE(share >= before);
      REQUIRE(share <= 1.0);
      before = share;
    }
    REQUIRE(before == 1.0);
  }
}

TEST_CASE("the young's want grows with age and ends at a grown animal's", "[property][herd]") {
  for (const auto& curve : some_curves()) {
    double before = 0.0;
    for (double age = 0.0; age < 4000.0; age += 50.0) {
      const double share = herd::young_share(curve, curve.mature, days(age), days(60));
      REQUIRE((age < 60.0 ? share == 0.0 : share >= before));
      REQUIRE(share <= 1.0 + 1e-12);
      before = share;
    }
  }
}
