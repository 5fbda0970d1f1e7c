// The keeper's minutes. Animals are fed and watered in any case; the time that is left goes, in this order, to harvest, sowing, moving
// and washing. What there is no time for is left undone, counted and told.

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/core.h>

#include "sim/replication/state.hpp"

namespace rackwright {

void Replicator::State::open_chores(int session) {
  const Keeper& keeper = plan_->scenario.keeper;
  work_.groups_fed = static_cast<int>(std::count_if(wants_.begin(), wants_.end(), [](double want) { return want > 0.0; }));
  route::SessionWork before_washing = work_;  // trays of mats thrown out wait for the washing like all others
  before_washing.trays_washed = 0;
  const double taken = route::session_minutes(keeper.times, before_washing) + walk_minutes_;
  const double trials = std::exchange(trial_minutes_, 0.0);  // within minutes_today_, where the day's minutes are one
  rushed_harvest_ = false;
  if (keeper.evening_minutes) {
    minutes_left_ = (session == 0 ? keeper.minutes_per_day - *keeper.evening_minutes : *keeper.evening_minutes) - taken - trials;
    if (minutes_left_ < -minutes_rounding) rushed_today_ = true;
    return;
  }
  minutes_left_ = keeper.minutes_per_day - minutes_today_ - taken;
  // The morning leaves the evening the time to feed its animals and to cut what they eat, and does not move or wash in the time in
  // which the evening would sow: the order is that of the day.
  if (session == 0) minutes_left_ -= evening_minutes();
}

double Replicator::State::evening_minutes() const {
  if (sessions_ < 2) return 0.0;
  const route::Times& times = plan_->scenario.keeper.times;
  int fed = 0;
  for (std::size_t g = 0; g < wants_.size(); ++g) fed += feeding_share_[g][1] * fortune_.wanted(g, today()) > 0.0 ? 1 : 0;
  return evening_minutes_ + times.feed_per_group * fed + (fed > 0 ? evening_harvest_ : 0.0);
}

int Replicator::State::time_for(int wanted, double minutes_each) const {
  constexpr double rounding = minutes_rounding;
  if (minutes_each * wanted <= minutes_left_ + rounding || minutes_each <= 0.0) return wanted;
  return std::max(0, static_cast<int>(std::floor((minutes_left_ + rounding) / minutes_each)));
}

// A ladder is moved as a whole or not at all.
void Replicator::State::move_trays(int session) {
  const Keeper& keeper = plan_->scenario.keeper;
  if (session != 0) return;
  if (!keeper.evening_minutes) take_time(evening_sowing_);
  if (keeper.handling != route::Handling::ladder) {
    for (Batch& batch : rack_.batches()) rack_.meet(batch, level_load());
    return;
  }
  if (time_for(rack_.trays(), keeper.times.move_per_tray) < rack_.trays()) {
    ++out_.unmoved_days;
    rushed_today_ = true;
    note({.kind = Happening::Kind::moved, .amount = static_cast<double>(rack_.trays())});
    tell([] { return std::string("no time was left to move the trays"); });
    return;
  }
  rack_.arrange(level_load());
  work_.trays_moved = rack_.trays();
  note({.kind = Happening::Kind::moved, .trays = work_.trays_moved, .amount = static_cast<double>(work_.trays_moved)});
  take_time(keeper.times.move_per_tray * work_.trays_moved);
}

void Replicator::State::close_chores() {
  const Keeper& keeper = plan_->scenario.keeper;
  const int used = work_.trays_washed;
  const int place = std::max(0, static_cast<int>(keeper.wash_trays_per_day) - washed_today_);
  const int timely = time_for(used, keeper.times.wash_per_tray);
  work_.trays_washed = std::min(timely, place);
  if (timely < used) rushed_today_ = true;
  note({.kind = Happening::Kind::washed, .trays = work_.trays_washed, .amount = static_cast<double>(used)});
  washed_ = used > 0 ? static_cast<double>(work_.trays_washed) / used : 1.0;
  if (work_.trays_washed < used) {
    out_.unwashed_trays += used - work_.trays_washed;
    tell([&] { return fmt::format("{} of {} trays were left unwashed", used - work_.trays_washed, used); });
  }
  if (used > 0) {
    // Clean trays are one heap: what comes to it is as clean as washing left it.
    const double mouldy = static_cast<double>(mouldy_washed_) / used;
    const double borne = 1.0 + mouldy * (plan_->scenario.spoilage.shed_to_tray - 1.0) * fortune_.ignorance().carry;
    const double share = std::min(1.0, static_cast<double>(used) / (plan_->positions + plan_->scenario.line.trays_per_batch));
    tray_residue_ += share * ((washed_ * clean_tray_ + (1.0 - washed_)) * borne - tray_residue_);
  }
  mouldy_washed_ = 0;
  washed_today_ += work_.trays_washed;
  wash_water_today_ += 2.0 * work_.trays_washed;  // litres a tray; common practice, no source
  minutes_today_ += route::session_minutes(keeper.times, work_) + walk_minutes_;
  work_ = {};
}

}  // namespace rackwright
