#include "sim/replication/grain_store.hpp"

#include <algorithm>

#include "models/base/floor_quotient.hpp"
#include "models/grain/store.hpp"
#include "models/grain/viability.hpp"
#include "sim/replication/sown.hpp"

namespace rackwright {

GrainStore::GrainStore(const Plan& plan)
    : plan_(&plan), lots_(plan.scenario.grains.size()), on_order_(lots_.size()), numbers_(lots_.size()), dear_(lots_.size()) {
  for (auto& lots : lots_) lots.reserve(16);
}

void GrainStore::start(const Fortune& fortune) {
  for (std::size_t g = 0; g < lots_.size(); ++g) {
    lots_[g].clear();
    on_order_[g] = 0.0;
    numbers_[g] = 0;
    dear_[g].clear();
    const Opening* opening = plan_->opening.get();
    if (opening != nullptr && g < opening->kept.size() && opening->kept[g]) {
      for (const Opening::Kept& kept : *opening->kept[g]) {
        deliver(fortune, static_cast<int>(g), numbers_[g]++, kept.kilograms, kept.came);
        if (kept.kilograms <= 0.0) continue;
        StoredLot& lot = lots_[g].back();
        if (kept.germinable) {
          lot.germinable = lot.luck.germinable = *kept.germinable;
          lot.aged = std::max(lot.aged, opening->now);
        } else {
          age_to_opening(lot, g, fortune.ignorance().ageing);
        }
      }
    } else if (is_sown(*plan_, g)) {  // other grain is no part of the line
      deliver(fortune, static_cast<int>(g), 0, plan_->scenario.grains[g].on_hand.value(), 0);
    }
    on_order_[g] = 0.0;
  }
}

double GrainStore::on_hand(int grain) const {
  double sum = 0.0;
  for (const StoredLot& lot : lots_[static_cast<std::size_t>(grain)]) sum += lot.kilograms;
  return sum;
}

double GrainStore::on_hand() const {
  double sum = 0.0;
  for (std::size_t g = 0; g < lots_.size(); ++g) sum += on_hand(static_cast<int>(g));
  return sum;
}

Withdrawal GrainStore::withdraw(int grain, double kilograms) {
  auto& lots = lots_[static_cast<std::size_t>(grain)];
  Withdrawal taken;
  draw_from(lots, kilograms, true, taken);
  if (taken.kilograms < kilograms) draw_from(lots, kilograms, false, taken);
  std::erase_if(lots, [](const StoredLot& lot) { return lot.kilograms <= 0.0; });
  return taken;
}

Withdrawal GrainStore::from_outside(const Fortune& fortune, int grain, double kilograms) const {
  Withdrawal taken;
  taken.kilograms = taken.paid = taken.most = kilograms;
  taken.lot = fortune.lot(*plan_, grain, 0, 1.0, {0, false});
  return taken;
}

void GrainStore::draw_from(std::vector<StoredLot>& lots, double kilograms, bool tried, Withdrawal& taken) {
  for (StoredLot& lot : lots) {
    if (lot.tried != tried) continue;
    const double part = std::min(lot.kilograms, kilograms - taken.kilograms);
    if (part <= 0.0) break;
    lot.kilograms -= part;
    taken.kilograms += part;
    taken.paid += part * lot.dear;
    if (!tried) taken.untried += part;
    if (part <= taken.most) continue;
    taken.most = part;
    taken.lot = lot.luck;
    taken.lot.germinable = lot.germinable;
  }
}

std::uint32_t GrainStore::numbered(int grain, double price_factor) {
  const auto g = static_cast<std::size_t>(grain);
  const std::uint32_t number = ++numbers_[g];
  if (price_factor != 1.0) dear_[g].push_back({number, price_factor});
  return number;
}

double GrainStore::order(int grain, bool at_once) {
  const auto g = static_cast<std::size_t>(grain);
  grain::StorePolicy policy = plan_->lots[g].store;
  if (at_once) policy.reorder_point = policy.order_up_to;
  const double wanted = grain::order_quantity(policy, Kilograms(on_hand(grain)), Kilograms(on_order_[g])).value();
  on_order_[g] += wanted;
  return wanted;
}

void GrainStore::deliver(const Fortune& fortune, int grain, std::uint32_t number, double kilograms, std::int64_t now,
                         double living, bool in_shortage) {
  const auto g = static_cast<std::size_t>(grain);
  on_order_[g] = std::max(0.0, on_order_[g] - kilograms);
  if (kilograms <= 0.0) return;
  StoredLot lot;
  const auto day = static_cast<int>(floor_quotient<std::int64_t>(now, minutes_per_day));
  lot.luck = fortune.lot(*plan_, grain, number, living, {day, in_shortage});
  lot.number = number;
  if (in_shortage) lot.dear = plan_->lots[g].dear;
  std::erase_if(dear_[g], [&](const Dear& order) {
    if (order.number != number) return false;
    lot.dear *= order.factor;
    return true;
  });
  lot.came = lot.aged = now;
  lot.kilograms = kilograms;
  lot.germinable = lot.luck.germinable;
  lots_[g].push_back(lot);
}

double GrainStore::lay_out(int grain) {
  const auto g = static_cast<std::size_t>(grain);
  StoredLot& lot = lots_[g].back();
  const double taken = std::min(lot.kilograms, plan_->lots[g].trial);
  lot.kilograms -= taken;
  lot.tried = false;
  return taken;
}

StoredLot* GrainStore::find(int grain, std::uint32_t number) {
  auto& lots = lots_[static_cast<std::size_t>(grain)];
  const auto at = std::find_if(lots.begin(), lots.end(), [&](const StoredLot& lot) { return lot.number == number; });
  return at == lots.end() ? nullptr : &*at;
}

void GrainStore::give_back(int grain, std::uint32_t number) {
  std::erase_if(lots_[static_cast<std::size_t>(grain)], [&](const StoredLot& lot) { return lot.number == number; });
}

void GrainStore::age(double pace, Celsius temperature, std::int64_t now) {
  for (std::size_t g = 0; g < lots_.size(); ++g) {
    if (lots_[g].empty()) continue;
    const double per_day = pace * per_day_at(g, temperature);
    for (StoredLot& lot : lots_[g]) age(lot, per_day, now);
  }
}

double GrainStore::per_day_at(std::size_t grain, Celsius outdoors) const {
  return plan_->lots[grain].ageing.per_day(plan_->scenario.grains[grain].store_temperature.value_or(outdoors));
}

void GrainStore::age(StoredLot& lot, double per_day, std::int64_t now) {
  if (now <= lot.aged) return;
  lot.probits += per_day * static_cast<double>(now - lot.aged) / minutes_per_day;
  lot.aged = now;
}

void GrainStore::reckon() {
  for (auto& lots : lots_) {
    for (StoredLot& lot : lots) lot.germinable = grain::viability_after(lot.luck.germinable, lot.probits);
  }
}

void GrainStore::age_to_opening(StoredLot& lot, std::size_t grain, double pace) const {
  while (lot.aged < plan_->opening->now) {
    const auto day = floor_quotient<std::int64_t>(lot.aged, minutes_per_day);
    const double usual = plan_->days[static_cast<std::size_t>(plan_->day_of_year(static_cast<int>(day)))].normal.mean;
    age(lot, pace * per_day_at(grain, Celsius(usual)), std::min(minutes_per_day * (day + 1), plan_->opening->now));
  }
  lot.germinable = grain::viability_after(lot.luck.germinable, lot.probits);
}

GrainStore::Thrown GrainStore::throw_old(int grain, std::int64_t now) {
  const auto g = static_cast<std::size_t>(grain);
  const double oldest = 60.0 * plan_->scenario.grains[g].store.use_by.value();
  Thrown thrown;
  std::erase_if(lots_[g], [&](const StoredLot& lot) {
    if (static_cast<double>(now - lot.came) <= oldest) return false;
    thrown.kilograms += lot.kilograms;
    thrown.paid += lot.kilograms * lot.dear;
    return true;
  });
  return thrown;
}

}  // namespace rackwright
