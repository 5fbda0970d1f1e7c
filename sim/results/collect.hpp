#pragma once
// From what a study yields to the datasets of a result file.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim/results/array.hpp"
#include "sim/results/header.hpp"
#include "sim/study/against.hpp"
#include "sim/study/bad_years.hpp"
#include "sim/study/bands.hpp"
#include "sim/study/doubt.hpp"
#include "sim/study/influence.hpp"
#include "sim/study/size.hpp"
#include "sim/study/stress.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::results {

/// Title, units, currency, start, length, seed and replications of the scenario, with the build's own attributes.
Header describe_run(const Scenario& scenario, std::string kind, std::string command_line, std::string created_utc);
/// Now, as "2026-03-01T06:00:00Z".
std::string utc_now();

/// /scenario and /target. `text` and `resolved`: the scenario as read and with all keys; either may be empty.
Arrays scenario_arrays(const Scenario& scenario, const std::string& text, const std::string& resolved,
                       const std::vector<std::string>& cautions);
/// What it takes to build the scenario's line, in /scenario.
Arrays build_arrays(const Scenario& scenario);
/// /daily: quantiles 0.05, 0.25, 0.5, 0.75, 0.95 and means; empty without replications.
Arrays band_arrays(const study::Bands& bands);
/// How bad the worst twentieth and tenth of years are.
Arrays bad_year_arrays(const study::BadYears& years);
/// /summary: every column, the ratios of ratios(), and success.
Arrays summary_arrays(const study::Summary& summary);
/// /assumption; empty without influences.
Arrays influence_arrays(const std::vector<study::Influence>& influences);
/// /against: the comparisons have the columns of study::compared(); there is at least one.
Arrays against_arrays(const std::vector<study::Comparison>& comparisons);
/// /stress and /countermeasure; `asked` is target.fill_rate. There is at least one hard time.
Arrays stress_arrays(const study::StressResult& result, double asked, bool us = false);
/// /doubt; empty without doubts.
Arrays doubt_arrays(const std::vector<study::Doubt>& doubts);
/// /design.
Arrays design_arrays(const study::SizeResult& result);

/// The low end of an interval: what never lies below nothing has none there. That of one replication is no number, and stays so.
double low_of(const study::Estimate& estimate);

/// Two columns whose ratio of totals means something, with the ratio's unit.
struct RatioOfTotals { std::string_view numerator, denominator, unit; };
std::span<const RatioOfTotals> ratios();
/// The seasons in the order of Outcome::short_days_by_season.
std::vector<std::string> season_names();

}  // namespace rackwright::results
