#include "sim/study/precision.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/run.hpp"

namespace rackwright::study {

bool narrow_enough(const Moments& moments, double half) {
  constexpr double margin = 0.9;
  return moments.count() >= first_look && mean_half_width(moments.sd(), moments.count()) <= margin * half;
}

Precision replications_for(const Plan& plan, double share, std::uint32_t cap, std::uint64_t random_seed, int threads,
                           const std::atomic<bool>* stop, const std::function<void(std::uint32_t)>& progress) {
  EXPECTS(share > 0.0 && cap > 0);
  Moments fill, cost;
  Precision found;
  for (std::uint32_t goal = std::min(first_look, cap);; goal = std::min(next_look(goal), cap)) {
    RunRequest request;
    request.random_seed = random_seed;
    request.first = found.replications;
    request.replications = goal - found.replications;
    request.threads = threads;
    request.stop = stop;
    const std::uint32_t done = run_replications(plan, request, nullptr, [&](const Block& block) {
      for (const Outcome& outcome : block.outcomes) {
        fill.add(outcome.fill_rate);
        cost.add(outcome.cost_total * 365.0 / outcome.days);
      }
      if (progress) progress(block.first + static_cast<std::uint32_t>(block.outcomes.size()));
    });
    found.replications += done;
    found.fill_rate_half = mean_half_width(fill.sd(), fill.count());
    const double mean = std::abs(cost.mean());
    found.cost_half = mean > 0.0 ? mean_half_width(cost.sd(), cost.count()) / mean : 0.0;
    found.reached = narrow_enough(fill, share) && (mean == 0.0 || narrow_enough(cost, share * mean));
    if (found.reached || found.replications >= cap || done < request.replications) return found;
  }
}

}  // namespace rackwright::study
