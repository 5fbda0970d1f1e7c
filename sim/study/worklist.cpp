#include "sim/study/worklist.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/replication/replicate.hpp"

namespace rackwright::study {
namespace {

class Gatherer : public Journal {
 public:
  Gatherer(const Plan& plan, Worklist& list) : plan_(plan), list_(list) {
    for (const Opening::Sown& sown : plan.opening->sown) {
      BatchFate& fate = list_.batches[{sown.day, sown.session}];
      fate.grain = sown.grain;
      fate.trays += sown.trays;
      fate.sown_before = true;
    }
  }

  void tell(std::int64_t, const std::string&) override {}

  void note(std::int64_t minute, const Happening& h) override {
    if (minute < plan_.opening->now) return;
    using Kind = Happening::Kind;
    const auto fate = [&]() -> BatchFate& { return list_.batches[{h.day, h.session}]; };
    const auto add = [&](Task::Kind kind) -> Task& {
      Task& task = list_.tasks.emplace_back();
      task.kind = kind;
      task.minute = minute;
      task.trays = h.trays;
      task.which = h.which;
      task.day = h.day;
      task.session = h.session;
      return task;
    };
    switch (h.kind) {
      case Kind::soaked: {
        Task& task = soaking(minute, h);
        task.trays = h.trays;
        task.kilograms = h.amount;
        break;
      }
      case Kind::no_grain: case Kind::no_bucket: soaking(minute, h).undone += h.trays; break;
      case Kind::frozen_out: {
        Task& task = soaking(minute, h);
        task.undone += h.trays;
        task.frozen = true;
        break;
      }
      case Kind::sown: {
        add(Task::Kind::sow);
        fate().grain = h.which;
        fate().trays += h.trays;
        break;
      }
      case Kind::no_time: case Kind::no_place: unsown(minute, h); break;
      case Kind::cut: {
        add(Task::Kind::harvest).kilograms = h.amount;
        BatchFate& batch = fate();
        list_.tasks.back().which = batch.grain;
        if (!batch.first_cut) batch.first_cut = minute;
        batch.last_cut = minute;
        batch.fresh += h.amount;
        batch.cut += h.trays;
        break;
      }
      case Kind::moulded: case Kind::soured: case Kind::frosted: case Kind::composted:
        add(Task::Kind::throw_out).which = fate().grain;
        fate().thrown += h.trays;
        break;
      case Kind::given: {
        Task& task = add(Task::Kind::feed);
        task.kilograms = h.amount;
        task.wanted = h.other;
        break;
      }
      case Kind::moved: if (h.trays > 0) add(Task::Kind::move); break;
      case Kind::washed: if (h.amount > 0.0) add(Task::Kind::wash).undone = static_cast<int>(h.amount) - h.trays; break;
      case Kind::ordered: {
        Task& task = add(Task::Kind::order);
        task.kilograms = h.amount;
        task.hours = h.other;
        break;
      }
      case Kind::delivered: add(Task::Kind::receive).kilograms = h.amount; break;
      case Kind::trial_laid: {
        Task& task = add(Task::Kind::lay_trial);
        task.kilograms = h.amount;
        task.hours = h.other;
        break;
      }
      case Kind::trial_counted: add(Task::Kind::count_trial).kilograms = h.amount; break;
      case Kind::ripe: if (!fate().ripe) fate().ripe = minute; break;
      case Kind::risk: {
        BatchFate& batch = fate();
        if (batch.left == 0) batch.grown = h.other, batch.left_at = minute;
        batch.risk += (h.amount - batch.risk) / ++batch.left;
        break;
      }
      default: break;
    }
  }

