#include "sim/study/precision.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"

namespace rackwright::study {

bool narrow_enough(const Moments& moments, double half) {
  constexpr double margin = 0.9;
  return moments.count() >= first_look && mean_half_width(moments.sd(), moments.count()) <= margin * half;
}

Precision replications_for(double share, std::uint32_t cap, const PlayRange& play) {
  EXPECTS(share > 0.0 && cap > 0);
  Moments fill, cost;
  Precision found;
  for (std::uint32_t goal = std::min(first_look, cap);; goal = std::min(next_look(goal), cap)) {
    const std::uint32_t wanted = goal - found.replications;
    const std::uint32_t done = play(found.replications, wanted, [&](const Block& block) {
      for (const Outcome& outcome : block.outcomes) {
        fill.add(outcome.fill_rate);
        cost.add(outcome.cost_total * 365.0 / outcome.days);
      }
    });
    found.replications += done;
    found.fill_rate_half = mean_half_width(fill.sd(), fill.count());
    const double mean = std::abs(cost.mean());
    found.cost_half = mean > 0.0 ? mean_half_width(cost.sd(), cost.count()) / mean : 0.0;
    found.reached = narrow_enough(fill, share) && (mean == 0.0 || narrow_enough(cost, share * mean));
    if (found.reached || found.replications >= cap || done < wanted) return found;
  }
}

}  // namespace rackwright::study
