#include "sim/study/worklist.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/study/worklist_store.hpp"

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
    for (std::size_t g = 0; g < plan.scenario.grains.size(); ++g) stores_.push_back(opening_store(plan, g, false));
  }

  void tell(std::int64_t, const std::string&) override {}

  void note(std::int64_t minute, const Happening& h) override {
    if (minute < plan_.opening->now) return;
    using Kind = Happening::Kind;
    const auto fate = [&]() -> BatchFate& { return list_.batches[{h.day, h.session}]; };
    const auto add = [&](Task::Kind kind) -> Task& {
      Task& task = begun(kind, minute, h, h.which);
      task.trays = h.trays;
      return task;
    };
    switch (h.kind) {
      case Kind::soaked: {
        Task& task = soaking(minute, h);
        task.trays = h.trays;
        task.kilograms = h.amount;
        store_of(h.which).take(minute, h.amount);
        break;
      }
      case Kind::no_grain: {
        const double wanted = h.trays * plan_.grains[static_cast<std::size_t>(h.which)].per_tray;
        leave(minute, h, store_of(h.which).old(minute) >= std::min(wanted, least_worth) ? Task::Why::too_old : Task::Why::grain);
        break;
      }
      case Kind::nobody_soaked: leave(minute, h, Task::Why::nobody); break;
      case Kind::foul: add(Task::Kind::pour_out).why = {Task::Why::nobody}; break;
      case Kind::grain_too_old: add(Task::Kind::discard).kilograms = h.amount; break;
      case Kind::no_bucket: leave(minute, h, Task::Why::bucket); break;
      case Kind::frozen_out:
        // Of a batch whose round is over: it lay in ice until it was poured out.
        if (round_minute(h.day, h.session) < minute) add(Task::Kind::pour_out).why = {Task::Why::frost};
        else leave(minute, h, Task::Why::frost);
        break;
      case Kind::sown: {
        add(Task::Kind::sow);
        fate().grain = h.which;
        fate().trays += h.trays;
        break;
      }
      case Kind::no_time: unsown(minute, h, Task::Why::time); break;
      case Kind::rushed: uncut(minute, h); break;
      case Kind::no_place: unsown(minute, h, Task::Why::place); break;
      case Kind::cut: {
        add(Task::Kind::harvest).kilograms = h.amount;
        const bool unripe = h.which != 0;
        BatchFate& batch = fate();
        list_.tasks.back().which = batch.grain;
        if (!batch.first_cut) batch.first_cut = minute;
        batch.last_cut = minute;
        batch.fresh += h.amount;
        batch.cut += h.trays;
        larder_.put(minute, h.amount, unripe);
        if (!unripe) break;
        list_.tasks.back().unripe = h.amount;
        batch.cut_unripe += h.trays;
        if (!batch.first_unripe) batch.first_unripe = minute;
        break;
      }
      case Kind::fed: larder_.eat(h.other); break;
      case Kind::moulded: thrown(minute, h, Task::Why::mould); break;
      case Kind::soured: thrown(minute, h, Task::Why::sour); break;
      case Kind::frosted: thrown(minute, h, Task::Why::killed); break;
      case Kind::composted: thrown(minute, h, Task::Why::past); break;
      case Kind::given: {
        Task& task = add(Task::Kind::feed);
        task.kilograms = h.amount;
        task.wanted = h.other;
        task.unripe = h.amount * larder_.unripe_share();
        if (uncut_at_ == minute) task.why = {Task::Why::time};
        break;
      }
      case Kind::moved:
        if (h.amount <= 0.0) break;
        add(Task::Kind::move).undone = static_cast<int>(h.amount) - h.trays;
        if (list_.tasks.back().undone > 0) list_.tasks.back().why = {Task::Why::time};
        break;
      case Kind::washed: if (h.amount > 0.0) add(Task::Kind::wash).undone = static_cast<int>(h.amount) - h.trays; break;
      case Kind::ordered: {
        Task& task = add(Task::Kind::order);
        task.kilograms = h.amount;
        task.hours = h.other;
        break;
      }
      case Kind::delivered: {
        add(Task::Kind::receive).kilograms = h.amount;
        std::int64_t ignored = minute;
        store_of(h.which).drop_old(minute, ignored);  // by now thrown out
        store_of(h.which).add(minute, h.amount);
        break;
      }
      case Kind::trial_laid: {
        store_of(h.which).take(minute, h.amount);
        Task& task = add(Task::Kind::lay_trial);
        task.kilograms = h.amount;
        task.hours = h.other;
        break;
      }
      case Kind::trial_counted:
        store_of(h.which).give_back(h.amount);
        add(Task::Kind::count_trial).kilograms = h.amount;
        break;
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

  /// Batches for which nothing is put to soak, as nothing is to be wanted of them, are told at their time.
  void finish() {
    const Line& line = plan_.scenario.line;
    if (line.sow == SowRule::all) return;
    for (int day = 0; day <= plan_.horizon_days; ++day) {
      for (int session = 0; session < line.batches_per_day; ++session) {
        const std::int64_t minute = round_minute(day, session) - static_cast<std::int64_t>(60.0 * line.soak.value());
        if (minute < plan_.opening->now || minute >= minutes_per_day * plan_.horizon_days) continue;
        const auto of_it = [&](const Task& t) { return t.kind == Task::Kind::soak && t.day == day && t.session == session; };
        if (std::any_of(list_.tasks.begin(), list_.tasks.end(), of_it)) continue;
        const int grain = plan_.batch_grain[static_cast<std::size_t>(session) % plan_.batch_grain.size()];
        soaking(minute, {.day = day, .session = session, .which = grain}).why = {Task::Why::not_wanted};
      }
    }
    std::stable_sort(list_.tasks.begin(), list_.tasks.end(), [](const Task& a, const Task& b) { return a.minute < b.minute; });
  }

 private:
  StoreBook& store_of(int grain) { return stores_[static_cast<std::size_t>(grain)]; }
  [[nodiscard]] std::int64_t round_minute(int day, int session) const {
    const Keeper& keeper = plan_.scenario.keeper;
    return minutes_per_day * day + std::llround(60.0 * (session == 0 ? keeper.morning : keeper.evening).value());
  }
  Task& begun(Task::Kind kind, std::int64_t minute, const Happening& h, int which) {
    Task& task = list_.tasks.emplace_back();
    task.kind = kind;
    task.minute = minute;
    task.which = which;
    task.day = h.day;
    task.session = h.session;
    return task;
  }
  // What is put to soak for a batch and what is not is one task, told at its time even where nothing is.
  Task& soaking(std::int64_t minute, const Happening& h) {
    const auto same = [&](const Task& t) { return t.kind == Task::Kind::soak && t.minute == minute && t.day == h.day && t.session == h.session; };
    if (!list_.tasks.empty() && same(list_.tasks.back())) return list_.tasks.back();
    Task& task = begun(Task::Kind::soak, minute, h, h.which);
    task.hours = static_cast<double>(round_minute(h.day, h.session) - minute) / 60.0;
    return task;
  }
  void leave(std::int64_t minute, const Happening& h, Task::Why why) {
    Task& task = soaking(minute, h);
    task.undone += h.trays;
    if (h.trays == 0) why = Task::Why::not_wanted;
    if (!has(task, why)) task.why.push_back(why);
  }
  void thrown(std::int64_t minute, const Happening& h, Task::Why why) {
    BatchFate& batch = list_.batches[{h.day, h.session}];
    batch.thrown += h.trays;
    if (!list_.tasks.empty()) {
      Task& last = list_.tasks.back();
      if (last.kind == Task::Kind::throw_out && last.minute == minute && last.day == h.day && last.session == h.session && has(last, why)) {
        last.trays += h.trays;
        return;
      }
    }
    Task& task = begun(Task::Kind::throw_out, minute, h, batch.grain);
    task.trays = h.trays;
    task.why = {why};
  }
  // Told before the sowing it belongs to, or alone when nothing was sown.
  void unsown(std::int64_t minute, const Happening& h, Task::Why why) {
    Task task;
    task.why = {why};
    task.kind = Task::Kind::sow;
    task.minute = minute;
    task.day = h.day;
    task.session = h.session;
    task.undone = h.trays;
    list_.tasks.push_back(task);
  }
  // Trays that the meal lacks and that there was no time to cut; a batch that is come by again counts once.
  void uncut(std::int64_t minute, const Happening& h) {
    if (uncut_at_ != minute) missing_ = h.amount;
    uncut_at_ = minute;
    const auto same = [&](const Task& t) { return t.kind == Task::Kind::harvest && t.minute == minute && t.day == h.day && t.session == h.session && t.undone > 0; };
    const int lacking = std::min(h.trays, static_cast<int>(std::ceil(missing_ / std::max(least_mat, h.other))));
    if (lacking <= 0 || std::any_of(list_.tasks.begin(), list_.tasks.end(), same)) return;
    missing_ -= lacking * h.other;
    Task& task = begun(Task::Kind::harvest, minute, h, list_.batches[{h.day, h.session}].grain);
    task.undone = lacking;
    task.why = {Task::Why::time};
  }

  /// What is cut and not yet eaten, well mixed; what a day leaves is thrown out.
  struct Larder {
    std::int64_t day = 0;
    double fresh = 0.0, unripe = 0.0;  ///< [kg]
    void put(std::int64_t minute, double kilograms, bool is_unripe) {
      if (minute / minutes_per_day != day) fresh = unripe = 0.0;
      day = minute / minutes_per_day;
      fresh += kilograms;
      if (is_unripe) unripe += kilograms;
    }
    void eat(double kilograms) {
      const double left = fresh > 0.0 ? std::max(0.0, 1.0 - kilograms / fresh) : 0.0;
      fresh *= left;
      unripe *= left;
    }
    [[nodiscard]] double unripe_share() const { return fresh > 0.0 ? unripe / fresh : 0.0; }
  };

  static constexpr double least_mat = 1e-3;   ///< [kg]
  static constexpr double least_worth = 0.5;  ///< old grain that is worth a word [kg]
  const Plan& plan_;
  Worklist& list_;
  std::vector<StoreBook> stores_{};
  Larder larder_{};
  std::optional<std::int64_t> uncut_at_{};   ///< minute at which time was last too short to cut
  double missing_ = 0.0;                      ///< of its meal, with the mats told as uncut taken for cut [kg]
};

}  // namespace

Worklist work(const Plan& plan, std::uint64_t random_seed, std::uint32_t replication) {
  EXPECTS(plan.opening != nullptr);
  Worklist list;
  Gatherer gatherer(plan, list);
  Replicator replicator(plan);
  list.outcome = replicator.run(random_seed, replication, &gatherer);
  gatherer.finish();
  const auto rows = replicator.daily();
  list.days.assign(rows.begin(), rows.end());
  return list;
}

}  // namespace rackwright::study
