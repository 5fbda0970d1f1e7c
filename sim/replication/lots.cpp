// Lots of grain: ordering them, also when they are short, and trying them as they come.

#include <cmath>

#include <fmt/core.h>

#include "models/grain/acceptance.hpp"
#include "sim/replication/journal_words.hpp"
#include "sim/replication/state.hpp"

namespace rackwright {

void Replicator::State::review_order(int grain, bool at_once) {
  const double kilograms = store_.order(grain, at_once);
  if (kilograms <= 0.0) return;
  const GrainSupply& supply = plan_->scenario.grains[static_cast<std::size_t>(grain)];
  const std::uint32_t number = store_.numbered(grain, fortune_.price_factor(*plan_, grain, sim_.now()));
  const bool scarce = fortune_.is_short(*plan_, grain, today());
  double hours = fortune_.delivery_hours(*plan_, grain, number) + order_delay(grain);
  if (scarce) hours += supply.shortage.delay.value();
  sim_.schedule_after(std::llround(60.0 * hours), phase_delivery,
                      {.kind = EventKind::delivery, .system = scarce, .grain = grain, .number = number, .kilograms = kilograms});
  note({.kind = Happening::Kind::ordered, .amount = kilograms, .other = hours, .which = grain});
  tell([&] { return fmt::format("ordered {} of {}{}", mass_words(plan_->scenario.units, kilograms, 0), supply.name, scarce ? ", which is short" : ""); });
}

void Replicator::State::throw_old_grain(int grain) {
  const GrainStore::Thrown thrown = store_.throw_old(grain, sim_.now());
  if (thrown.kilograms <= 0.0) return;
  const GrainSupply& supply = plan_->scenario.grains[static_cast<std::size_t>(grain)];
  out_.grain_aged_out += thrown.kilograms;
  balance_.grain_aged_out += thrown.kilograms;
  spend(out_.cost.grain, thrown.paid * supply.price());
  note({.kind = Happening::Kind::grain_too_old, .amount = thrown.kilograms, .which = grain});
  tell([&] { return fmt::format("{} of {} was past its use-by and thrown out", mass_words(plan_->scenario.units, thrown.kilograms), supply.name); });
}

void Replicator::State::on_delivery(const Event& event) {
  store_.deliver(fortune_, event.grain, event.number, event.kilograms, sim_.now(), living_share(event.grain), event.system != 0);
  balance_.grain_bought += event.kilograms;
  out_.grain_bought += event.kilograms;
  ++out_.lots;
  note({.kind = Happening::Kind::delivered, .amount = event.kilograms, .which = event.grain});
  tell([&] { return fmt::format("{} of {} came", mass_words(plan_->scenario.units, event.kilograms, 0), plan_->scenario.grains[static_cast<std::size_t>(event.grain)].name); });
  if (plan_->scenario.grains[static_cast<std::size_t>(event.grain)].policy.trial > 0 && event.kilograms > 0.0) begin_trial(event);
}

void Replicator::State::begin_trial(const Event& delivery) {
  const GrainSupply& supply = plan_->scenario.grains[static_cast<std::size_t>(delivery.grain)];
  const double taken = store_.lay_out(delivery.grain);
  balance_.grain_tried += taken;
  out_.grain_tried += taken;
  ++out_.lots_tried;
  spend(out_.cost.grain, taken * store_.find(delivery.grain, delivery.number)->dear * supply.price());
  minutes_today_ += supply.policy.trial_minutes;
  trial_minutes_ += supply.policy.trial_minutes;
  note({.kind = Happening::Kind::trial_laid, .amount = taken, .other = supply.policy.trial_time.value(), .which = delivery.grain});
  Event over = delivery;
  over.kind = EventKind::trial_over;
  sim_.schedule_after(std::llround(60.0 * supply.policy.trial_time.value()), phase_delivery, over);
}

void Replicator::State::on_trial_over(const Event& event) {
  const auto g = static_cast<std::size_t>(event.grain);
  const GrainSupply& supply = plan_->scenario.grains[g];
  const LotPolicy& policy = supply.policy;
  StoredLot* lot = store_.find(event.grain, event.number);
  if (lot == nullptr) return;  // sown before it had been tried
  // It sprouts as it came: the days of the trial age it by next to nothing.
  const int sprouted = fortune_.sprouted(event.grain, event.number, lot->luck.germinable, policy.trial, plan_->lots[g].scatter);
  const bool kept = sprouted >= grain::least_sprouted({policy.trial, policy.accept});
  tell([&] { return fmt::format("trial of {}: {} of {} sprouted; the lot is {}", supply.name, sprouted, policy.trial, kept ? "kept" : "refused"); });
  note({.kind = Happening::Kind::trial_counted, .amount = kept ? 0.0 : lot->kilograms, .other = static_cast<double>(sprouted), .which = event.grain});
  if (kept) {
    lot->tried = true;
    return;
  }
  ++out_.lots_refused;
  out_.grain_refused += lot->kilograms;
  balance_.grain_refused += lot->kilograms;
  spend(out_.cost.grain, lot->kilograms * lot->dear * supply.price() * (1.0 - policy.refused_worth));
  store_.give_back(event.grain, event.number);
  review_order(event.grain, true);
}

}  // namespace rackwright
