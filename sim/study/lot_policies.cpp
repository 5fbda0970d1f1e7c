#include "sim/study/lot_policies.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "models/base/expects.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/study/intervals.hpp"
#include "sim/study/moments.hpp"

namespace rackwright::study {
namespace {

constexpr int usual_kernels = 100;

using Row = std::array<double, lot_measures>;
using Record = std::array<Row, lot_ways>;

Row measured(const Outcome& o) {
  const double yearly = 365.0 / std::max(1.0, o.days);
  return {yearly * o.cost_total, yearly * o.short_days, yearly * (o.spoiled_mould + o.spoiled_sour), yearly * o.lots_refused,
          yearly * o.grain_untried};
}

Scenario with(const Scenario& scenario, std::size_t grain, const LotPolicy& policy, Kilograms bin) {
  Scenario out = scenario;
  out.grains[grain].policy = policy;
  out.grains[grain].store.bin = std::max(out.grains[grain].store.bin, bin);
  out.choose.choices.clear();
  return out;
}

}  // namespace

LotMeasureText text_of(LotMeasure measure) {
  switch (measure) {
    case LotMeasure::money: return {"money", "currency"};
    case LotMeasure::short_days: return {"short_days", "d"};
    case LotMeasure::spoiled: return {"spoiled_trays", "1"};
    case LotMeasure::refused: return {"lots_refused", "1"};
    case LotMeasure::untried: return {"grain_untried", "kg"};
  }
  contract_broken("reaches", "every measure", __FILE__, __LINE__);
}

LotWays lot_ways_of(const Scenario& scenario, std::size_t grain) {
  EXPECTS(grain < scenario.grains.size());
  const GrainSupply& supply = scenario.grains[grain];
  LotWays ways;
  ways.trial = ways.kept = supply.policy;
  ways.usual_trial = supply.policy.trial <= 0;
  if (ways.usual_trial) ways.trial.trial = ways.kept.trial = usual_kernels;
  ways.trial.keep_back = Kilograms(0.0);
  ways.usual_kept = supply.policy.keep_back <= Kilograms(0.0);
  if (ways.usual_kept) {
    const double for_days = in_days(2.0 * supply.policy.trial_time + supply.store.delivery + 2.0 * supply.delivery_sd);
    const double bags = std::ceil(most_sown_a_day(scenario, grain) * for_days / supply.store.bag.value() - 1e-9);
    ways.kept.keep_back = std::max(1.0, bags) * supply.store.bag;
  }
  ways.bin = std::max(supply.store.bin, supply.store.order_up_to + ways.kept.keep_back);
  return ways;
}

LotPolicies lot_policies(const Scenario& scenario, std::size_t grain, const PairRequest& request) {
  LotPolicies result;
  result.ways = lot_ways_of(scenario, grain);
  LotPolicy none = result.ways.trial;
  none.trial = 0;
  const std::array<Plan, lot_ways> plans{make_plan(with(scenario, grain, none, Kilograms(0.0))),
                                         make_plan(with(scenario, grain, result.ways.trial, Kilograms(0.0))),
                                         make_plan(with(scenario, grain, result.ways.kept, result.ways.bin))};
  const auto make_worker = [&] {
    return [&, seed = request.random_seed,
            players = std::array{LazyReplicator(plans[0]), LazyReplicator(plans[1]), LazyReplicator(plans[2])}](std::uint32_t r) mutable {
      Record record{};
      for (std::size_t way = 0; way < lot_ways; ++way) record[way] = measured((*players[way]).run(seed, r));
      return record;
    };
  };
  constexpr std::array<std::pair<LotWay, LotWay>, 3> pairs{
      {{LotWay::trial, LotWay::none}, {LotWay::kept, LotWay::none}, {LotWay::kept, LotWay::trial}}};
  std::array<std::array<Moments, lot_measures>, lot_ways> each{};
  std::array<std::array<Moments, lot_measures>, 3> more{};
  result.replications = in_blocks<Record>(request, make_worker, [&](const Record& record) {
    for (std::size_t m = 0; m < lot_measures; ++m) {
      for (std::size_t way = 0; way < lot_ways; ++way) each[way][m].add(record[way][m]);
      for (std::size_t p = 0; p < pairs.size(); ++p)
        more[p][m].add(record[static_cast<std::size_t>(pairs[p].first)][m] - record[static_cast<std::size_t>(pairs[p].second)][m]);
    }
  });
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t m = 0; m < lot_measures; ++m) {
      result.each[i][m] = mean_estimate(each[i][m]);
      result.more[i][m] = mean_estimate(more[i][m]);
    }
  }
  return result;
}

}  // namespace rackwright::study
