// The cardinal temperature model against its printed table; levels of spoiling against common practice.
#include <fmt/core.h>

#include "models/frost/frost.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "tests/reference/table/models.hpp"
#include "tests/reference/trays.hpp"

namespace rackwright::validation {

Sheet spoilage_rows() {
  Sheet sheet("spoilage");
  sheet.from("Rosso, Lobry & Flandrois 1993, J. Theor. Biol. 162:447-463, as tabulated in a modelling manual (macrogrow) for "
             "5, 20, 30 degC", Standing::found, Bound::rounding);
  const spoilage::Cardinal cardinal{Celsius(5.0), Celsius(20.0), Celsius(30.0)};
  const struct { double celsius, factor; } rows[] = {{6, 0.02}, {8, 0.14666667}, {10, 0.33333333}, {15, 0.80},
                                                     {20, 1.0}, {22, 0.96333333}, {25, 0.76190476}, {5, 0}, {30, 0}};
  for (const auto& row : rows)
    sheet.near(fmt::format("growth factor at {} degC", row.celsius), "1", row.factor, row.celsius == 6.0 ? 5e-4 : 1e-8,
               spoilage::growth_factor(cardinal, Celsius(row.celsius)));
  const spoilage::Parameters p;
  sheet.from("Pitt & Hocking, Fungi and Food Spoilage: Aspergillus flavus and A. niger, best 32 to 37 degC, most 43 to 48, "
             "least 6 to 12", Standing::memory, Bound::source);
  sheet.within("mould's best temperature", "degC", 32.0, 37.0, p.mould.best.value());
  sheet.within("mould's ceiling", "degC", 43.0, 48.0, p.mould.most.value());
  sheet.within("mould's base", "degC", 6.0, 12.0, p.mould.least.value());
  sheet.from("lactic bacteria best at 30 to 40 degC, Clostridium perfringens at 43 to 47 (food microbiology texts)", Standing::memory, Bound::source);
  sheet.within("souring's best temperature", "degC", 30.0, 47.0, p.sour.best.value());
  sheet.from("half of the plants of cereals never hardened to cold are killed at about -3 degC (Fowler, Limin & Ritchie 1999, Crop Sci. 39:626-633); "
             "from 1 degC warmer to 2 degC colder is our reading for mats of days", Standing::memory, Bound::ours);
  sheet.within("frost kills a mat below", "degC", -5.0, -2.0, frost::Parameters{}.kill.value());
  sheet.from("afternoons above 38 degC sour trays, next to nothing in a cool one", Standing::practice, Bound::ours);
  sheet.within("soured in a day with 8 h at 39 degC, soak 12 h", "1", 0.2, 0.7, soured_in_a_hot_day(39.0, 12.0));
  sheet.within("soured in a day with 8 h at 24 degC, soak 12 h", "1", 0.0, 0.001, soured_in_a_hot_day(24.0, 12.0));
  return sheet;
}

}  // namespace rackwright::validation
