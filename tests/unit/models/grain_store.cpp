#include "models/grain/store.hpp"

#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;

namespace {

grain::StorePolicy policy() {
  grain::StorePolicy p;
  p.reorder_point = Kilograms(50.0);
  p.order_up_to = Kilograms(250.0);
  p.bag = Kilograms(25.0);
  p.least_order = Kilograms(75.0);
  p.bin = Kilograms(500.0);
  return p;
}

double ordered(const grain::StorePolicy& p, double on_hand, double on_order = 0.0) {
  return grain::order_quantity(p, Kilograms(on_hand), Kilograms(on_order)).value();
}

}  // namespace

TEST_CASE("nothing is ordered above the reorder point") {
  CHECK(ordered(policy(), 50.1) == 0.0);
  CHECK(ordered(policy(), 20.0, 100.0) == 0.0);  // what is on its way counts
}

TEST_CASE("orders bring the store up in whole bags") {
  CHECK(ordered(policy(), 50.0) == 200.0);
  CHECK(ordered(policy(), 49.0) == 225.0);  // 201 kg is eight bags and one kilogram: nine
  CHECK(ordered(policy(), 0.0) == 250.0);
}

TEST_CASE("the merchant's least order holds") {
  grain::StorePolicy p = policy();
  p.order_up_to = Kilograms(60.0);
  CHECK(ordered(p, 40.0) == 75.0);
  p.least_order = Kilograms(80.0);  // not a whole number of bags: rounded up to one
  CHECK(ordered(p, 40.0) == 100.0);
}

TEST_CASE("the bin is never overfilled") {
  grain::StorePolicy p = policy();
  p.bin = Kilograms(180.0);
  CHECK(ordered(p, 40.0) == 125.0);  // 140 kg fit: five bags
  p.bin = Kilograms(100.0);
  CHECK(ordered(p, 40.0) == 0.0);  // room for two bags, the least order is three
}

TEST_CASE("a bag lasts as long as it is deep") {
  CHECK(in_days(grain::bag_life(Kilograms(25.0), Kilograms(2.5))) == Approx(10.0));
  CHECK_THROWS_AS(grain::bag_life(Kilograms(25.0), Kilograms(0.0)), std::logic_error);
}
