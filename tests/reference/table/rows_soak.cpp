// Water uptake in the soak against the published equation and malting practice.
#include <fmt/core.h>

#include "models/soak/uptake.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

double moisture(const char* species, double celsius, double hours, double start = 0.12) {
  return 100.0 * soak::moisture_after(*soak::preset(species), Celsius(celsius), start, Hours(hours));
}

double q10(const char* species) {
  const auto parameters = *soak::preset(species);
  return soak::diffusivity(parameters, Celsius(20.0)) / soak::diffusivity(parameters, Celsius(10.0));
}

// Hours until the equation comes to its own surface moisture, where it ends.
double hours_to_surface(double celsius) {
  double low = 0.0, high = 100.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (moisture("wheat", celsius, middle) < 100.0 * 0.75 / 1.75 ? low : high) = middle;
  }
  return low;
}

void diffusion(Sheet& sheet) {
  sheet.from("Becker 1960, Cereal Chem. 37:309-323 (abstract): D = 30 exp(-12300/RT) cm2/s", Standing::worked, Bound::rounding);
  for (const auto& [celsius, d] : {std::pair{15.0, 1.40e-8}, std::pair{20.0, 2.03e-8}, std::pair{25.0, 2.89e-8}})
    sheet.near(fmt::format("diffusivity in wheat at {} degC", celsius), "cm2/s", d, 5e-11,
               soak::diffusivity(*soak::preset("wheat"), Celsius(celsius)));
  sheet.near("Q10 of uptake, wheat, 10 to 20 degC", "1", 2.11, 0.005, q10("wheat"));
  sheet.from("Mok et al. 1983, Korean J. Food Sci. Technol. (11.6 kcal/mol, 20 to 60 degC)", Standing::worked, Bound::rounding);
  sheet.near("Q10 of uptake, barley, 10 to 20 degC", "1", 2.02, 0.005, q10("barley"));
  sheet.from("Becker's equation worked by hand for small kernels (S/V 17 1/cm, our choice, good to 4 points of moisture) "
             "from 12 % wet basis", Standing::worked, Bound::rounding);
  const struct { double celsius, hours, percent; } rows[] = {
      {15, 2, 23.0}, {15, 4, 25.8}, {15, 8, 29.5}, {15, 12, 32.0}, {15, 24, 37.2}, {15, 36, 40.6},
      {20, 2, 24.4}, {20, 4, 27.6}, {20, 8, 31.8}, {20, 12, 34.6}, {20, 24, 40.3},
      {25, 2, 26.0}, {25, 4, 29.6}, {25, 8, 34.2}, {25, 12, 37.4}};
  for (const auto& row : rows)
    sheet.near(fmt::format("moisture of wheat, {} h at {} degC", row.hours, row.celsius), "% wb", row.percent, 0.1,
               moisture("wheat", row.celsius, row.hours));
  for (const auto& [celsius, hours] : {std::pair{20.0, 32.0}, std::pair{25.0, 22.5}})
    sheet.near(fmt::format("hours until wheat holds 0.75 g/g at {} degC, where the equation ends", celsius), "h", hours, 0.1,
               hours_to_surface(celsius));
}

void malting(Sheet& sheet) {
  sheet.from("encyclopaedia entry \"Beer: steeping\": 40 to 50 h at 12 to 15 degC give about 45 %, with air rests (3.5 points: our reading of \"about\")",
             Standing::found, Bound::ours);
  sheet.near("moisture of barley, 45 h at 13.5 degC", "% wb", 45.0, 3.5, moisture("barley", 13.5, 45.0));
  sheet.from("Evans, Shen & Brookes 2024, J. Inst. Brew. 130:126-181: over 40 %, ideally 42 to 45 %, in one to two days",
             Standing::found, Bound::source);
  sheet.within("moisture of barley, 36 h at 16 degC", "% wb", 40.0, 45.0, moisture("barley", 16.0, 36.0));
  sheet.from("brewing dictionary entry \"Steeping\": 43 to 47 % over two days at 15 to 20 degC", Standing::found, Bound::source);
  sheet.within("moisture of barley, 48 h at 17.5 degC", "% wb", 43.0, 47.0, moisture("barley", 17.5, 48.0));
  sheet.from("Carvalho et al. 2021 (repositorio.unesp.br): hydration ends at 80.28 % dry basis", Standing::found, Bound::rounding);
  sheet.near("moisture barley stops at", "% wb", 44.5, 0.05, moisture("barley", 20.0, 240.0));
  sheet.from("\"Wheat grains hydration\" (newsciencepubl): 14.4 to 90.9 % dry basis; temperature not read", Standing::found, Bound::rounding);
  sheet.near("moisture wheat stops at", "% wb", 47.6, 0.05, moisture("wheat", 20.0, 240.0, 0.126));
}

}  // namespace

Sheet soak_rows() {
  Sheet sheet("soak");
  diffusion(sheet);
  malting(sheet);
  return sheet;
}

}  // namespace rackwright::validation
