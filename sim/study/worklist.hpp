#pragma once
// The keeper's work, as one replication of the simulator does it with luck as it falls out on the whole.

#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "sim/replication/outcome.hpp"
#include "sim/replication/plan.hpp"

namespace rackwright::study {

/// One thing to do. Which fields count depends on the kind.
struct Task {
  enum class Kind { soak, throw_out, harvest, feed, sow, move, wash, order, receive, lay_trial, count_trial, pour_out, discard };
  /// Why trays are left undone, or thrown out.
  enum class Why { grain, too_old, bucket, frost, nobody, not_wanted, place, time, mould, sour, killed, past };
  Kind kind = Kind::soak;
  std::int64_t minute = 0;           ///< since the opening's day began
  int trays = 0;
  double kilograms = 0.0;            ///< soak, order, receive, discard, lay_trial (what it takes), count_trial (what is refused): grain; harvest, feed: fresh fodder
  double wanted = 0.0;               ///< feed: what the group wants [kg]
  double unripe = 0.0;               ///< harvest, feed: of the kilograms, those of mats that had not grown to the stated share of a ripe one [kg]
  int which = -1;                    ///< grain; feed: group
  int day = 0, session = 0;          ///< of a batch: the round that sowed or will sow it
  double hours = 0.0;                ///< soak: until the batch is sown; order: until it is expected; lay_trial: until it is counted
  int undone = 0;                    ///< trays that there was no grain, bucket, place or time for, or that frost kept back
  std::vector<Why> why{};            ///< of those, or of what is thrown out; feed: why ripe mats were left standing; each once
};

/// What becomes of a batch.
struct BatchFate {
  int grain = -1, trays = 0;
  bool sown_before = false;          ///< it stood on the rack at the opening
  std::optional<std::int64_t> ripe{};    ///< first round at which it may be fed by its growth
  std::optional<std::int64_t> first_cut{}, last_cut{};
  double fresh = 0.0;                ///< cut [kg]
  int cut = 0, thrown = 0;           ///< trays
  int cut_unripe = 0;                ///< of those cut: before they had grown to the stated share of a ripe mat
  std::optional<std::int64_t> first_unripe{};  ///< and when first
  double risk = 0.0;                 ///< chance that a tray has spoiled by the time it leaves, mean over those that left [1]
  int left = 0;                      ///< trays that left
  double grown = 0.0;                ///< growth over what may be fed, of those that left first [1]
  std::int64_t left_at = 0;          ///< and when
};

[[nodiscard]] inline bool has(const Task& task, Task::Why why) { return std::find(task.why.begin(), task.why.end(), why) != task.why.end(); }

struct Worklist {
  std::vector<Task> tasks{};         ///< in the order they are done
  std::map<std::pair<int, int>, BatchFate> batches{};  ///< by day and session they were soaked for
  std::vector<DailyRow> days{};
  Outcome outcome{};
};

/// Plays the plan, which has an opening, once. With Opening::usual_luck the seed decides nothing.
Worklist work(const Plan& plan, std::uint64_t random_seed = 1, std::uint32_t replication = 0);

/// Grain that each task of soaking takes out of the store, until when it lasts and when to order at the latest.
struct GrainOutlook {
  double at_hand = 0.0, on_the_way = 0.0;  ///< at the opening [kg]
  double per_day = 0.0;                    ///< used [kg/d]
  std::optional<double> lasts_days{};      ///< without a further order; nothing: it is not used
  std::optional<double> order_within_days{};   ///< for a delivery that takes two standard deviations more than usual to come in time
  double too_old = 0.0;                    ///< at hand, but past its use-by before it is used [kg]
  double too_old_days = 0.0;               ///< from when on the first of it is
};
/// `supplies`: the grains with the luck of their deliveries, which a plan without luck does not have.
std::vector<GrainOutlook> grain_outlook(const Plan& plan, const Worklist& list, const std::vector<GrainSupply>& supplies);

}  // namespace rackwright::study
