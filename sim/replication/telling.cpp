// What is only told, for the journal.

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include <fmt/core.h>

#include "sim/replication/state.hpp"

namespace rackwright {

// Mats that have had their days but not their growth; `other` is the room now [degC].
void Replicator::State::note_unready() {
  if (journal_ == nullptr) return;
  // On a ladder every batch passes all tiers.
  const std::vector<double>& tiers = plan_->tier_water;
  const bool ladder = plan_->scenario.keeper.handling == route::Handling::ladder;
  const double mean = std::accumulate(tiers.begin(), tiers.end(), 0.0) / static_cast<double>(tiers.size());
  for (const Batch& batch : rack_.batches()) {
    if (too_young(batch)) break;
    if (due(batch) || batch.left == 0) continue;
    note({.kind = Happening::Kind::unready, .day = batch.day, .session = batch.session, .trays = batch.left,
          .amount = batch.growth / ripe_at_[static_cast<std::size_t>(batch.species)], .other = room_.temperature(), .water = ladder ? mean : batch.water});
  }
}

// Each group's share of the meal.
void Replicator::State::note_given(double share) {
  if (journal_ == nullptr) return;
  for (std::size_t g = 0; g < wants_.size(); ++g) {
    if (wants_[g] <= 0.0) continue;
    note({.kind = Happening::Kind::given, .amount = share * wants_[g], .other = wants_[g], .which = static_cast<int>(g)});
  }
}

void Replicator::State::note_ripe() {
  if (journal_ == nullptr) return;
  for (const Batch& batch : rack_.batches()) {
    if (batch.left > 0 && ripe(batch)) note({.kind = Happening::Kind::ripe, .day = batch.day, .session = batch.session, .trays = batch.left});
  }
}

// How likely a tray like this one, sound when it was sown or taken over, has spoiled by now.
void Replicator::State::note_risk(const Batch& batch, const Tray& tray) {
  if (journal_ == nullptr) return;
  const double mould = tray.mould_hazard(batch.mould), sour = tray.sour_hazard(batch.sour);
  note({.kind = Happening::Kind::risk, .day = batch.day, .session = batch.session, .trays = 1,
        .amount = -std::expm1(-std::max(0.0, mould) - std::max(0.0, sour)), .other = batch.growth / ripe_at_[static_cast<std::size_t>(batch.species)]});
}

// What befell the animals on a day.
void Replicator::State::tell_herd(int day) {
  if (journal_ == nullptr) return;
  constexpr const char* words[] = {"born and reared", "weaned: they want fodder from now on", "sold", "died"};
  for (std::size_t g = 0; g < plan_->groups.size(); ++g) {
    std::array<int, 4> numbers{};
    for (const HerdEvent& event : fortune_.herd_events()) {
      if (event.day == day && event.group == g) numbers[static_cast<std::size_t>(event.kind)] += event.number;
    }
    for (std::size_t k = 0; k < numbers.size(); ++k) {
      if (numbers[k] == 0) continue;
      tell([&] { return fmt::format("{}: {} {}{}", plan_->scenario.groups[g].name, numbers[k], k == 3 ? "" : "young ", words[k]); });
    }
  }
}

}  // namespace rackwright
