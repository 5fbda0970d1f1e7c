#pragma once
// What it is worth to try new lots of a grain before they are sown: no trial, a trial, and a trial with grain kept back, on common
// fortunes.

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "sim/scenario/scenario.hpp"
#include "sim/study/paired.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::study {

/// The ways compared, in this order.
enum class LotWay : std::size_t { none, trial, kept };
inline constexpr std::size_t lot_ways = 3;

/// What is asked of each, for 365 days.
enum class LotMeasure : std::size_t { money, short_days, spoiled, refused, untried };
inline constexpr std::size_t lot_measures = 5;
/// Name and unit of a measure: money in the scenario's currency, short days, mats spoiled, lots refused, kilograms sown untried.
struct LotMeasureText { std::string_view name, unit; };
LotMeasureText text_of(LotMeasure measure);

/// How new lots of a grain are treated each way: the scenario's own figures, and where it has none 100 kernels and enough grain for a
/// trial, a delivery late by twice its spread, and a second trial.
struct LotWays {
  LotPolicy trial{}, kept{};
  bool usual_trial = false, usual_kept = false;  ///< not of the scenario but the standard figures
  Kilograms bin{0.0};                            ///< that keeping back takes; the scenario's own where that is enough
};
/// `grain` is an index into the scenario's grains.
LotWays lot_ways_of(const Scenario& scenario, std::size_t grain);

struct LotPolicies {
  LotWays ways{};
  std::uint32_t replications = 0;                ///< played all three ways
  std::array<std::array<Estimate, lot_measures>, lot_ways> each{};
  /// Paired differences with 95 % intervals (Student's t): a trial less none, with grain kept back less none, and less a mere trial.
  std::array<std::array<Estimate, lot_measures>, 3> more{};
};

/// Plays the three ways for one grain; all else is as in the scenario.
LotPolicies lot_policies(const Scenario& scenario, std::size_t grain, const PairRequest& request);

}  // namespace rackwright::study
