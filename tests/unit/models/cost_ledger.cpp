#include <stdexcept>

#include "models/cost/ledger.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("capital without interest is spread in a straight line", "[cost]") {
  CHECK(cost::annual_cost(Money(800), 8, 0).value() == Approx(100.0));
  CHECK(cost::annual_cost(Money(0), 8, 0.05).value() == 0.0);
}

TEST_CASE("a very small interest meets the straight line", "[cost]") {
  CHECK(cost::annual_cost(Money(800), 8, 1e-12).value() == Approx(100.0).epsilon(1e-10));
}

TEST_CASE("annuity refuses what has no meaning", "[cost]") {
  CHECK_THROWS_AS(cost::annual_cost(Money(800), 0, 0.05), std::logic_error);
  CHECK_THROWS_AS(cost::annual_cost(Money(-1), 8, 0.05), std::logic_error);
  CHECK_THROWS_AS(cost::annual_cost(Money(800), 8, -0.05), std::logic_error);
}

TEST_CASE("the price of a rack", "[cost]") {
  const cost::Prices prices{Money(60), Money(9), Money(70), Money(8), Money(120), Money(150), Money(450)};
  CHECK(cost::capital({4, 36, 3, false, false}, prices).value() == Approx(4 * 60 + 36 * 9 + 3 * 8 + 120 + 70));
  CHECK(cost::capital({4, 36, 3, true, true}, prices).value() ==
        Approx(4 * 60 + 36 * 9 + 3 * 8 + 120 + 70 + 150 + 450));
  CHECK(cost::capital({}, prices).value() == 0.0);
  // 40 m2 of walls under 5 cm, and 2 m2 of window half shaded.
  cost::Prices clad = prices;
  clad.shade_per_m2 = 25.0;
  CHECK(cost::capital({4, 36, 3, false, false, 2.0, 1.0}, clad).value() == Approx(cost::capital({4, 36, 3, false, false}, clad).value() + 2.0 * 180.0 + 25.0));
  CHECK_THROWS_AS(cost::capital({4, 36, 3, false, false, -1.0}, prices), std::logic_error);
  CHECK_THROWS_AS(cost::capital({-1, 0, 0, false, false}, prices), std::logic_error);
}

TEST_CASE("a bill names what there is, and adds up to the capital", "[cost]") {
  const cost::Prices prices{};
  CHECK(cost::bill({}, prices).empty());
  const auto parts = cost::bill({4, 36, 3, true, false, 2.0, 0.0}, prices);
  double sum = 0.0;
  std::vector<std::string_view> names;
  for (const cost::Part& part : parts) {
    names.push_back(part.name);
    CHECK(part.amount > 0.0);
    sum += (part.amount * part.each).value();
  }
  CHECK(names == std::vector<std::string_view>{"tiers", "trays", "soak buckets", "frame", "pump with timer and pipes", "heater", "insulation"});
  CHECK(sum == Approx(cost::capital({4, 36, 3, true, false, 2.0, 0.0}, prices).value()));
}

TEST_CASE("a ledger sums its parts and refuses a negative one", "[cost]") {
  cost::Ledger ledger{1, 2, 3, 4, 5, 6, 7};
  CHECK(ledger.total() == 28.0);
  ledger.water = -0.01;
  CHECK_THROWS_AS(ledger.total(), std::logic_error);
}

TEST_CASE("cost per kilogram, and nothing served costs nothing a kilogram", "[cost]") {
  CHECK(cost::per_kilogram(50.0, 200.0) == Approx(0.25));
  CHECK(cost::per_kilogram(50.0, 0.0) == 0.0);
  CHECK(cost::bought_per_kilogram_dry(0.35, 0.875) == Approx(0.4));
  CHECK_THROWS_AS(cost::bought_per_kilogram_dry(0.35, 0.0), std::logic_error);
}
