#pragma once
// What a replication keeps beside rack, room and store. Each struct is assigned anew where its time begins, so that nothing is left
// over from the time before. Replicator::State holds them as bases.

#include <array>
#include <cstdint>
#include <optional>

#include "models/route/stations.hpp"
#include "sim/kernel/calendar.hpp"
#include "sim/replication/balance.hpp"
#include "sim/replication/mat_table.hpp"
#include "sim/replication/outcome.hpp"
#include "sim/replication/season_book.hpp"

namespace rackwright {

/// A batch's mats as they stand at one time. Its trays differ by their sprouted share, and all masses are linear in it.
struct BatchMats {
  static constexpr double never = -1e15;
  double when = never;       ///< settled then [min]
  double share = 0.0;        ///< germinated share of the germinable grain [1]
  double loss = 0.0;         ///< of dry matter, where all sprouted [1]
  double height_cm = 0.0;    ///< of a full stand
  double fresh_soaked = 0.0, fresh_gain = 0.0;   ///< of a tray that only soaked, and what all sprouting adds [kg]
  double taken_soaked = 0.0, taken_gain = 0.0;   ///< likewise of the water taken up [L]
  double from_soak = 0.0;    ///< of it what came with the soak, by a tray [L]
  double evaporated = 0.0;   ///< by a tray [kg]
};

/// What yesterday ended with, for the difference to today.
struct Totals {
  double wanted = 0.0, served = 0.0, water = 0.0, energy = 0.0, labour = 0.0;
  double unsown = 0.0, blocked = 0.0, frozen = 0.0, missed = 0.0, dry_hours = 0.0, cut = 0.0, cut_fresh = 0.0;  ///< see DaySigns
};

/// Fodder cut but not yet fed.
struct Carried { double fresh = 0.0, dry_matter = 0.0, protein = 0.0, energy_mj = 0.0; };  ///< kg, kg, kg, MJ

/// Of a whole run, its run-in included.
struct RunValues {
  Balance balance_;
  std::array<int, 3> down_{};            ///< under way: outages of pump, power; an empty tank
  std::int64_t tray_clock_ = 0;          ///< minute up to which tray_days is summed
  double humidity_factor_ = 1.0;         ///< of the mould hazard, today
  Carried carried_;
  double sound_ = 1.0;                   ///< share of the mats of late that were sound [1]
  double mat_weight_ = 0.0;              ///< fresh, of the mats cut of late: what the keeper reckons with when he sows as wanted [kg]
  double washed_ = 1.0;                  ///< share of the last round's trays that there was time to wash [1]
  route::SessionWork work_;              ///< since the last round that was kept
  double trial_minutes_ = 0.0;           ///< spent on trials since the last round
  double minutes_left_ = 0.0;            ///< for the chores of the round under way
  bool rushed_harvest_ = false;          ///< was there too little time to cut all that its animals wanted?
  int spoiled_here_ = 0;                 ///< spoiled trays still on the rack
  bool any_load_ = false;                ///< has a level inoculum left by spoiled mats?
  double tray_residue_ = 0.1;            ///< inoculum on a clean tray, mean of all of them, relative to usual grain's own
  int mouldy_washed_ = 0;                ///< of the trays that wait to be washed
  bool any_drought_ = false;
  int clogs_here_ = 0;                   ///< tiers with clogged emitters
  std::int64_t tank_filled_ = 0;         ///< minute
  kernel::Handle tank_empty_{};          ///< of the event to come
  bool frozen_ = false;                  ///< is the room below freezing?
  double coldest_ = above_freezing;      ///< that it was since the last round, if that was below freezing [degC]
  static constexpr double above_freezing = 1e9;
  std::optional<std::int64_t> idle_from_{};  ///< minute from which the pump's standstill is still to be counted; none: it runs
  double idle_today_ = 0.0;              ///< [min]
  double kept_yesterday_ = 0.0;          ///< water that the line kept [L]
};

/// Of the days that are counted: from the start of the run-in, and again from day 0.
struct CountedValues {
  CountedValues() { out_.room_max = -1e9, out_.room_min = 1e9; }  // so that the first hour is both

  Outcome out_;
  Totals before_;                        ///< at the end of yesterday, for the daily row
  double dry_grain_money_ = 0.0;         ///< paid for the grain used
  int short_run_ = 0;
  SeasonBook seasons_;
  double tray_stay_ = 0.0;
  double sum_height_ = 0.0, sum_growth_ = 0.0, sum_sprouted_ = 0.0;
  double room_sum_ = 0.0, room_hours_ = 0.0;
};

/// Of one day.
struct DayValues {
  double minutes_today_ = 0.0;
  int washed_today_ = 0;
  bool short_today_ = false;
  bool rushed_today_ = false;            ///< something was left undone for want of time
  double spoiled_today_ = 0.0, sour_today_ = 0.0, frost_today_ = 0.0, height_sum_ = 0.0, height_count_ = 0.0;
  double taken_up_today_ = 0.0, soak_water_today_ = 0.0, wash_water_today_ = 0.0;
};

}  // namespace rackwright
