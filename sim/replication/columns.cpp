#include "sim/replication/columns.hpp"

#include <algorithm>
#include <array>

namespace rackwright {
namespace {

constexpr auto real = ColumnType::real;
constexpr auto whole = ColumnType::whole;

// A member read as it stands.
#define RACKWRIGHT_FIELD(member) [](const Outcome& o) { return static_cast<double>(o.member); }

double yearly(const Outcome& outcome, double amount) {
  return outcome.days > 0.0 ? amount * 365.0 / outcome.days : 0.0;
}

// File order: what was asked and given, when it fell short, the trays, the fodder, what went in, the room, the money.
constexpr std::array outcome_table{
    Column{"days", "d", "length of the run", real, RACKWRIGHT_FIELD(days)},
    Column{"wanted", "kg", "fresh fodder wanted", real, RACKWRIGHT_FIELD(wanted)},
    Column{"served", "kg", "fresh fodder served", real, RACKWRIGHT_FIELD(served)},
    Column{"fill_rate", "1", "share of the wanted fodder that was served", real, RACKWRIGHT_FIELD(fill_rate)},
    Column{"feedings", "1", "meals due: each group's counts one a round", whole, RACKWRIGHT_FIELD(feedings)},
    Column{"short_feedings", "1", "meals that got less than their ration, each group's counted", whole, RACKWRIGHT_FIELD(short_feedings)},
    Column{"missed_rounds", "1", "rounds the keeper missed", whole, RACKWRIGHT_FIELD(missed_rounds)},
    Column{"short_days", "1", "days with a short meal", whole, RACKWRIGHT_FIELD(short_days)},
    Column{"short_days_year", "1", "days with a short meal, a year of 365 days", real,
           [](const Outcome& o) { return yearly(o, o.short_days); }},
    Column{"longest_short_run", "1", "most short days in a row", whole, RACKWRIGHT_FIELD(longest_short_run)},
    Column{"worst_season_fill_rate", "1", "fill rate (share of the wanted fodder served) of the worst season of the run", real,
           RACKWRIGHT_FIELD(worst_season_fill_rate)},
    Column{"short_days_dec_feb", "1", "short days in December to February", whole,
           RACKWRIGHT_FIELD(short_days_by_season[0])},
    Column{"short_days_mar_may", "1", "short days in March to May", whole, RACKWRIGHT_FIELD(short_days_by_season[1])},
    Column{"short_days_jun_aug", "1", "short days in June to August", whole,
           RACKWRIGHT_FIELD(short_days_by_season[2])},
    Column{"short_days_sep_nov", "1", "short days in September to November", whole,
           RACKWRIGHT_FIELD(short_days_by_season[3])},

    Column{"trays_sown", "1", "trays sown", whole, RACKWRIGHT_FIELD(trays_sown)},
    Column{"trays_fed", "1", "trays fed", whole, RACKWRIGHT_FIELD(trays_fed)},
    Column{"trays_on_rack", "1", "trays left on the rack at the end", whole, RACKWRIGHT_FIELD(trays_on_rack)},
    Column{"spoiled_trays", "1", "mats lost to mould or souring and thrown out", whole,
           [](const Outcome& o) { return static_cast<double>(o.spoiled_mould + o.spoiled_sour); }},
    Column{"spoiled_mould", "1", "mats lost to mould and thrown out", whole, RACKWRIGHT_FIELD(spoiled_mould)},
    Column{"spoiled_sour", "1", "mats lost to souring and thrown out", whole, RACKWRIGHT_FIELD(spoiled_sour)},
    Column{"frost_killed", "1", "mats killed by frost and thrown out", whole, RACKWRIGHT_FIELD(frost_killed)},
    Column{"spoiled_fed", "1", "spoiled mats fed unnoticed", whole, RACKWRIGHT_FIELD(spoiled_fed)},
    Column{"overdue_trays", "1", "mats fed or composted past their best", whole, RACKWRIGHT_FIELD(overdue_trays)},
    Column{"unripe_fed", "1", "mats fed unripe (before they had grown to the share line.ready of a ripe mat)", whole, RACKWRIGHT_FIELD(unripe_fed)},
    Column{"composted_trays", "1", "sound mats composted, for whatever reason", whole,
           [](const Outcome& o) { return static_cast<double>(o.composted_surplus + o.composted_overdue + o.composted_unripe); }},
    Column{"composted_surplus", "1", "ripe mats composted because they were not needed in time", whole,
           RACKWRIGHT_FIELD(composted_surplus)},
    Column{"composted_overdue", "1", "mats composted past their best", whole, RACKWRIGHT_FIELD(composted_overdue)},
    Column{"composted_unripe", "1", "unripe mats composted because their places were wanted or their time was long over", whole,
           RACKWRIGHT_FIELD(composted_unripe)},
    Column{"blocked_sowings", "1", "trays that found no place on the rack", whole, RACKWRIGHT_FIELD(blocked_sowings)},
    Column{"unsown_trays", "1", "trays not sown for want of grain", whole, RACKWRIGHT_FIELD(unsown_trays)},
    Column{"unsoaked_trays", "1", "trays not soaked for want of a free bucket", whole, RACKWRIGHT_FIELD(unsoaked_trays)},
    Column{"frost_unsown", "1", "trays not soaked or not sown because the room was freezing", whole, RACKWRIGHT_FIELD(frost_unsown)},
    Column{"unattended_trays", "1", "trays not soaked, or soaked and fouled, because nobody was there", whole, RACKWRIGHT_FIELD(unattended_trays)},
    Column{"untimely_trays", "1", "trays soaked, but not sown for want of the keeper's time", whole,
           RACKWRIGHT_FIELD(untimely_trays)},
    Column{"unwashed_trays", "1", "trays left unwashed for want of time or washing place", whole,
           RACKWRIGHT_FIELD(unwashed_trays)},
    Column{"unmoved_days", "1", "days on which there was no time to move the trays", whole, RACKWRIGHT_FIELD(unmoved_days)},
    Column{"hurried_harvests", "1", "rounds with too little time to cut all that was wanted", whole,
           RACKWRIGHT_FIELD(hurried_harvests)},
    Column{"tray_days", "d", "trays on the rack, summed over the days", real, RACKWRIGHT_FIELD(tray_days)},
    Column{"residence_days", "d", "days of the run that trays stood on the rack, summed tray by tray, those that still stand there with theirs", real, RACKWRIGHT_FIELD(residence_days)},

    Column{"fodder_fresh", "kg", "fresh fodder harvested and fed", real, RACKWRIGHT_FIELD(fodder_fresh)},
    Column{"fodder_dry_matter", "kg", "dry matter of the fodder fed", real, RACKWRIGHT_FIELD(fodder_dry_matter)},
    Column{"leftover", "kg", "fresh fodder cut but not wanted", real, RACKWRIGHT_FIELD(leftover)},
    Column{"mat_height", "cm", "mean mat height at feeding", real, RACKWRIGHT_FIELD(mat_height)},
    Column{"mat_growth_days", "d", "mean growth time at feeding, in days at 20 degC", real,
           RACKWRIGHT_FIELD(mat_growth_days)},
    Column{"germination", "1", "mean share of the grain that had sprouted at feeding", real,
           RACKWRIGHT_FIELD(germination)},
    Column{"protein", "kg", "crude protein fed with the fodder", real, RACKWRIGHT_FIELD(protein)},
    Column{"energy_feed", "MJ", "metabolisable energy (what an animal can use) fed with the fodder", real, RACKWRIGHT_FIELD(energy_feed)},

    Column{"grain_used", "kg", "grain put to soak", real, RACKWRIGHT_FIELD(grain_used)},
    Column{"grain_bought", "kg", "grain bought", real, RACKWRIGHT_FIELD(grain_bought)},
    Column{"grain_start", "kg", "grain in store at the start", real, RACKWRIGHT_FIELD(grain_start)},
    Column{"grain_end", "kg", "grain in store at the end", real, RACKWRIGHT_FIELD(grain_end)},
    Column{"grain_aged_out", "kg", "grain discarded for its age", real, RACKWRIGHT_FIELD(grain_aged_out)},
    Column{"grain_refused", "kg", "grain refused after a trial", real, RACKWRIGHT_FIELD(grain_refused)},
    Column{"grain_tried", "kg", "grain laid out in trials", real, RACKWRIGHT_FIELD(grain_tried)},
    Column{"grain_untried", "kg", "grain put to soak while its lot's trial was still going on", real, RACKWRIGHT_FIELD(grain_untried)},
    Column{"grain_run_outs", "1", "soakings that found too little grain", whole, RACKWRIGHT_FIELD(grain_run_outs)},
    Column{"lots", "1", "lots of grain opened", whole, RACKWRIGHT_FIELD(lots)},
    Column{"lots_tried", "1", "lots of which a trial was laid out", whole, RACKWRIGHT_FIELD(lots_tried)},
    Column{"lots_refused", "1", "lots refused after a trial", whole, RACKWRIGHT_FIELD(lots_refused)},
    Column{"water_used", "L", "fresh water used", real, RACKWRIGHT_FIELD(water_used)},
    Column{"energy_used", "kW h", "electricity used", real,
           [](const Outcome& o) { return o.energy_heater + o.energy_cooler + o.energy_pump; }},
    Column{"energy_heater", "kW h", "electricity of the heater", real, RACKWRIGHT_FIELD(energy_heater)},
    Column{"energy_cooler", "kW h", "electricity of the cooler", real, RACKWRIGHT_FIELD(energy_cooler)},
    Column{"energy_pump", "kW h", "electricity of the pump", real, RACKWRIGHT_FIELD(energy_pump)},
    Column{"labour", "h", "the keeper's work", real, RACKWRIGHT_FIELD(labour)},
    Column{"overloaded_days", "d", "days on which the keeper's minutes were not enough", real,
           RACKWRIGHT_FIELD(overloaded_days)},
    Column{"reserve_feed", "kg", "reserve feed bought, as bought", real, RACKWRIGHT_FIELD(reserve_feed)},
    Column{"pump_failures", "1", "pump failures", whole, RACKWRIGHT_FIELD(pump_failures)},
    Column{"power_cuts", "1", "power cuts", whole, RACKWRIGHT_FIELD(power_cuts)},
    Column{"clogs", "1", "clogged emitters", whole, RACKWRIGHT_FIELD(clogs)},
    Column{"tank_empties", "1", "times a tank filled by hand ran empty", whole, RACKWRIGHT_FIELD(tank_empties)},
    Column{"dry_hours", "h", "hours without water, in spells longer than the usual gap between waterings, summed over trays", real, RACKWRIGHT_FIELD(dry_hours)},

    Column{"heat_mats", "kW h", "heat the mats gave the room", real, RACKWRIGHT_FIELD(heat_mats)},
    Column{"condensed", "kg", "water that condensed in the room", real, RACKWRIGHT_FIELD(condensed)},
    Column{"frozen_hours", "h", "hours with the room below freezing, in which no water ran", real, RACKWRIGHT_FIELD(frozen_hours)},
    Column{"room_mean", "degC", "mean room temperature", real, RACKWRIGHT_FIELD(room_mean)},
    Column{"room_max", "degC", "highest room temperature", real, RACKWRIGHT_FIELD(room_max)},
    Column{"room_min", "degC", "lowest room temperature", real, RACKWRIGHT_FIELD(room_min)},

    Column{"cost_total", "1", "money spent in all, in the scenario's currency", real, RACKWRIGHT_FIELD(cost_total), true},
    Column{"cost_year", "1", "money spent, a year of 365 days, in the scenario's currency", real,
           [](const Outcome& o) { return yearly(o, o.cost_total); }, true},
    Column{"cost_capital", "1", "money for rack and equipment, spread over their life", real,
           RACKWRIGHT_FIELD(cost.capital), true},
    Column{"cost_grain", "1", "money for grain", real, RACKWRIGHT_FIELD(cost.grain), true},
    Column{"cost_water", "1", "money for water", real, RACKWRIGHT_FIELD(cost.water), true},
    Column{"cost_power", "1", "money for electricity", real, RACKWRIGHT_FIELD(cost.power), true},
    Column{"cost_labour", "1", "money for the keeper's work", real, RACKWRIGHT_FIELD(cost.labour), true},
    Column{"cost_reserve", "1", "money for reserve feed", real, RACKWRIGHT_FIELD(cost.reserve), true},
    Column{"cost_disposal", "1", "money for disposing of spoiled mats", real, RACKWRIGHT_FIELD(cost.disposal), true},
    Column{"cost_per_kg_fresh", "kg-1", "price of the fresh fodder served, reserve feed left out", real,
           RACKWRIGHT_FIELD(cost_per_kg_fresh), true},
    Column{"cost_per_kg_dry_matter", "kg-1", "price of the dry matter in the fodder served, reserve feed left out",
           real, RACKWRIGHT_FIELD(cost_per_kg_dry_matter), true},
    Column{"dry_grain_per_kg_dry_matter", "kg-1", "price of dry matter, had the grain been fed dry: at its own price or that of bulk grain, whichever is less",
           real, RACKWRIGHT_FIELD(dry_grain_per_kg_dry_matter), true},
    Column{"grain_dry_matter", "kg", "dry matter of the grain sown", real, RACKWRIGHT_FIELD(grain_dry_matter)},
    Column{"equal_hay", "kg", "hay, as bought, that carries the energy of the fodder fed", real, RACKWRIGHT_FIELD(equal_hay)},
    Column{"cost_equal_hay", "1", "money for that hay", real, RACKWRIGHT_FIELD(cost_equal_hay), true},
};

#undef RACKWRIGHT_FIELD

constexpr std::array daily_table{
    DailyColumn{"wanted", "kg", "fresh fodder wanted that day", &DailyRow::wanted},
    DailyColumn{"served", "kg", "fresh fodder served that day", &DailyRow::served},
    DailyColumn{"outdoor_mean", "degC", "mean outdoor temperature", &DailyRow::outdoor_mean},
    DailyColumn{"room_mean", "degC", "mean room temperature", &DailyRow::room_mean},
    DailyColumn{"room_max", "degC", "highest room temperature", &DailyRow::room_max},
    DailyColumn{"room_min", "degC", "lowest room temperature", &DailyRow::room_min},
    DailyColumn{"room_humidity", "1", "mean relative humidity of the room", &DailyRow::room_humidity},
    DailyColumn{"trays", "1", "trays on the rack at midnight", &DailyRow::trays},
    DailyColumn{"ready_trays", "1", "trays ready to feed at midnight", &DailyRow::ready_trays},
    DailyColumn{"spoiled", "1", "mats spoiled that day, by mould, souring or frost", &DailyRow::spoiled},
    DailyColumn{"grain_on_hand", "kg", "grain in store", &DailyRow::grain_on_hand},
    DailyColumn{"water", "L", "fresh water used that day; what a mat drank is booked on the day it leaves the rack", &DailyRow::water},
    DailyColumn{"energy", "kW h", "electricity used that day", &DailyRow::energy},
    DailyColumn{"labour", "min", "the keeper's work that day", &DailyRow::labour},
    DailyColumn{"mat_height", "cm", "height of the mats fed that day, 0 when none was", &DailyRow::mat_height},
};

}  // namespace

std::span<const Column> outcome_columns() { return outcome_table; }

const Column* find_column(std::string_view name) {
  const auto found = std::find_if(outcome_table.begin(), outcome_table.end(),
                                  [&](const Column& column) { return column.name == name; });
  return found == outcome_table.end() ? nullptr : &*found;
}

bool in_money(std::string_view quantity) {
  const Column* column = find_column(quantity.substr(0, quantity.find('/')));
  return column != nullptr && column->money;
}

std::span<const DailyColumn> daily_columns() { return daily_table; }

}  // namespace rackwright
