// What is only told, for the journal.

#include <array>

#include <fmt/core.h>

#include "sim/replication/state.hpp"

namespace rackwright {

// Mats that have had their days but not their growth.
void Replicator::State::note_unready() {
  if (journal_ == nullptr) return;
  for (const Batch& batch : rack_.batches()) {
    if (too_young(batch)) break;
    if (due(batch) || batch.left == 0) continue;
    const double ripe_at = plan_->species[static_cast<std::size_t>(batch.species)].growth.ripe;
    note({.kind = Happening::Kind::unready, .day = batch.day, .session = batch.session, .trays = batch.left,
          .amount = batch.growth / (plan_->scenario.line.ready * ripe_at)});
  }
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
