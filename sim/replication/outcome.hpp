#pragma once
// What one replication yields: values only.

#include <array>
#include <cstdint>

#include "models/cost/ledger.hpp"

namespace rackwright {

/// Totals of one replication over its whole horizon. Masses kg, water L, energy kWh, labour h, money in the scenario's currency.
struct Outcome {
  std::uint32_t replication = 0;
  double days = 0.0;                 ///< horizon [d]

  double wanted = 0.0, served = 0.0; ///< fodder wanted and served, fresh [kg]
  double fill_rate = 1.0;            ///< served / wanted [1]
  int feedings = 0, short_feedings = 0, missed_rounds = 0;
  int short_days = 0, longest_short_run = 0;
  double worst_season_fill_rate = 1.0;   ///< of the seasons with four weeks or more in the run [1]
  std::array<int, 4> short_days_by_season{};  ///< Dec-Feb, Mar-May, Jun-Aug, Sep-Nov

  int trays_sown = 0, trays_fed = 0, trays_on_rack = 0;  ///< on the rack: left standing at the end
  int spoiled_mould = 0, spoiled_sour = 0;   ///< mats lost and thrown out
  int frost_killed = 0;                      ///< mats that frost killed, thrown out
  int spoiled_fed = 0;                       ///< spoiled mats fed unnoticed: grave
  int overdue_trays = 0;                     ///< fed or composted past their best
  int unripe_fed = 0;                        ///< fed before they had grown to the stated share of ripe
  int composted_surplus = 0, composted_overdue = 0, composted_unripe = 0;  ///< sound: not needed in time, past their best, room wanted
  int blocked_sowings = 0;                   ///< trays that found no place
  int unsown_trays = 0;                      ///< trays not sown for want of grain
  int unsoaked_trays = 0;                    ///< for want of a free soak bucket
  int frost_unsown = 0;                      ///< trays not soaked or not sown because the room was freezing
  int unattended_trays = 0;                  ///< not soaked, or too long in water to be sown, because nobody was there
  int untimely_trays = 0;                    ///< soaked, but not sown for want of the keeper's time
  int unwashed_trays = 0, unmoved_days = 0, hurried_harvests = 0;  ///< likewise: trays, days, rounds with too little cut

  double fodder_fresh = 0.0, fodder_dry_matter = 0.0;  ///< harvested and fed
  double mat_height = 0.0, mat_growth_days = 0.0;      ///< means at feeding [cm, d at 20 degC]
  double germination = 0.0;                            ///< mean sprouted share at feeding [1]
  double leftover = 0.0;                     ///< cut but not wanted [kg fresh]
  double protein = 0.0, energy_feed = 0.0;   ///< delivered [kg crude protein, MJ]

  double grain_used = 0.0, grain_bought = 0.0, grain_start = 0.0, grain_end = 0.0, grain_aged_out = 0.0;
  double grain_refused = 0.0, grain_tried = 0.0, grain_untried = 0.0;  ///< refused after a trial, laid out for one, sown before its end
  int grain_run_outs = 0, lots = 0, lots_tried = 0, lots_refused = 0;
  double water_used = 0.0;                   ///< [L]
  double energy_heater = 0.0, energy_cooler = 0.0, energy_pump = 0.0;  ///< [kWh]
  double labour = 0.0;                       ///< [h]
  double overloaded_days = 0.0;              ///< days on which the keeper's minutes were not enough
  double reserve_feed = 0.0;                 ///< bought when the rack fell short [kg as bought]
  int pump_failures = 0, power_cuts = 0, clogs = 0;
  int tank_empties = 0;                      ///< times a tank filled by hand ran empty
  double dry_hours = 0.0;                    ///< tray-hours without water

  double heat_mats = 0.0;                    ///< what the mats gave the room [kWh]
  double respired = 0.0;                     ///< dry matter that mats turned to heat while they grew: those cut, thrown out, and left at the end [kg]
  double condensed = 0.0;                    ///< water that condensed in the room [kg]
  double frozen_hours = 0.0;                 ///< that the room was below freezing and no water ran
  double room_mean = 0.0, room_max = 0.0, room_min = 0.0;  ///< [degC]

  cost::Ledger cost;
  double cost_total = 0.0;
  double cost_per_kg_fresh = 0.0, cost_per_kg_dry_matter = 0.0;  ///< of fodder served; reserve feed left out of both
  double dry_grain_per_kg_dry_matter = 0.0;  ///< the same grain fed dry
  double grain_dry_matter = 0.0;             ///< of the grain used [kg]
  double equal_hay = 0.0, cost_equal_hay = 0.0;  ///< hay that carries the energy of the fodder fed [kg as bought, money]

  /// What is left when each balance is closed; all are zero to rounding, asserted.
  struct Residuals { double dry_matter = 0.0, water = 0.0, trays = 0.0, grain = 0.0, money = 0.0, heat = 0.0; } residuals;
  double tray_days = 0.0;                    ///< integral of trays on the rack, for Little's law [tray d]
  double residence_days = 0.0;               ///< summed stay of trays that left, plus that of those still there [tray d]
  std::uint64_t fingerprint = 0;             ///< of the event trace
};

/// What went wrong on a day, kept in memory only: the stress study tells by it what gave way first.
struct DaySigns {
  float mould = 0.0F, sour = 0.0F;           ///< mats that turned
  float unsown = 0.0F, blocked = 0.0F;       ///< trays without grain, trays without a place
  float frost = 0.0F, frozen = 0.0F;         ///< mats that frost killed, trays it kept from being sown
  float missed = 0.0F;                       ///< rounds nobody held
  float dry_hours = 0.0F;                    ///< tray-hours without water, booked when it is back
  float short_day = 0.0F;                    ///< 1 when a feeding was short
  float cut = 0.0F, cut_fresh = 0.0F;        ///< mats cut to feed, and their mass [kg]
};

/// One day of one replication.
struct DailyRow {
  float wanted = 0.0F, served = 0.0F;        ///< [kg fresh]
  float outdoor_mean = 0.0F, room_mean = 0.0F, room_max = 0.0F, room_min = 0.0F;  ///< [degC]
  float room_humidity = 0.0F;                ///< relative, mean [1]
  float trays = 0.0F, ready_trays = 0.0F;    ///< on the rack at midnight
  float spoiled = 0.0F;                      ///< mats spoiled today
  float grain_on_hand = 0.0F;                ///< [kg]
  float water = 0.0F, energy = 0.0F, labour = 0.0F;  ///< [L, kWh, min]
  float mat_height = 0.0F;                   ///< of what was fed [cm], 0 when nothing was
  DaySigns signs{};
};

}  // namespace rackwright
