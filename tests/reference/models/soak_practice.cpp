// What soak lengths do, against trials and common practice.

#include <cmath>

#include "models/germination/germination.hpp"
#include "models/growth/mat.hpp"
#include "models/soak/uptake.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

soak::Effect soaked(double celsius, double hours) {
  return soak::effect(*soak::preset("barley"), Celsius(celsius), 0.12, Hours(hours));
}
double net_hours(const soak::Effect& effect) { return effect.head_start - effect.delay; }

}  // namespace

TEST_CASE("eight and twelve hours both work, a very short soak costs time") {
  // common practice, no source: no harm to germination, less than half a day apart, while an hour costs half a day.
  for (const double celsius : {12.0, 16.0, 20.0}) {
    INFO(celsius << " degC");
    const soak::Effect eight = soaked(celsius, 8.0), twelve = soaked(celsius, 12.0), one = soaked(celsius, 1.0);
    CHECK(eight.survival > 0.99);
    CHECK(twelve.survival > 0.99);
    CHECK(std::abs(net_hours(eight) - net_hours(twelve)) < 12.0);
    CHECK(net_hours(one) < net_hours(eight) - 6.0);
  }
}

TEST_CASE("longer is not better, least of all in warm water") {
  // Smith, Jimoh & Laubscher 2022: of 1, 3, 8, 16 and 24 h the day-long soak gave no better mat; Baker & Dick 1905, J.
  // Inst. Brew. 11:372-395: long steeping delays; Davidson & Jangaard 1978, J. ASBC 36:51: a wet steep-out delays the
  // height of respiration by a day or more, which is the delay at full stress.
  CHECK(net_hours(soaked(22.0, 24.0)) < net_hours(soaked(22.0, 10.0)));
  CHECK(soaked(25.0, 24.0).stress > 0.5);
  CHECK(soaked(25.0, 24.0).survival < 0.95);
  CHECK(soaked(10.0, 24.0).stress < 0.1);
  CHECK(soaked(28.0, 8.0).stress < 0.6 * soaked(28.0, 12.0).stress);
}

TEST_CASE("mornings of 4 to 7 degC slow and shorten the mat without lowering germination") {
  // common practice, no source.
  const auto germination = *germination::preset("barley");
  const auto growth = *growth::preset("barley");
  for (const double celsius : {4.0, 7.0}) {
    INFO(celsius << " degC");
    CHECK(germination::fraction(germination, Celsius(celsius)) > 0.99);
    CHECK(germination::rate(germination, Celsius(celsius)) < 0.5 * germination::rate(germination, Celsius(20.0)));
    CHECK(growth::growth_rate(growth, Celsius(celsius)) < 0.5);
    // Ten hours of each day so cold, the rest at 16 degC, for eight days:
    const double cold =
        8.0 *
        (10.0 * growth::growth_rate(growth, Celsius(celsius)) + 14.0 * growth::growth_rate(growth, Celsius(16.0))) /
        24.0;
    const double mild = 8.0 * growth::growth_rate(growth, Celsius(16.0));
    const auto mat = [&](double g) { return growth::mat(growth, g, 0.93, KilogramsPerSquareMetre(5.0), 0.89); };
    CHECK(mat(cold).height_cm < 0.8 * mat(mild).height_cm);
    CHECK(mat(cold).fresh_ratio < mat(mild).fresh_ratio);
  }
}

TEST_CASE("a hypochlorite dip cleans the outside and spares the grain") {
  // Foods 2023 12:747: 0.6 % hypochlorite up to five tenfold steps, no harm to germination; Ramakrishna, Lacey & Smith
  // 1991, IJFM 13:47-54: fungi inside the kernel live.
  const auto usual = soak::dip_effect({0.6, Hours(0.25)});
  CHECK(usual.inoculum_left < 0.2);
  CHECK(usual.inoculum_left > 0.05);
  CHECK(usual.germination_kept > 0.99);
}
