#pragma once
// How a record's days stray from their season: what the range has to do with the mean, and what lasts. For record.cpp.

#include <vector>

#include "models/climate/climate.hpp"

namespace rackwright::climate {

/// Day after day from 1 January, 365 a year; not a number where a day is missing.
using DaySeries = std::vector<double>;

/// Are there so many years of days? A twentieth may be missing, as gaps are, or a part left out to see how much hangs on it.
bool years_there(const DaySeries& series, int years);

/// Sets range_follow, its two waves and (five years or more, where it matters) their lead, by least squares of the range's straying on the mean's; spread with its two waves (their shape by mean
/// absolute residuals, their size by mean square) and memory of what is left. `parameters` has the mean's wave.
void fit_range(const DaySeries& mean, const DaySeries& range, Parameters& parameters);

/// Sets the waves of the anomaly's variance by least squares of its squares. A record of less than five years cannot tell: none.
void fit_season(const DaySeries& mean, Parameters& parameters);

/// Sets slow_share and slow_memory from the mean autocorrelation 15 to 25 and 50 to 70 days apart, where a day's memory is gone. A record of
/// less than ten years cannot tell: no slow share.
void fit_slow(const DaySeries& mean, Parameters& parameters);

/// Sets anomaly_two_days from the autocorrelation two days apart; after fit_slow.
void fit_two_days(const DaySeries& mean, Parameters& parameters);

/// Sets how highs and lows lean, by least squares of quantiles (0.3 to 99.7 % of each twelfth of the year) of what they stray in their own
/// spread; after all the others. A record of less than ten years cannot tell: normal laws.
void fit_leaning(const DaySeries& highs, const DaySeries& lows, Parameters& parameters);

}  // namespace rackwright::climate
