#pragma once
// How a record's days stray from their season: what the range has to do with the mean, and what lasts. For record.cpp.

#include <vector>

#include "models/climate/climate.hpp"

namespace rackwright::climate {

/// Day after day from 1 January, 365 a year; not a number where a day is missing.
using DaySeries = std::vector<double>;

/// Sets range_follow and its two waves (least squares of the range's straying on the mean's), spread (by mean absolute residuals, as of
/// a normal law) and memory of what is left. `parameters` has the mean's wave.
void fit_range(const DaySeries& mean, const DaySeries& range, Parameters& parameters);

/// Sets slow_share and slow_memory from the mean autocorrelation 15 to 25 and 50 to 70 days apart, where a day's memory is gone. A record of
/// less than ten years cannot tell: no slow share.
void fit_slow(const DaySeries& mean, Parameters& parameters);

}  // namespace rackwright::climate
