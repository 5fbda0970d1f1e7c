// Levels of spoiling against common practice; the printed table is in tests/reference/table.

#include "models/growth/mat.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "tests/catch.hpp"
#include "tests/reference/trays.hpp"

using namespace rackwright;
using namespace rackwright::validation;

namespace {

double mould_in(double celsius, double days_on_rack, double dead) {
  const spoilage::Parameters p;
  spoilage::Tray tray;
  tray.dead_fraction = dead;
  const double factor = spoilage::growth_factor(p.mould, Celsius(celsius + 2.0));  // the mat is about 2 K warmer
  return spoilage::spoiled_probability(spoilage::mould_multiplier(p, tray) * factor * days_on_rack);
}

}  // namespace

TEST_CASE("mould of a clean week on the rack") {
  // common practice, no source: a percent or two at 18 to 21 degC, hardly any in the cold, many in a hot room, several
  // times as many where two kernels in five are dead.
  CHECK(mould_in(18.0, 7.0, 0.08) > 0.005);
  CHECK(mould_in(21.0, 7.0, 0.08) < 0.025);
  CHECK(mould_in(10.0, 7.0, 0.08) < 0.003);
  CHECK(mould_in(29.0, 7.0, 0.15) > 2.5 * mould_in(20.0, 7.0, 0.08));
  CHECK(mould_in(20.0, 7.0, 0.40) > 4.0 * mould_in(20.0, 7.0, 0.08));
}

TEST_CASE("afternoons above 38 degC sour trays, and a shorter soak helps") {
  // common practice, no source: tens of percent in a hot day; next to nothing in a cool one.
  CHECK(soured_in_a_hot_day(39.0, 12.0) > 0.2);
  CHECK(soured_in_a_hot_day(39.0, 12.0) < 0.7);
  CHECK(soured_in_a_hot_day(39.0, 6.0) < 0.75 * soured_in_a_hot_day(39.0, 12.0));
  CHECK(soured_in_a_hot_day(24.0, 12.0) < 0.001);
}
