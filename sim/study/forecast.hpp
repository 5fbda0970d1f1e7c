#pragma once
// One week ahead, again and again: on the morning of each week of a log the fit of what had ended by then foretells the weights and the
// spoiling of the week, and is scored by what came. docs/models/tray-fit.md.

#include <array>
#include <chrono>
#include <optional>
#include <span>
#include <vector>

#include "sim/study/fit_trays.hpp"

namespace rackwright::study {

/// Continuous ranked probability score of a sample against what came: E|X - y| - E|X - X'| / 2, without bias by the sample's size; in the
/// unit of y, smaller is better (Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359-378, sections 4.2). Sorts the sample; two draws or more.
double crps_of_sample(std::span<double> sample, double y);
/// The same of a normal law, in closed form (their equation 5).
double crps_of_normal(double mean, double sd, double y);

/// A week's forecast and what came.
struct WeekScore {
  std::chrono::sys_days from{};
  int weights = 0, judged = 0, spoiled = 0;
  double crps = 0.0, naive_crps = 0.0;       ///< summed over the weights [kg]
  double expected_spoiled = 0.0;
};

/// All weeks together. Naive: every mat weighs, per kilogram of grain, what the earlier ones did, normal with their mean and spread; as many
/// spoil as did.
struct ForecastCheck {
  std::vector<WeekScore> weeks;
  int weights = 0, judged = 0, spoiled = 0;
  double crps = 0.0, naive_crps = 0.0;       ///< means over the weights [kg]
  double mean_weight = 0.0;                  ///< of what came [kg]
  double within_50 = 0.0, within_90 = 0.0;   ///< share of weights inside the forecast's middle intervals [1]
  std::array<int, 5> fifths{};               ///< weights by the fifth of their forecast that they fell in
  double brier = 0.0, naive_brier = 0.0;     ///< means over trays [1]
  double log_score = 0.0, naive_log_score = 0.0;  ///< mean of -ln of the chance given to what came
  double expected_spoiled = 0.0;
};

/// How many trays must have ended before the first forecast.
inline constexpr int first_forecast_after = 12;
/// Of a longer log its last weeks are foretold, each from all before it.
inline constexpr int most_weeks = 26;

/// Scores a log; nothing when it is too short for one week.
std::optional<ForecastCheck> forecast_check(const TrayLog& log, const Scenario& scenario, bool stated);

}  // namespace rackwright::study
