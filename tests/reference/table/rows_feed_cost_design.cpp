// Feed value, money and the rack's loads.
#include <fmt/core.h>

#include "models/cost/ledger.hpp"
#include "models/design/rack.hpp"
#include "models/feed/value.hpp"
#include "models/grain/species.hpp"
#include "models/growth/mat.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {

Sheet feed_rows() {
  Sheet sheet("feed value");
  sheet.from("Soder & Heins 2016, USDA-ARS fact sheet: crude protein of 7 d mats; the grain's own is not stated, a point for that (our reading); rye's loss was set with it", Standing::found, Bound::ours);
  const struct { const char* species; double protein; } rows[] = {
      {"barley", 0.141}, {"oat", 0.130}, {"rye", 0.111}, {"triticale", 0.139}, {"wheat", 0.148}};
  for (const auto& row : rows) {
    const double loss =
        growth::mat(*growth::preset(row.species), 7.0, 0.93, KilogramsPerSquareMetre(5.0), 0.89).dry_matter_loss;
    const feed::GrainValue grain{grain::find_species(row.species)->crude_protein, 13.0};
    const auto mat = feed::mat(Kilograms(1), 0.89, loss, 0.1, grain);
    sheet.near(fmt::format("crude protein in dry matter of a {} mat", row.species), "1", row.protein, 0.01,
               mat.crude_protein / mat.dry_matter);
  }
  const feed::GrainValue barley{0.12, 13.0};
  const auto before = feed::dry_grain(Kilograms(1), 0.89, barley), after = feed::mat(Kilograms(1), 0.89, 0.219, 0.1, barley);
  sheet.from("Fazaeli et al. 2012, World Appl. Sci. J. 16:531 (abstract): slightly less energy per kg dry matter, clearly less "
             "per kg of grain; the bounds are our reading of those words", Standing::found, Bound::ours);
  sheet.within("energy of a kg dry matter, mat to grain", "1", 0.9, 1.0,
               (after.energy_mj / after.dry_matter) / (before.energy_mj / before.dry_matter));
  sheet.within("energy kept of a kg of grain", "1", 0.6, 0.8, after.energy_mj / before.energy_mj);
  sheet.from("Dung, Godwin & Nolan 2010, J. Anim. Vet. Adv. 9:2485: gross energy loss of 2 %, probably per kg dry matter; "
             "metabolisable energy may fall two points more as fibre rises", Standing::found, Bound::ours);
  sheet.within("energy kept per kg dry matter", "1", 0.96, 0.98, feed::usual_value_kept);
  return sheet;
}

Sheet cost_rows() {
  Sheet sheet("cost");
  sheet.from("capital recovery factors of the standard engineering-economy tables, printed digits", Standing::memory, Bound::rounding);
  const struct { double interest, years, factor; } rows[] = {{0.05, 10, 0.12950}, {0.05, 5, 0.23097},  {0.05, 20, 0.08024},
                                                             {0.08, 10, 0.14903}, {0.10, 5, 0.26380},  {0.10, 10, 0.16275},
                                                             {0.06, 20, 0.08718}, {0.10, 1, 1.10000}};
  for (const auto& row : rows)
    sheet.near(fmt::format("capital recovery, {} % over {} years", 100.0 * row.interest, row.years), "1/yr", row.factor, 6e-6,
               cost::annual_cost(Money(1), row.years, row.interest).value());
  sheet.from("the identity of annuities: payments discounted back are the capital (80 at 7 % over 12 years, by hand)", Standing::worked, Bound::rounding);
  double back = 0.0, discount = 1.0;
  for (int year = 1; year <= 12; ++year) back += cost::annual_cost(Money(80), 12, 0.07).value() * (discount /= 1.07);
  sheet.near("discounted payments", "money", 80.0, 1e-9, back);
  sheet.near("straight line at no interest, 80 over 10 years", "money/yr", 8.0, 1e-12, cost::annual_cost(Money(80), 10, 0.0).value());
  return sheet;
}

Sheet design_rows() {
  Sheet sheet("design");
  sheet.from("5.5 kg/m2 (Egyptian room study) at a ratio of 5 (middle of the trials): 27.5 kg/m2 by hand", Standing::worked, Bound::rounding);
  sheet.near("mats on a square metre", "kg/m2", 27.5, 1e-9, design::mat_load(KilogramsPerSquareMetre(5.5), 5.0).value());
  sheet.from("a water film of 3 to 6 kg/m2 on a full tray", Standing::practice, Bound::rounding);
  design::Rack rack;
  rack.tray_mass = Kilograms(0.0);
  for (const double film : {3.0, 6.0}) {
    rack.water_film = KilogramsPerSquareMetre(film);
    const auto load = design::loaded(rack, KilogramsPerSquareMetre(5.5), 5.0);
    sheet.near(fmt::format("loaded level, film of {} kg/m2", film), "kg/m2", 27.5 + film, 0.01,
               load.per_tier.value() / (rack.trays_per_tier * design::tray_area(rack).value()));
  }
  sheet.bounds(Bound::source);
  sheet.within("the usual film", "kg/m2", 3.0, 6.0, design::Rack{}.water_film.value());
  sheet.from("racks of 3 to 4 times their depth want anchoring", Standing::practice, Bound::source);
  sheet.within("height over depth that wants anchoring", "1", 3.0, 4.0, design::slenderness_to_anchor);
  return sheet;
}

}  // namespace rackwright::validation
