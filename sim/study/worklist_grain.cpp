// Grain in the worklist: until when it lasts, what of it grows too old before, and when to order.

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/study/worklist.hpp"
#include "sim/study/worklist_store.hpp"

namespace rackwright::study {

StoreBook opening_store(const Plan& plan, std::size_t g, bool with_orders) {
  const Opening& opening = *plan.opening;
  StoreBook book(plan.scenario.grains[g].store.use_by);
  if (g < opening.kept.size() && opening.kept[g]) {
    for (const Opening::Kept& kept : *opening.kept[g]) book.add(kept.came, kept.kilograms);
  } else {
    book.add(0, plan.scenario.grains[g].on_hand.value());  // as the simulator has it
  }
  if (!with_orders) return book;
  for (const Opening::Ordered& order : opening.ordered)
    if (order.grain == static_cast<int>(g)) book.add(std::max(order.due, opening.now), order.kilograms);
  return book;
}

std::vector<GrainOutlook> grain_outlook(const Plan& plan, const Worklist& list, const std::vector<GrainSupply>& supplies) {
  EXPECTS(supplies.size() == plan.scenario.grains.size());
  const Opening& opening = *plan.opening;
  const double now = static_cast<double>(opening.now) / minutes_per_day, length = plan.horizon_days - now;
  std::vector<GrainOutlook> all(plan.scenario.grains.size());
  for (std::size_t g = 0; g < all.size(); ++g) {
    GrainOutlook& out = all[g];
    const GrainSupply& supply = supplies[g];
    StoreBook store = opening_store(plan, g, false);
    out.at_hand = store.fresh(opening.now) + store.old(opening.now);
    // When, what comes, and what was soaked and was to be soaked [kg].
    struct Flow { std::int64_t minute; double comes, soaked, wanted; };
    std::vector<Flow> flow;
    for (const Opening::Ordered& order : opening.ordered) {
      if (order.grain != static_cast<int>(g)) continue;
      out.on_the_way += order.kilograms;
      flow.push_back({std::max(order.due, opening.now), order.kilograms, 0.0, 0.0});
    }
    const double per_tray = plan.grains[g].per_tray;
    for (const Task& task : list.tasks) {
      if (task.kind == Task::Kind::soak && task.which == static_cast<int>(g))
        flow.push_back({task.minute, 0.0, task.kilograms, task.kilograms + task.undone * per_tray});
    }
    std::stable_sort(flow.begin(), flow.end(), [](const Flow& a, const Flow& b) { return a.minute < b.minute; });
    // Trays for which grain would have been there lacked a bucket: they use none.
    double used = 0.0;
    std::int64_t since = std::numeric_limits<std::int64_t>::max();
    for (const Flow& f : flow) {
      out.too_old += store.drop_old(f.minute, since);
      store.add(f.minute, f.comes);
      const bool lacking = store.fresh(f.minute) < f.wanted - 1e-9;
      if (lacking && !out.lasts_days) out.lasts_days = std::max(0.0, static_cast<double>(f.minute) / minutes_per_day - now);
      used += lacking ? f.wanted : f.soaked;
      store.take(f.minute, lacking ? f.wanted : f.soaked);
    }
    out.per_day = used / length;
    if (used <= 0.0) continue;
    const double end = minutes_per_day * plan.horizon_days;
    if (!out.lasts_days) out.lasts_days = store.lasts_until(end, out.per_day / minutes_per_day, out.too_old, since) / minutes_per_day - now;
    out.too_old_days = std::max(0.0, static_cast<double>(since) / minutes_per_day - now);
    out.order_within_days = *out.lasts_days - in_days(supply.store.delivery) - 2.0 * in_days(supply.delivery_sd);
    if (supply.policy.trial > 0) *out.order_within_days -= in_days(supply.policy.trial_time);
  }
  return all;
}

}  // namespace rackwright::study
