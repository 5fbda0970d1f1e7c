// Annuity (capital recovery) against the standard engineering-economy tables, from memory, to their printed digits.

#include "models/cost/ledger.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("capital recovery factors", "[reference][cost]") {
  struct Row { double interest, years, factor; };
  for (const Row& row :
       {Row{0.05, 10, 0.12950}, Row{0.05, 5, 0.23097}, Row{0.05, 20, 0.08024}, Row{0.08, 10, 0.14903},
        Row{0.10, 5, 0.26380}, Row{0.10, 10, 0.16275}, Row{0.06, 20, 0.08718}, Row{0.10, 1, 1.10000}}) {
    INFO(row.interest << " over " << row.years << " years");
    CHECK(cost::annual_cost(Money(1), row.years, row.interest).value() ==
          Approx(row.factor).margin(0.000006).epsilon(0));
  }
}

TEST_CASE("a thousand over ten years at five percent is 129.50 a year", "[reference][cost]") {
  CHECK(cost::annual_cost(Money(1000), 10, 0.05).value() == Approx(129.50).margin(0.005).epsilon(0));
}
