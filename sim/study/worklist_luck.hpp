#pragma once
// What luck makes of the days of a worklist: the same opening played many times as the simulator plays it.

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "sim/replication/plan.hpp"
#include "sim/study/paired.hpp"

namespace rackwright::study {

struct Luck {
  /// One group's meal: what it gets on the mean, and in how many plays it is short by more than the scenario's tolerance.
  struct Meal { double given = 0.0; std::uint32_t shorts = 0; };
  /// Means over the plays: fodder [kg], mats thrown out spoiled, mats killed by frost, mats cut, meals short.
  struct Day {
    double wanted = 0.0, served = 0.0, spoiled = 0.0, killed = 0.0, cut = 0.0, shorts = 0.0;
    Day& operator+=(const Day& other);
  };

  std::uint32_t plays = 0;
  std::map<std::pair<std::int64_t, int>, Meal> meals{};  ///< by minute since the opening's day began, and group
  std::vector<Day> days{};
  /// The first `days` together.
  [[nodiscard]] Day sum(std::size_t days) const;
};

/// `plan`: with luck (no Opening::usual_luck), the same scenario and opening as the worklist.
Luck luck_of(const Plan& plan, const PairRequest& request);

}  // namespace rackwright::study
