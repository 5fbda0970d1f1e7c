// Germination against open counts, official test times and cardinal temperatures.
#include <algorithm>
#include <cmath>
#include <fmt/core.h>

#include "models/germination/germination.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

constexpr double best_fraction = 0.94;  // fitted germinable fraction of that lot at its best temperature

germination::Constant constant(const char* species, double celsius, double for_days, double lot = 1.0) {
  return germination::at_constant(*germination::preset(species), Celsius(celsius), days(for_days), lot);
}

double two_errors(double fraction) {
  constexpr double kernels = 150.0;
  return fraction > 0.0 ? 2.0 * std::sqrt(fraction * (1.0 - fraction) / kernels) : 3.0 / kernels;
}

void counts(Sheet& sheet) {
  sheet.from("Onofri, Benincasa, Mesgaran & Ritz 2018, Eur. J. Agron. 101:129-139, data: 150 barley kernels a temperature; "
             "two binomial standard errors at most, and for none the 95 % limit 3/150", Standing::worked, Bound::scatter);
  const struct { double celsius, fraction; } ends[] = {{1, 0.907}, {7, 0.953}, {10, 0.940}, {15, 0.947},
                                                       {25, 0.887}, {35, 0.193}, {40, 0.0}};
  for (const auto& row : ends)
    sheet.near(fmt::format("barley germinated in the end at {} degC", row.celsius), "1", row.fraction,
               std::min(row.celsius == 35.0 ? 0.06 : 0.045, two_errors(row.fraction)), constant("barley", row.celsius, 30.0, best_fraction).final_fraction);
  sheet.from("the same counts, medians of those that germinated; counted once a day and not every day, so good to half a "
             "day or a tenth", Standing::worked, Bound::ours);
  const struct { double celsius, median; } medians[] = {{1, 13.57}, {7, 7.08}, {10, 4.75}, {15, 3.11}, {25, 1.86}, {35, 3.94}};
  for (const auto& row : medians)
    sheet.near(fmt::format("barley's median time at {} degC", row.celsius), "d", row.median, std::max(0.5, 0.1 * row.median),
               in_days(constant("barley", row.celsius, 1.0).median_time));
}

void elsewhere(Sheet& sheet) {
  sheet.from("official germination tests (ISTA, AOSA): days to the first count, when most of a good lot is up (90 to 100 %, our reading)", Standing::memory, Bound::ours);
  for (const char* species : {"barley", "wheat", "rye", "triticale"})
    sheet.within(fmt::format("{} up after 4 days at 20 degC", species), "1", 0.9, 1.0, constant(species, 20.0, 4.0).germinated);
  sheet.within("oat up after 5 days at 20 degC", "1", 0.9, 1.0, constant("oat", 20.0, 5.0).germinated);
  sheet.within("maize up after 4 days at 25 degC", "1", 0.9, 1.0, constant("maize", 25.0, 4.0).germinated);
  sheet.from("Mayer & Poljakoff-Mayber, classical cardinal temperatures: maize needs 8 to 10 degC", Standing::memory, Bound::ours);
  sheet.within("maize up after 21 days at 5 degC", "1", 0.0, 0.05, constant("maize", 5.0, 21.0).germinated);
  sheet.from("encyclopaedia entry on weather controls, and Table 3 of Sci. Rep. 10:18013 (2020): cool-season cereals grow up "
             "to 31 to 37 degC", Standing::found, Bound::source);
  for (const char* species : {"barley", "oat", "rye"})
    sheet.within(fmt::format("{}'s ceiling", species), "degC", 31.0, 37.0, germination::preset(species)->ceiling.value());
}

}  // namespace

Sheet germination_rows() {
  Sheet sheet("germination");
  counts(sheet);
  elsewhere(sheet);
  return sheet;
}

}  // namespace rackwright::validation
