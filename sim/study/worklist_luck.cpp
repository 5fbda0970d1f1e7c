#include "sim/study/worklist_luck.hpp"

#include <algorithm>

#include "models/base/expects.hpp"
#include "sim/replication/replicate.hpp"

namespace rackwright::study {
namespace {

struct Play {
  struct Meal { std::int64_t minute; int group; double given, wanted; };
  std::vector<Meal> meals{};
  std::vector<std::int64_t> missed{};  ///< rounds that nobody held
  std::vector<Luck::Day> days{};
};

class Follower : public Journal {
 public:
  Follower(const Plan& plan, Play& play) : now_(plan.opening->now), play_(play) { play_.days.resize(static_cast<std::size_t>(plan.horizon_days)); }

  void tell(std::int64_t, const std::string&) override {}
  void note(std::int64_t minute, const Happening& h) override {
    if (minute < now_) return;
    using Kind = Happening::Kind;
    const auto d = std::min(static_cast<std::size_t>(minute / minutes_per_day), play_.days.size() - 1);
    Luck::Day& day = play_.days[d];
    switch (h.kind) {
      case Kind::given: play_.meals.push_back({minute, h.which, h.amount, h.other}); break;
      case Kind::missed_round: play_.missed.push_back(minute); break;
      case Kind::moulded: case Kind::soured: day.spoiled += h.trays; break;
      case Kind::frosted: day.killed += h.trays; break;
      case Kind::cut: day.cut += h.trays; break;
      case Kind::fed:
        day.wanted += h.amount;
        day.served += h.other;
        break;
      default: break;
    }
  }

 private:
  std::int64_t now_;
  Play& play_;
};

}  // namespace

Luck::Day& Luck::Day::operator+=(const Day& other) {
  wanted += other.wanted;
  served += other.served;
  spoiled += other.spoiled;
  killed += other.killed;
  cut += other.cut;
  shorts += other.shorts;
  return *this;
}

Luck::Day Luck::sum(std::size_t count) const {
  Day all;
  for (std::size_t d = 0; d < std::min(count, days.size()); ++d) all += days[d];
  return all;
}

Luck luck_of(const Plan& plan, const PairRequest& request) {
  EXPECTS(plan.opening != nullptr && !plan.opening->usual_luck && plan.horizon_days > 0);
  Luck luck;
  luck.days.resize(static_cast<std::size_t>(plan.horizon_days));
  const auto make_worker = [&] {
    return [&plan, seed = request.random_seed, replicator = LazyReplicator(plan)](std::uint32_t r) mutable {
      Play play;
      Follower follower(plan, play);
      (*replicator).run(seed, r, &follower);
      return play;
    };
  };
  std::map<std::int64_t, std::uint32_t> missed;
  luck.plays = in_blocks<Play>(request, make_worker, [&](const Play& play) {
    for (const Play::Meal& meal : play.meals) {
      Luck::Meal& sum = luck.meals[{meal.minute, meal.group}];
      sum.given += meal.given;
      if (meal.given < (1.0 - plan.scenario.feed.tolerance) * meal.wanted) ++sum.shorts;
    }
    for (const std::int64_t minute : play.missed) ++missed[minute];
    for (std::size_t d = 0; d < luck.days.size(); ++d) luck.days[d] += play.days[d];
  });
  if (luck.plays == 0) return luck;
  const double plays = luck.plays;
  for (auto& [key, meal] : luck.meals) {
    if (const auto nobody = missed.find(key.first); nobody != missed.end()) meal.shorts += nobody->second;
    meal.given /= plays;
    const auto d = static_cast<std::size_t>(key.first / minutes_per_day);
    if (d < luck.days.size()) luck.days[d].shorts += meal.shorts / plays;
  }
  for (Luck::Day& day : luck.days) {
    day.wanted /= plays;
    day.served /= plays;
    day.spoiled /= plays;
    day.killed /= plays;
    day.cut /= plays;
  }
  return luck;
}

}  // namespace rackwright::study
