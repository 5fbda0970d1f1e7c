// Keys of the daily line and of spoilage.
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"

namespace rackwright::keys {
namespace {

using S = Scenario;
constexpr std::string_view yours = "yours";
constexpr std::string_view practice = "common practice, no source";
constexpr std::string_view rosso = "form: Rosso et al. 1993, J. Theor. Biol. 162:447-463; value assumed";

}  // namespace

Table<S> line_keys() {
  return {
      whole<S>("line.days_on_rack", {1, 30}, AT(line.days_on_rack), "Days from sowing to harvest.", practice),
      whole<S>("line.batches_per_day", {1, 2}, AT(line.batches_per_day),
               "Sowings a day: 1 mornings, 2 mornings and evenings.", yours),
      whole<S>("line.trays_per_batch", {1, 500}, AT(line.trays_per_batch), "Trays sown at each sowing.", yours),
      option<S>("line.sow", {"all", "as-wanted"}, AT(line.sow),
                "Whether every batch gets all its trays, or only as many, up to those, as the animals are to want when it is ripe.", yours),
      real<S>("line.margin", {0.0, 3.0}, AT(line.margin),
              "As wanted: how much more is sown than is to be wanted, beyond what the last mats weighed and how many of them were sound.", "assumed"),
      real<S>("line.sowing_density", {0.5, 20.0}, AT(line.sowing_density),
              "Dry grain sown on each square metre of tray; 4 to 7 kg/m2 is usual.", practice),
      real<S>("line.soak", {0.5, 72.0}, AT(line.soak), "How long grain stands in water before sowing.", practice),
      real<S>("line.soak_water", {1.0, 40.0}, AT(line.soak_water), "Temperature of the soak water.", yours),
      real<S>("line.dip_strength", {0.0, 5.0}, AT(line.dip.strength_percent),
              "Sodium hypochlorite in a disinfecting dip before the soak; 0 % is no dip.", yours).in("%"),
      real<S>("line.dip_time", {0.0, 4.0}, AT(line.dip.time), "How long the dip lasts.", yours).show("min"),
      real<S>("line.tray_dip_strength", {0.0, 5.0}, AT(line.tray_dip.strength_percent),
              "Sodium hypochlorite in which washed trays stand for ten minutes; 0 % is no dip.", yours).in("%"),
      plain<S>("line.grains", Kind::names, AT(line.grains),
               "Grains in the order of the day's sowings; left out: all of [[grain]] in turn.", yours),
      real<S>("line.wash", {0.0, 1.0}, AT(line.wash),
              "Share of the mould spores on a tray that washing removes.", "assumed"),
      whole<S>("line.grace_days", {0, 14}, AT(line.grace_days),
               "Days a ripe mat that is not needed may wait before it is composted.", practice),
      real<S>("line.ready", {0.1, 1.0}, AT(line.ready), "Share of full growth at which a mat may be fed.", "assumed"),
      real<S>("line.drainage", {0.0, 1.0}, AT(line.drainage),
              "1 where trays drain freely, 0 where they stand in water.", yours),
  };
}

Table<S> spoilage_keys() {
  return {
      real<S>("spoilage.mould_least", {-10.0, 40.0}, AT(spoilage.mould.least),
              "Below this mould does not grow.", rosso),
      real<S>("spoilage.mould_best", {0.0, 60.0}, AT(spoilage.mould.best), "Mould grows fastest here.", rosso),
      real<S>("spoilage.mould_most", {10.0, 80.0}, AT(spoilage.mould.most), "Above this mould does not grow.", rosso),
      real<S>("spoilage.mould_power", {0.2, 40.0}, AT(spoilage.mould.power),
              "How closely mould keeps to its best temperature; 1 is the published curve.", "assumed"),
      real<S>("spoilage.sour_least", {-10.0, 40.0}, AT(spoilage.sour.least), "Below this mats do not sour.", rosso),
      real<S>("spoilage.sour_best", {0.0, 60.0}, AT(spoilage.sour.best), "Mats sour fastest here.", rosso),
      real<S>("spoilage.sour_most", {10.0, 80.0}, AT(spoilage.sour.most), "Above this mats do not sour.", rosso),
      real<S>("spoilage.sour_power", {0.2, 40.0}, AT(spoilage.sour.power),
              "How closely souring keeps to its best temperature; 1 is the published curve.", "assumed"),
      real<S>("spoilage.mould_rate", {0.0, 20.0}, AT(spoilage.mould_rate),
              "Chance a day of mould on a usual, clean tray at its best temperature.", "assumed").in("1/d"),
      real<S>("spoilage.sour_rate", {0.0, 20.0}, AT(spoilage.sour_rate),
              "The same for souring, at its own best temperature.", "assumed").in("1/d"),
      real<S>("spoilage.mould_lag", {0.0, 20.0}, AT(spoilage.mould_lag),
              "Growth time, in days at 20 degC, at which mould's chance a day is half of its height; 0 is no lag.", "assumed").in("d"),
      real<S>("spoilage.shed", {0.0, 1.0e3}, AT(spoilage.shed),
              "Spores a spoiled mat adds a day to its own level and to each its water reaches; usual grain's own are 1.", "assumed"),
      real<S>("spoilage.shed_to_tray", {1.0, 1.0e4}, AT(spoilage.shed_to_tray),
              "How many times a sound mat's spores a spoiled one leaves on its tray.", "assumed"),
      real<S>("spoilage.rinsed_per_day", {0.0, 1.0}, AT(spoilage.rinsed_per_day),
              "Share of a level's spores that watering and work carry off in a day.", "assumed"),
      real<S>("spoilage.dead_grain_power", {0.0, 6.0}, AT(spoilage.dead_grain_power),
              "How strongly dead grain raises mould (exponent).", "assumed"),
      real<S>("spoilage.dead_grain_floor", {0.0, 0.9}, AT(spoilage.dead_grain_floor),
              "What mould finds to live on in a tray without dead grain, as a share of dead grain.", "assumed"),
      real<S>("spoilage.density_power", {0.0, 6.0}, AT(spoilage.density_power),
              "How strongly thick sowing raises both (exponent).", "assumed"),
      real<S>("spoilage.usual_density", {0.5, 20.0}, AT(spoilage.usual_density),
              "The usual sowing density those rates belong to.", "assumed"),
      real<S>("spoilage.usual_dead", {0.001, 0.9}, AT(spoilage.usual_dead_fraction),
              "The usual share of dead grain those rates belong to.", "assumed"),
      real<S>("spoilage.stress_gain", {0.0, 50.0}, AT(spoilage.stress_gain),
              "How strongly a harmful soak raises souring.", "assumed"),
      real<S>("spoilage.undrained_gain", {0.0, 50.0}, AT(spoilage.undrained_gain),
              "How strongly standing water raises souring.", "assumed"),
      real<S>("spoilage.wetness_gain", {0.0, 50.0}, AT(spoilage.wetness_gain),
              "How strongly still, damp air raises mould.", "assumed"),
      real<S>("spoilage.frost_kill", {-30.0, 0.0}, AT(frost.kill),
              "Where the air at its tier falls below this a mat dies, and is thrown out; -2 to -5 degC can be defended.",
              "cereals never hardened to cold, Fowler, Limin & Ritchie 1999 (from memory)"),
      real<S>("spoilage.frost_sprouted", {0.0, 0.9}, AT(frost.sprouted),
              "Share of a tray's grain whose time to sprout has come, from which on it is a mat: before, frost leaves it as it is, and it is no fodder.",
              "assumed"),
  };
}

}  // namespace rackwright::keys
