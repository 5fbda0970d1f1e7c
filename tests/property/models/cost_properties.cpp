#include <cmath>
#include <random>

#include "models/cost/ledger.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("the payments' present value is the capital", "[property][cost]") {
  for (const double interest : {0.0, 1e-9, 0.01, 0.05, 0.2}) {
    for (const int years : {1, 2, 8, 30}) {
      const double payment = cost::annual_cost(Money(1234), years, interest).value();
      double worth = 0.0;
      for (int year = 1; year <= years; ++year) worth += payment / std::pow(1.0 + interest, year);
      INFO(interest << " over " << years);
      REQUIRE(worth == Approx(1234.0).epsilon(1e-10));
    }
  }
}

TEST_CASE("a year costs more at more interest and less over a longer life", "[property][cost]") {
  for (double interest = 0.0; interest < 0.3; interest += 0.01) {
    for (double years = 1.0; years < 30.0; years += 1.0) {
      const Money here = cost::annual_cost(Money(1000), years, interest);
      REQUIRE(cost::annual_cost(Money(1000), years, interest + 0.01) > here);
      REQUIRE(cost::annual_cost(Money(1000), years + 1.0, interest) < here);
    }
  }
}

TEST_CASE("capital adds up over its parts, and a bigger build never costs less", "[property][cost]") {
  std::mt19937 engine(13);
  std::uniform_int_distribution<int> n(1, 20);
  const cost::Prices prices;
  for (int i = 0; i < 500; ++i) {
    const cost::Build a{n(engine), n(engine), n(engine), n(engine) > 10, n(engine) > 10};
    const cost::Build more{a.tiers + n(engine), a.trays + n(engine), a.buckets, a.heater, a.cooler};
    const Money step = (more.tiers - a.tiers) * prices.tier + (more.trays - a.trays) * prices.tray;
    REQUIRE((cost::capital(more, prices) - cost::capital(a, prices)).value() == Approx(step.value()));
  }
}
