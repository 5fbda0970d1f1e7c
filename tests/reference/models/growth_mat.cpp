// The mat against published yields. Trials differ in grain, density and watering, so tolerances are the spread of
// trials.

#include "models/growth/mat.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

constexpr KilogramsPerSquareMetre usual(5.0);
constexpr double sprouted = 0.93;

// A tray at a constant room temperature.
growth::Mat mat_after(const char* species, double celsius, double days_on_rack, double grain_dry_matter = 0.89) {
  const auto p = *growth::preset(species);
  return growth::mat(p, growth::growth_rate(p, Celsius(celsius)) * days_on_rack, sprouted, usual, grain_dry_matter);
}

}  // namespace

TEST_CASE("a seven-day barley mat at 18 to 22 degC is the usual one") {
  // Ratio 5.0 +- 1.0, dry matter 14 +- 3 %, loss 20 +- 6 %, net water 1.3 to 1.9 L/kg fresh: the middle of the
  // published trials below and of the reviews that list them.
  for (const double celsius : {18.0, 20.0, 22.0}) {
    INFO(celsius << " degC");
    const growth::Mat mat = mat_after("barley", celsius, 7.0);
    CHECK(mat.fresh_ratio == Approx(5.0).margin(1.0));
    CHECK(100.0 * mat.dry_matter == Approx(14.0).margin(3.0));
    CHECK(100.0 * mat.dry_matter_loss == Approx(20.0).margin(6.0));
    CHECK(mat.water_litres / mat.fresh_ratio > 1.3);
    CHECK(mat.water_litres / mat.fresh_ratio < 1.9);
  }
}

TEST_CASE("dry matter lost in seven days") {
  // Dung, Godwin & Nolan 2010, J. Anim. Vet. Adv. 9:2485-2492: 21.9 %. University extension analyses (2013/2016): 25 to
  // 30 % at six to seven days, rising with days; the model's tray reaches that a day or two later.
  CHECK(100.0 * mat_after("barley", 20.0, 7.0).dry_matter_loss == Approx(21.9).margin(2.0));
  CHECK(100.0 * mat_after("barley", 20.0, 9.0).dry_matter_loss == Approx(27.5).margin(3.0));
}

TEST_CASE("dry matter of eight-day mats") {
  // Nait-Merzeg et al.: barley, 8 d, 18 to 24 degC, 12.23 +- 1.78 %, grain 89.04 % dry matter.
  CHECK(100.0 * mat_after("barley", 21.0, 8.0, 0.8904).dry_matter == Approx(12.23).margin(1.78));
  // Same work outdoors, 11 to 24 degC: 14.14 +- 2.44 %: cooler, so drier.
  CHECK(100.0 * mat_after("barley", 17.5, 8.0, 0.8904).dry_matter == Approx(14.14).margin(2.44));
  // Al-Karaki & Al-Hashimi 2012, ISRN Agronomy 924672: 8 d at 24 degC, 110 kg DM and 645 kg fresh per m3, so 17.1 %
  // barley, 17.6 % wheat: the driest of the trials. The two barley trials disagree by 5 points; the model lies between.
  CHECK(100.0 * mat_after("barley", 24.0, 8.0).dry_matter == Approx(17.1).margin(4.0));
  CHECK(100.0 * mat_after("wheat", 24.0, 8.0).dry_matter == Approx(17.6).margin(4.0));
  CHECK(mat_after("wheat", 24.0, 8.0).dry_matter > mat_after("barley", 24.0, 8.0).dry_matter);
}

TEST_CASE("net water per kilogram fresh") {
  // Al-Karaki & Al-Hashimi 2012: barley 1.55, wheat 1.80 L/kg at 8 d and 24 degC; Jordan trials 1.48 to 1.87 (10 d)
  // and 1.56 (9 d, tap water). Evaporation belongs to the place, hence +- 0.3.
  const auto per_fresh = [](const growth::Mat& mat) { return mat.water_litres / mat.fresh_ratio; };
  CHECK(per_fresh(mat_after("barley", 24.0, 8.0)) == Approx(1.55).margin(0.3));
  CHECK(per_fresh(mat_after("wheat", 24.0, 8.0)) == Approx(1.80).margin(0.3));
  CHECK(per_fresh(mat_after("barley", 20.0, 9.0)) == Approx(1.56).margin(0.3));
  CHECK(per_fresh(mat_after("barley", 18.0, 10.0)) == Approx(1.68).margin(0.3));
}

TEST_CASE("fresh yield in a warm room") {
  // Room study at 28.0 degC and 72.8 % humidity, grain 13.95 % dry basis: 5.81 kg/kg, days not stated. The model, which
  // grows lighter mats when it is that warm, is low: within a quarter.
  CHECK(mat_after("barley", 28.0, 8.0, 1.0 / 1.1395).fresh_ratio == Approx(5.81).epsilon(0.25));
}

TEST_CASE("species yield relative to barley") {
  // Soder & Heins 2016 (USDA-ARS and University of Minnesota): 7 d, equal grain: oat 0.98, rye 0.84, triticale 0.68,
  // wheat 0.95.
  struct Row {
    const char* species;
    double relative;
  };
  const double barley = mat_after("barley", 20.0, 7.0).fresh_ratio;
  for (const Row& row : {Row{"oat", 0.98}, Row{"rye", 0.84}, Row{"triticale", 0.68}, Row{"wheat", 0.95}}) {
    INFO(row.species);
    CHECK(mat_after(row.species, 20.0, 7.0).fresh_ratio / barley == Approx(row.relative).margin(0.03));
  }
}

TEST_CASE("shoots reach the published heights") {
  // Alemnew & Mekuriaw 2023, Adv. Agric. 9315556: at most 21.26 cm over days 6 to 12; forage mats 15 to 30 cm at
  // harvest (Fazaeli et al. 2012, introduction).
  CHECK(mat_after("barley", 20.0, 8.0).height_cm > 15.0);
  CHECK(mat_after("barley", 20.0, 9.0).height_cm == Approx(19.5).margin(1.5));
  CHECK(mat_after("barley", 20.0, 12.0).height_cm == Approx(21.26).margin(0.5));
}

TEST_CASE("heat of a week's growth") {
  // Glucose burns with 2802 kJ/mol: 21.9 % of 0.89 kg in seven days is 3.04 MJ, 5.0 W/kg if all is respired; the
  // leachate's tenth and the mat's own figures bring it to four and a half.
  const auto p = *growth::preset("barley");
  const double lost = growth::mat(p, 7.0, sprouted, usual, 0.89).dry_matter_loss;
  const double mean = 0.89 * lost * p.respired_share * growth::respiration_heat_mj * 1e6 / (7.0 * 86400.0);
  CHECK(mean == Approx(5.0).margin(1.0));
  CHECK(growth::respiration_heat_mj == Approx(2802.0 / 180.156).epsilon(5e-3));
  CHECK(growth::respiration_water == Approx(6.0 * 18.015 / 180.156).epsilon(5e-3));
}
