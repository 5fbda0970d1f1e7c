// A lot in store: warmer, damper or longer never helps. A store: orders respect the bin and the bag.

#include <cmath>

#include "models/grain/lot.hpp"
#include "models/grain/store.hpp"
#include "models/grain/viability.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("life falls with moisture and with warmth") {
  for (const char* species : {"barley", "wheat", "oat", "rye", "triticale", "maize"}) {
    const auto constants = *grain::viability_constants(species);
    for (double moisture = 5.0; moisture < 25.0; moisture += 1.0) {
      for (double t = -20.0; t < 60.0; t += 5.0) {
        INFO(species << " " << moisture << " % " << t << " degC");
        const double life = grain::sigma_days(constants, moisture, Celsius(t));
        CHECK(life > 0.0);
        CHECK(grain::sigma_days(constants, moisture + 0.5, Celsius(t)) < life);
        CHECK(grain::sigma_days(constants, moisture, Celsius(t + 2.0)) < life);
      }
    }
  }
}

TEST_CASE("viability falls with ageing and keeps the order of lots") {
  for (double probits = 0.0; probits < 6.0; probits += 0.25) {
    INFO("probits " << probits);
    CHECK(grain::viability_after(0.9, probits + 0.25) < grain::viability_after(0.9, probits));
    CHECK(grain::viability_after(0.8, probits) < grain::viability_after(0.9, probits));
  }
}

TEST_CASE("orders are whole bags, at least the least, within the bin, and only when low") {
  grain::StorePolicy p;
  for (const double bag : {10.0, 11.34, 25.0}) {
    for (const double bin : {60.0, 300.0, 500.0}) {
      for (double on_hand = 0.0; on_hand <= 400.0; on_hand += 7.3) {
        p.bag = Kilograms(bag);
        p.bin = Kilograms(bin);
        INFO("bag " << bag << " bin " << bin << " on hand " << on_hand);
        const double ordered = grain::order_quantity(p, Kilograms(on_hand), Kilograms(0.0)).value();
        const double bags = ordered / bag;
        CHECK(bags == near(std::round(bags), 1e-9));
        if (ordered > 0.0) {
          CHECK(on_hand <= p.reorder_point.value());
          CHECK(ordered >= p.least_order.value() - 1e-9);
          CHECK(on_hand + ordered <= bin + 1e-6);
        }
      }
    }
  }
}

TEST_CASE("more germinated kernels never lower what a trial says") {
  for (int germinated = 0; germinated < 50; ++germinated) {
    INFO(germinated << " of 50");
    const auto now = grain::trial_posterior(germinated, 50, 1.0, 1.0),
               better = grain::trial_posterior(germinated + 1, 50, 1.0, 1.0);
    CHECK(better.mean > now.mean);
    CHECK(better.low > now.low);
    CHECK(better.high > now.high);
  }
}
