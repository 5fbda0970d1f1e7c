// What grain weighs, how long a bag lasts, and how a lot ages.
#include <algorithm>

#include <fmt/core.h>

#include "models/grain/species.hpp"
#include "models/grain/store.hpp"
#include "models/grain/viability.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

constexpr double pound = 0.45359237, cup = 0.2365882365e-3, winchester_bushel = 35.23907017e-3;  // kg, m3, m3
constexpr SquareMetres us_tray(0.129);                                                           // 10 by 20 inches

// Constants as compiled by Hong, Linington & Ellis 1996 (data file of the R package viabilitymetrics).
constexpr grain::ViabilityConstants barley{9.144, 5.342, 0.0329, 0.000478};
constexpr grain::ViabilityConstants barley_1980{9.983, 5.896, 0.040, 0.000428};
constexpr grain::ViabilityConstants wheat_1990{9.420, 5.859, 0.0329, 0.000478};
constexpr grain::ViabilityConstants maize_2007{10.562, 6.366, 0.0332, 0.000577};

void ageing(Sheet& sheet, const char* lot, const grain::ViabilityConstants& constants, double moisture, double celsius,
            double sigma_expected, double half_life, double after_a_year, double digit = 0.1) {
  const double sigma = grain::sigma_days(constants, moisture, Celsius(celsius));
  const auto at = fmt::format(", {}, {} % and {} degC", lot, moisture, celsius);
  sheet.near("days a probit" + at, "d", sigma_expected, std::min(digit, 2e-3 * sigma_expected), sigma);
  sheet.near("half-life" + at, "d", half_life, half_life < 1000.0 ? digit : 1.0, in_days(grain::half_life(0.98, sigma)));
  if (after_a_year >= 0.0)
    sheet.near("alive after a year" + at, "%", after_a_year, 0.06, 100.0 * grain::viability_after(0.98, 365.0 / sigma));
}

}  // namespace

Sheet grain_rows() {
  Sheet sheet("grain and store");
  const struct { const char* species; double pounds, density; } rows[] = {
      {"barley", 48.0, 619.0}, {"wheat", 60.0, 774.0},     {"oat", 32.0, 413.0},
      {"rye", 56.0, 722.0},    {"triticale", 50.0, 645.0}, {"maize", 56.0, 721.0}};
  sheet.from("kg/m3 column of a combine maker's manual (deere.com); triticale from a reference site", Standing::found, Bound::rounding);
  for (const auto& row : rows)
    sheet.near(fmt::format("bulk density, {}", row.species), "kg/m3", row.density, 1.0,
               grain::find_species(row.species)->bulk_density.value());
  sheet.from("legal bushel weights (encyclopaedia, Ohio extension); triticale that of crop insurance", Standing::found, Bound::ours);
  for (const auto& row : rows)
    sheet.near(fmt::format("a Winchester bushel of {}", row.species), "lb", row.pounds, 4e-3 * row.pounds,
               grain::mass_of_volume(*grain::find_species(row.species), CubicMetres(winchester_bushel)).value() / pound);
  sheet.from("about five cups of wheat or seven of barley charge a usual tray of 10 by 20 in", Standing::practice, Bound::ours);
  const Kilograms wheat = grain::mass_of_volume(*grain::find_species("wheat"), CubicMetres(5.0 * cup));
  const Kilograms barley_charge = grain::mass_of_volume(*grain::find_species("barley"), CubicMetres(7.0 * cup));
  sheet.within("five cups of wheat on a tray", "kg/m2", 4.0, 8.0, wheat.value() / us_tray.value());
  sheet.within("seven cups of barley on a tray", "kg/m2", 4.0, 8.0, barley_charge.value() / us_tray.value());
  sheet.near("five cups of wheat to seven of barley, by weight", "1", 1.0, 0.15, wheat / barley_charge);
  sheet.from("a bag of 25 lb at a tray a day lasts two weeks or a little less", Standing::practice, Bound::ours);
  sheet.within("life of a bag, 6 kg/m2", "d", 13.0, 15.0,
               in_days(grain::bag_life(Kilograms(25.0 * pound), KilogramsPerSquareMetre(6.0) * us_tray)));
  sheet.within("life of a bag, seven cups", "d", 11.0, 14.0, in_days(grain::bag_life(Kilograms(25.0 * pound), barley_charge)));
  return sheet;
}

Sheet viability_rows() {
  Sheet sheet("viability in store");
  sheet.from("Ellis & Roberts 1980, Ann. Bot. 45:13-30, with constants of Dickie et al. 1990 as compiled by Hong, Linington & "
             "Ellis 1996; 98 % at the start", Standing::worked, Bound::rounding);
  ageing(sheet, "barley", barley, 10.0, 20.0, 897.0, 1842.0, 95.0);
  ageing(sheet, "barley", barley, 12.0, 15.0, 599.7, 1232.0, 92.6);
  ageing(sheet, "barley", *grain::viability_constants("barley"), 12.0, 20.0, 338.7, 695.6, 83.6);
  ageing(sheet, "barley", barley, 14.0, 30.0, 40.2, 82.6, 0.0);
  sheet.from("the same, constants of Ellis et al. 1990", Standing::worked, Bound::rounding);
  ageing(sheet, "wheat", wheat_1990, 12.0, 20.0, 177.0, 363.4, 49.7);
  sheet.from("the same, constants of Ellis et al. 2007", Standing::worked, Bound::rounding);
  ageing(sheet, "maize", maize_2007, 12.0, 20.0, 626.8, 1287.0, 92.9);
  sheet.from("the same, the 1980 paper's own constants", Standing::memory, Bound::rounding);
  ageing(sheet, "barley of 1980", barley_1980, 12.0, 20.0, 446.0, 916.0, -1.0, 1.0);
  sheet.from("Harrington's rules: life doubles a percent drier or five kelvins cooler; good to a factor of 1.5", Standing::memory, Bound::ours);
  const auto life = [](double moisture, double t) { return grain::sigma_days(barley, moisture, Celsius(t)); };
  sheet.within("life at 11 to life at 12 %", "1", 2.0 / 1.5, 3.0, life(11.0, 20.0) / life(12.0, 20.0));
  sheet.within("life at 15 to life at 20 degC", "1", 2.0 / 1.5, 3.0, life(12.0, 15.0) / life(12.0, 20.0));
  sheet.from("any table of the standard normal", Standing::memory, Bound::rounding);
  sheet.near("probit of 0.975", "1", 1.959964, 1e-6, grain::probit(0.975));
  sheet.near("probit of 0.98", "1", 2.053749, 1e-6, grain::probit(0.98));
  return sheet;
}

}  // namespace rackwright::validation
