#pragma once
// What more money buys: the designs that nothing cheaper serves better than, where that curve bends, and the steps up it.

#include <cstddef>
#include <string>
#include <vector>

#include "sim/study/summary.hpp"

namespace rackwright::study {

/// A design as the curve sees it.
struct CostAndService { std::size_t design = 0; double cost = 0.0, service = 0.0; };

/// Designs of which no other costs as little or less and serves better, or serves as well and costs less: by rising cost.
/// Of equals the first stays.
std::vector<CostAndService> frontier(std::vector<CostAndService> designs);

/// Place on a frontier of the point farthest above the straight line from its first to its last point, both axes scaled to
/// their range (Satopaa, Albrecht, Irwin & Raghavan 2011, the knee of a curve); -1 when there are fewer than three points or
/// none lies above the line.
int knee(const std::vector<CostAndService>& points);

/// Values of one design by year.
struct YearValues { std::vector<double> cost{}, fill_rate{}, short_days{}; };

/// What the dearer of two designs costs more and gives more, year by year on the same fortunes, means with 95 % t intervals.
struct Step { std::size_t design = 0; Estimate cost{}, fill_rate{}, short_days{}; };
Step step_up(const YearValues& from, const YearValues& to);
/// Is more fodder served, or are short days fewer, as far as can be told from luck, and neither the other way?
bool buys_something(const Step& step);
/// "41 EUR a year more (38 to 44) buys 0.8 points of fill rate (0.6 to 1.0) and 3.1 fewer short days a year (2.0 to 4.2)";
/// what cannot be told from nothing is said to be so.
std::string step_words(const Step& step, const std::string& currency);

}  // namespace rackwright::study
