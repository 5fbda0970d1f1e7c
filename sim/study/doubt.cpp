#include "sim/study/doubt.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <boost/math/distributions/fisher_f.hpp>

#include "models/base/expects.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/limits.hpp"

namespace rackwright::study {
namespace {

constexpr std::array<std::string_view, 8> asked{"fill_rate",   "short_days", "spoiled_trays", "spoiled_fed",
                                                "mat_growth_days", "fodder_fresh", "cost_total", "cost_per_kg_fresh"};

std::vector<Outcome> play(const Plan& plan, const RunRequest& request) {
  std::vector<Outcome> all;
  run_replications(plan, request, nullptr, [&](const Block& block) {
    all.insert(all.end(), block.outcomes.begin(), block.outcomes.end());
  });
  return all;
}

template <class Get>
std::vector<double> values(const std::vector<Outcome>& outcomes, Get get) {
  std::vector<double> all;
  all.reserve(outcomes.size());
  for (const Outcome& outcome : outcomes) all.push_back(get(outcome));
  return all;
}

}  // namespace

Between between_pairs(const std::vector<double>& first, const std::vector<double>& second) {
  EXPECTS(first.size() == second.size());
  Between result;
  const std::size_t groups = first.size();
  if (groups < 3) return result;
  const auto n = static_cast<double>(groups);
  double grand = 0.0;
  for (std::size_t i = 0; i < groups; ++i) grand += (first[i] + second[i]) / (2.0 * n);
  double between = 0.0, within = 0.0;  // mean squares
  for (std::size_t i = 0; i < groups; ++i) {
    const double middle = 0.5 * (first[i] + second[i]) - grand, apart = first[i] - second[i];
    between += 2.0 * middle * middle / (n - 1.0);
    within += 0.5 * apart * apart / n;
  }
  if (!(between + within > 0.0)) return result;
  const auto share_at = [](double ratio) { return std::clamp((ratio - 1.0) / (ratio + 1.0), 0.0, 1.0); };
  if (!(within > 0.0)) return {1.0, 1.0, 1.0};
  const boost::math::fisher_f law(n - 1.0, n);
  const double ratio = between / within;
  return {share_at(ratio), share_at(ratio / boost::math::quantile(law, 0.975)), share_at(ratio / boost::math::quantile(law, 0.025))};
}

std::uint32_t doubt_pairs(std::uint32_t replications) {
  constexpr std::uint32_t fewest = 40, most_pairs = 100;
  return replications < fewest ? 0 : std::clamp(replications / 8, 20U, most_pairs);
}

std::vector<Doubt> doubts(const Plan& plan, RunRequest request, std::uint32_t pairs, PieceMemory* memory) {
  if (pairs < 3) return {};
  request.first = 0;
  request.replications = pairs;
  request.block = 8;
  request.series.clear();
  request.progress = nullptr;
  Plan doubtful = plan;
  doubtful.scenario.run.ignorance = true;
  const auto played = [&](const char* name, const Plan& what, const RunRequest& how) {
    return remembered(memory, name, request.stop, [&] { return play(what, how); });
  };
  const std::vector<Outcome> own = played("doubt-own", doubtful, request);
  RunRequest shared = request;
  shared.first = shared.assumptions_back = pairs;
  const std::vector<Outcome> other = played("doubt-other-luck", doubtful, shared);
  Plan certain = plan;
  certain.scenario.run.ignorance = false;
  const std::vector<Outcome> central = played("doubt-central", certain, request);
  // A replication that failed would put the pairs out of step.
  if (own.size() != pairs || other.size() != pairs || central.empty()) return {};

  Summary luck(plan.scenario.target), both(plan.scenario.target);
  for (const Outcome& outcome : central) luck.add(outcome);
  for (const Outcome& outcome : own) both.add(outcome);
  std::vector<Doubt> all;
  const auto add = [&](std::string_view quantity, std::string_view unit, const Estimate& at_centre, const Estimate& with_both, auto get) {
    const Between share = between_pairs(values(own, get), values(other, get));
    all.push_back({quantity, unit, share.share, share.low, share.high, at_centre, with_both});
  };
  for (const std::string_view name : asked) {
    const Column* column = find_column(name);
    ENSURES(column != nullptr);
    add(column->name, column->unit, luck.estimate(name), both.estimate(name), column->get);
  }
  add("success", "1", luck.success(), both.success(), [&](const Outcome& o) { return succeeds(o, plan.scenario.target) ? 1.0 : 0.0; });
  return all;
}

}  // namespace rackwright::study