 private:
  [[nodiscard]] std::int64_t round_minute(int day, int session) const {
    const Keeper& keeper = plan_.scenario.keeper;
    return minutes_per_day * day + std::llround(60.0 * (session == 0 ? keeper.morning : keeper.evening).value());
  }
  // What is put to soak for a batch and what is not is one task, told at its time even where nothing is.
  Task& soaking(std::int64_t minute, const Happening& h) {
    const auto same = [&](const Task& t) { return t.kind == Task::Kind::soak && t.minute == minute && t.day == h.day && t.session == h.session; };
    if (!list_.tasks.empty() && same(list_.tasks.back())) return list_.tasks.back();
    Task& task = list_.tasks.emplace_back();
    task.kind = Task::Kind::soak;
    task.minute = minute;
    task.which = h.which;
    task.day = h.day;
    task.session = h.session;
    task.hours = static_cast<double>(round_minute(h.day, h.session) - minute) / 60.0;
    return task;
  }
  // Told before the sowing it belongs to, or alone when nothing was sown.
  void unsown(std::int64_t minute, const Happening& h) {
    Task task;
    task.kind = Task::Kind::sow;
    task.minute = minute;
    task.day = h.day;
    task.session = h.session;
    task.undone = h.trays;
    list_.tasks.push_back(task);
  }

  const Plan& plan_;
  Worklist& list_;
};

}  // namespace

Worklist work(const Plan& plan, std::uint64_t random_seed, std::uint32_t replication) {
  EXPECTS(plan.opening != nullptr);
  Worklist list;
  Gatherer gatherer(plan, list);
  Replicator replicator(plan);
  list.outcome = replicator.run(random_seed, replication, &gatherer);
  const auto rows = replicator.daily();
  list.days.assign(rows.begin(), rows.end());
  return list;
}

std::vector<GrainOutlook> grain_outlook(const Plan& plan, const Worklist& list, const std::vector<GrainSupply>& supplies) {
  EXPECTS(supplies.size() == plan.scenario.grains.size());
  const Opening& opening = *plan.opening;
  const double now = static_cast<double>(opening.now) / minutes_per_day, length = plan.horizon_days - now;
  std::vector<GrainOutlook> all(plan.scenario.grains.size());
  for (std::size_t g = 0; g < all.size(); ++g) {
    GrainOutlook& out = all[g];
    const GrainSupply& supply = supplies[g];
    if (g < opening.kept.size() && opening.kept[g]) {
      for (const Opening::Kept& kept : *opening.kept[g]) out.at_hand += kept.kilograms;
    } else {
      out.at_hand = plan.scenario.grains[g].on_hand.value();
    }
    // When, what comes or (below zero) is soaked, and what was to be soaked [kg].
    struct Flow { double day, change, wanted; };
    std::vector<Flow> flow;
    for (const Opening::Ordered& order : opening.ordered) {
      if (order.grain != static_cast<int>(g)) continue;
      out.on_the_way += order.kilograms;
      flow.push_back({static_cast<double>(order.due) / minutes_per_day, order.kilograms, 0.0});
    }
    const double per_tray = plan.grains[g].per_tray;
    for (const Task& task : list.tasks) {
      if (task.kind != Task::Kind::soak || task.which != static_cast<int>(g)) continue;
      flow.push_back({static_cast<double>(task.minute) / minutes_per_day, -task.kilograms, task.kilograms + task.undone * per_tray});
    }
    std::stable_sort(flow.begin(), flow.end(), [](const Flow& a, const Flow& b) { return a.day < b.day; });
    // Trays for which grain would have been there lacked a bucket: they use none.
    double left = out.at_hand, used = 0.0;
    for (const Flow& f : flow) {
      const bool lacking = left < f.wanted - 1e-9;
      if (lacking && !out.lasts_days) out.lasts_days = std::max(0.0, f.day - now);
      if (f.wanted > 0.0) used += lacking ? f.wanted : -f.change;
      left += f.change;
    }
    out.per_day = used / length;
    if (used <= 0.0) continue;
    if (!out.lasts_days) out.lasts_days = length + left / out.per_day;
    out.order_within_days = *out.lasts_days - in_days(supply.store.delivery) - 2.0 * in_days(supply.delivery_sd);
    if (supply.policy.trial > 0) *out.order_within_days -= in_days(supply.policy.trial_time);
  }
  return all;
}

}  // namespace rackwright::study
