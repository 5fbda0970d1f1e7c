// Closing a day: room, water, money, the season's books and the daily row.

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "models/spoilage/hazard.hpp"
#include "models/water/demand.hpp"
#include "sim/replication/journal_words.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {
namespace {

// Worth a line in the journal: past these mats sour within days, or stand still.
constexpr double hot_room = 32.0, cold_room = 4.0;  // [degC]

// 0 December to February, 1 March to May, 2 June to August, 3 September to November.
std::size_t season_of(int day_of_year) {
  if (day_of_year < 60 || day_of_year >= 335) return 0;
  if (day_of_year < 152) return 1;
  return day_of_year < 244 ? 2 : 3;
}

}  // namespace

void Replicator::State::on_close_day(int day) {
  sim_.schedule_at(minutes_per_day * (day + 2), phase_books, {.kind = EventKind::close_day, .day = day + 1});
  catch_up();
  const RoomDay& room = room_.day();
  const double humidity = room.saturation > 0.0 ? std::clamp(room.humidity / room.saturation, 0.0, 1.0) : 0.7;
  const auto& spoil = plan_->scenario.spoilage;
  spoilage::Tray at;
  at.relative_humidity = humidity;
  humidity_factor_ = spoilage::mould_multiplier(spoil, at) / usual_wetness_;

  const std::size_t season = season_of(plan_->day_of_year(day));
  if (short_today_) {
    ++out_.short_days;
    ++out_.short_days_by_season[season];
    out_.longest_short_run = std::max(out_.longest_short_run, ++short_run_);
  } else {
    short_run_ = 0;
  }
  if (rushed_today_ || minutes_today_ > plan_->scenario.keeper.minutes_per_day + 1e-9) out_.overloaded_days += 1.0;
  out_.labour += minutes_today_ / 60.0;
  book_water();
  book_money();
  // The store follows the weather, not the rack room.
  if (room.hours > 0) store_.age(fortune_.ignorance().ageing, Celsius(room.outdoor / room.hours), sim_.now());
  if (((day % 7) + 7) % 7 == 0 && !replaying() && (day >= 0 || plan_->opening)) {
    store_.reckon();
    for (std::size_t g = 0; g < used_.size(); ++g) throw_old_grain(static_cast<int>(g));
  }
  if (day >= 0) {
    room_sum_ += room.sum;
    room_hours_ += room.hours;
    out_.room_max = std::max(out_.room_max, room.most);
    out_.room_min = std::min(out_.room_min, room.least);
    write_row();
    seasons_.add(season, out_.wanted - before_.wanted, out_.served - before_.served);
  }
  before_ = totals();
  if (room.hours > 0 && (room.most >= hot_room || room.least <= cold_room)) {
    tell([&] {
      const Units units = plan_->scenario.units;
      return fmt::format("yesterday the room went from {} to {}, outdoors {} on average", temperature_words(units, room.least),
                         temperature_words(units, room.most), temperature_words(units, room.outdoor / room.hours));
    });
  }
  follow_course(day + 1);
  tell_of_day(day + 1);
  room_.day() = RoomDay{};
  static_cast<DayValues&>(*this) = {};
}

void Replicator::State::book_water() {
  const WaterSystem& system = plan_->scenario.water;
  const RoomDay& room = room_.day();
  book_idle();
  const double idle = std::min(1.0, idle_today_ / static_cast<double>(minutes_per_day));
  idle_today_ = 0.0;
  kept_yesterday_ = taken_up_today_ + room.evaporated;
  const water::Daily daily = water::daily_use(system.schedule, plan_->water.pump_flow, system.pump.power, taken_up_today_,
                                              room.evaporated, system.tank_litres, idle);
  out_.condensed += room.condensed;
  out_.water_used += daily.fresh_litres + soak_water_today_ + wash_water_today_;
  out_.energy_pump += daily.energy.value();
  out_.energy_heater += room.heater_wh / 1000.0;
  out_.energy_cooler += room.cooler_wh / 1000.0;
  out_.heat_mats += room.mats_wh / 1000.0;
}

void Replicator::State::book_money() {
  const cost::Prices& prices = plan_->scenario.prices;
  const Totals now = totals();
  spend(out_.cost.capital, plan_->capital_per_day);
  spend(out_.cost.water, (now.water - before_.water) / 1000.0 * prices.water_per_m3);
  spend(out_.cost.power, (now.energy - before_.energy) * prices.power_per_kwh);
  spend(out_.cost.labour, (now.labour - before_.labour) * prices.labour_per_hour);
}

Totals Replicator::State::totals() const {
  return {out_.wanted, out_.served, out_.water_used, out_.energy_pump + out_.energy_heater + out_.energy_cooler, out_.labour,
          static_cast<double>(out_.unsown_trays), static_cast<double>(out_.blocked_sowings),
          static_cast<double>(out_.frost_unsown), static_cast<double>(out_.missed_rounds), out_.dry_hours, static_cast<double>(balance_.trays_fed),
          balance_.dry_matter_fed + balance_.water_fed};
}

void Replicator::State::write_row() {
  const RoomDay& room = room_.day();
  const auto f = [](double value) { return static_cast<float>(value); };
  const double hours = std::max(1, room.hours);
  const Totals now = totals();
  DailyRow row;
  row.wanted = f(now.wanted - before_.wanted);
  row.served = f(now.served - before_.served);
  row.outdoor_mean = f(room.outdoor / hours);
  row.room_mean = f(room.sum / hours);
  row.room_max = f(room.most);
  row.room_min = f(room.least);
  row.room_humidity = f(room.saturation > 0.0 ? std::min(1.0, room.humidity / room.saturation) : 0.0);
  row.trays = f(rack_.trays());
  int ready = 0;
  for (const Batch& batch : rack_.batches()) {
    if (too_young(batch)) break;
    ready += due(batch) && is_mat(batch) ? batch.left : 0;
  }
  row.ready_trays = f(ready);
  row.spoiled = f(spoiled_today_ + frost_today_);
  row.grain_on_hand = f(store_.on_hand());
  row.water = f(now.water - before_.water);
  row.energy = f(now.energy - before_.energy);
  row.labour = f(minutes_today_);
  row.mat_height = f(height_count_ > 0.0 ? height_sum_ / height_count_ : 0.0);
  row.signs = {f(spoiled_today_ - sour_today_), f(sour_today_), f(now.unsown - before_.unsown),
               f(now.blocked - before_.blocked), f(frost_today_), f(now.frozen - before_.frozen), f(now.missed - before_.missed), f(now.dry_hours - before_.dry_hours),
               short_today_ ? 1.0F : 0.0F, f(now.cut - before_.cut), f(now.cut_fresh - before_.cut_fresh)};
  rows_.push_back(row);
}

}  // namespace rackwright
