// Frost in the room: what stands still while it lasts, and the mats that die of it.

#include <algorithm>
#include <utility>

#include <fmt/core.h>

#include "sim/replication/state.hpp"

namespace rackwright {

// Only where the room is or has been below freezing since it was last asked.
void Replicator::State::follow_frost() {
  const RoomMarch::Frost frost = room_.take_frost();
  const bool frozen = frost::water_stands(Celsius(room_.temperature()));
  if (frost.least < frost::freezing.value()) coldest_ = std::min(coldest_, frost.least);
  out_.frozen_hours += frost.hours;
  if (!idle_from_ || *idle_from_ >= sim_.now()) idle_today_ += 60.0 * frost.hours;  // else it stands already
  if (frozen == frozen_) return;
  frozen_ = frozen;
  if (frozen) {
    // A tank above the rack freezes with the line: what it was to bridge is dry from now on.
    for (Drought& drought : droughts_) drought.since = std::min(drought.since, std::max(drought.upto, sim_.now()));
  }
  tell([&] { return std::string(frozen ? "the room is below freezing: no water runs" : "the room has thawed: water runs again"); });
}

// By the coldest hour since the last round, at every tier.
void Replicator::State::kill_by_frost() {
  const double coldest = std::exchange(coldest_, above_freezing);
  const frost::Parameters& law = plan_->scenario.frost;
  for (Batch& batch : rack_.batches()) {
    if (!is_mat(batch)) continue;
    rack_.lay(batch);
    for (Tray& tray : rack_.trays_of(batch)) {
      if (!tray.here) continue;
      const Celsius air(coldest + plan_->tier_offset[static_cast<std::size_t>(tray.tier)]);
      if (!frost::kills(law, air, batch.had_chance)) continue;
      tray.notice = -1.0;  // nobody overlooks a mat that has thawed to pulp
      if (tray.spoiled != Spoiled::no) continue;
      tray.spoiled = Spoiled::frost;
      ++batch.spoiled;
      ++spoiled_here_;
      frost_today_ += 1.0;
      sim_.trace(static_cast<std::uint64_t>(batch.slot) * 8 + static_cast<std::uint64_t>(tray.spoiled));
    }
  }
}

void Replicator::State::count_frozen_out(int day, int session, int trays, int grain) {
  out_.frost_unsown += trays;
  note({.kind = Happening::Kind::frozen_out, .day = day, .session = session, .trays = trays, .which = grain});
  tell([&] { return fmt::format("the room is below freezing: {} tray{} fewer will be sown", trays, trays == 1 ? "" : "s"); });
}

}  // namespace rackwright
