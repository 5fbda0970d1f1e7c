// Keys of feed value, prices, the target and the search; and the table that joins all parts.
#include "sim/scenario/key_at.hpp"
#include "sim/scenario/key_table.hpp"

namespace rackwright::keys {
namespace {

using S = Scenario;
constexpr std::string_view yours = "yours";
constexpr std::string_view tables = "usual feed-table order, from memory";

}  // namespace

Table<S> money_keys() {
  return {
      real<S>("feed.hay_dry_matter", {0.05, 0.98}, AT(feed.hay.dry_matter), "Dry matter of your hay, or of what you feed for it: haylage, silage, pasture.", tables),
      real<S>("feed.hay_energy", {1.0, 16.0}, AT(feed.hay.energy_mj_per_kg_dm),
              "Energy of its dry matter (metabolisable).", tables).in("MJ/kg"),
      real<S>("feed.grain_protein", {0.02, 0.5}, AT(feed.grain_protein),
              "Crude protein in the grain's dry matter, by your own analysis; \"none\": as usual for each species.", yours),
      real<S>("feed.grain_energy", {1.0, 20.0}, AT(feed.grain.energy_mj_per_kg_dm),
              "Energy of the grain's dry matter (metabolisable).", tables).in("MJ/kg"),
      real<S>("feed.tolerance", {0.0, 0.5}, AT(feed.tolerance),
              "A feeding is short when it misses more than this share of its ration.", "assumed"),
      real<S>("prices.tier", {0.0, 1.0e9}, AT(prices.tier), "One level of rack.", yours),
      real<S>("prices.tray", {0.0, 1.0e8}, AT(prices.tray), "One tray.", yours),
      real<S>("prices.pump", {0.0, 1.0e8}, AT(prices.pump), "The pump with timer and pipes.", yours),
      real<S>("prices.bucket", {0.0, 1.0e8}, AT(prices.bucket), "One soak bucket.", yours),
      real<S>("prices.frame", {0.0, 1.0e9}, AT(prices.frame), "The frame, whatever its levels.", yours),
      real<S>("prices.heater", {0.0, 1.0e9}, AT(prices.heater), "The heater, where there is one.", yours),
      real<S>("prices.cooler", {0.0, 1.0e9}, AT(prices.cooler), "The cooler, where there is one.", yours),
      real<S>("prices.insulation", {0.0, 1.0e8}, AT(prices.insulation_per_m3),
              "Insulation with what holds it; a plain number is for a cubic metre: 180 makes 9 a square metre of 5 cm.",
              yours).in("1/m3").bare_number(),
      real<S>("prices.shade", {0.0, 1.0e8}, AT(prices.shade_per_m2),
              "Shade; a plain number is for a square metre of sunny window or roof, 0 where the shade is there already.",
              yours).in("1/m2").bare_number(),
      real<S>("prices.life", {0.5, 60.0}, AT(prices.life_years), "Years all that lasts.", yours).in("year"),
      real<S>("prices.interest", {0.0, 0.5}, AT(prices.interest), "Yearly interest on it.", yours),
      real<S>("prices.water", {0.0, 1.0e7}, AT(prices.water_per_m3),
              "Water; a plain number is for a cubic metre.", yours).in("1/m3").bare_number(),
      real<S>("prices.power", {0.0, 1.0e6}, AT(prices.power_per_kwh),
              "Electricity; a plain number is for a kilowatt-hour.", yours).in("1/kWh").bare_number(),
      real<S>("prices.labour", {0.0, 1.0e7}, AT(prices.labour_per_hour),
              "Your hour; 0 to leave it out.", yours).in("1/h").bare_number(),
      real<S>("prices.reserve", {0.0, 1.0e6}, AT(prices.reserve_per_kg),
              "Reserve feed; a plain number is for a kilogram.", yours).in("1/kg").bare_number(),
      real<S>("prices.hay", {0.0, 1.0e6}, AT(prices.hay_per_kg),
              "Hay, for comparison; a plain number is for a kilogram.", yours).in("1/kg").bare_number(),
      real<S>("prices.disposal", {0.0, 1.0e6}, AT(prices.disposal_per_kg),
              "Getting rid of spoiled mats; a plain number is for a kilogram.", yours).in("1/kg").bare_number(),
      real<S>("target.fill_rate", {0.0, 1.0}, AT(target.fill_rate),
              "Least share of the fodder wanted that must be served in a year.", yours),
      real<S>("target.short_days", {0.0, 366.0}, AT(target.short_days),
              "Most days a year with a short feeding; \"none\": no limit.", yours),
      real<S>("target.longest_short_run", {0.0, 3660.0}, AT(target.longest_short_run),
              "Most days in a row with a short feeding; \"none\": no limit.", yours),
      real<S>("target.season_fill_rate", {0.0, 1.0}, AT(target.season_fill_rate),
              "Least share of the fodder wanted that must be served in the worst season (three months); \"none\": no limit.",
              yours),
      real<S>("target.spoiled_fed", {0.0, 1.0e6}, AT(target.spoiled_fed),
              "Most spoiled mats a year fed unnoticed; \"none\": no limit.", yours),
      real<S>("target.unripe_fed", {0.0, 1.0}, AT(target.unripe_fed),
              "Most mats fed unripe, as a share of all that are fed in a year: they are soaked grain rather than green fodder; 100 %: no limit.", "assumed"),
      real<S>("target.yearly_cost", {0.0, 1.0e12}, AT(target.yearly_cost),
              "Most money a year; \"none\": no limit.", yours),
      real<S>("target.mean_fill_rate", {0.0, 1.0}, AT(target.mean_fill_rate),
              "Least share served, as a mean over the years; \"none\": no limit.", yours),
      real<S>("target.mean_yearly_cost", {0.0, 1.0e12}, AT(target.mean_yearly_cost),
              "Most money a year, as a mean over the years; \"none\": no limit.", yours),
      real<S>("target.years", {0.01, 0.999}, AT(target.years), "Share of years in which all of that must hold.", yours),
      real<S>("target.fill_rate_years", {0.01, 0.9999}, AT(target.fill_rate_years),
              "Share of years in which the limit on the fill rate must hold by itself; \"none\": with the others.", yours),
      real<S>("target.short_days_years", {0.01, 0.9999}, AT(target.short_days_years),
              "Share of years in which the limit on short days must hold by itself; \"none\": with the others.", yours),
      real<S>("target.longest_short_run_years", {0.01, 0.9999}, AT(target.longest_short_run_years),
              "Share of years in which the limit on short days in a row must hold by itself; \"none\": with the others.", yours),
      real<S>("target.season_fill_rate_years", {0.01, 0.9999}, AT(target.season_fill_rate_years),
              "Share of years in which the limit on the worst season must hold by itself; \"none\": with the others.", yours),
      real<S>("target.spoiled_fed_years", {0.01, 0.9999}, AT(target.spoiled_fed_years),
              "Share of years in which the limit on spoiled mats fed must hold by itself; \"none\": with the others.", yours),
      real<S>("target.unripe_fed_years", {0.01, 0.9999}, AT(target.unripe_fed_years),
              "Share of years in which the limit on unripe mats fed must hold by itself; \"none\": with the others.", yours),
      real<S>("target.yearly_cost_years", {0.01, 0.9999}, AT(target.yearly_cost_years),
              "Share of years in which the limit on the yearly cost must hold by itself; \"none\": with the others.", yours),
      real<S>("target.confidence", {0.5, 0.9999}, AT(target.confidence), "How sure the verdict must be.", yours),
      real<S>("choose.indifference", {0.0, 0.5}, AT(choose.indifference),
              "Cost differences below this share are not worth a decision.", yours),
      whole<S>("choose.most_replications", {10, 10000000}, AT(choose.most_replications),
               "Most runs that the search spends on one design; the one it shows is then played run.replications times.", yours),
      real<S>("choose.look_ahead", {0.0, 24.0 * 3660.0}, AT(choose.look_ahead),
              "How far ahead a growing herd is followed on the chosen rack; 0: not at all.", yours).show("d"),
  };
}

const Table<S>& scenario_keys() {
  static const Table<S> table = [] {
    Table<S> all;
    for (Table<S> (*part)() : {run_keys, room_keys, line_keys, spoilage_keys, own_line_keys, ignorance_keys, water_keys, keeper_keys, money_keys}) {
      for (Key<S>& key : part()) all.push_back(std::move(key));
    }
    return all;
  }();
  return table;
}

const std::vector<Section>& sections() {
  static const std::vector<Section> all{
      {"", "What the scenario is called and how the program answers."},
      {"run", "How long a run lasts, from when, and how often it is repeated."},
      {"climate",
       "The weather outdoors: a yearly wave, a day's ups and downs, and warm or cold days that follow each other."},
      {"room", "The room the rack stands in."},
      {"rack", "The rack: levels, places and trays."},
      {"line", "The daily line: what is soaked and sown, and when it is harvested."},
      {"spoilage",
       "How mats mould and sour. No published law exists for trays: these values are assumed, and yours to fit."},
      {"own_line",
       "How your mats differ from published ones, whatever the species; `rackwright fit trays` finds it from your log."},
      {"ignorance",
       "How unsure each uncertain parameter is (docs/models/ignorance.md); a log of your trays narrows it."},
      {"water", "Pump, pipes, timer, and what fails."},
      {"keeper", "Your day: hours, minutes and slips."},
      {"feed", "What hay and grain are worth as feed."},
      {"prices", "Money, in your own currency."},
      {"target", "What a year must meet, and how surely."},
      {"choose",
       "What sizing may vary: any key of this page in quotes with a list of its values, and how long to search."},
  };
  return all;
}

}  // namespace rackwright::keys
