#include "sim/study/frontier.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/study/intervals.hpp"
#include "sim/study/moments.hpp"

namespace rackwright::study {
namespace {

Estimate difference(const std::vector<double>& from, const std::vector<double>& to) {
  Moments moments;
  for (std::size_t year = 0; year < std::min(from.size(), to.size()); ++year) moments.add(to[year] - from[year]);
  return mean_estimate(moments);
}

bool told(const Estimate& e) { return e.low > 0.0 || e.high < 0.0; }

/// "0.8 (0.6 to 1.0)" with as many digits as the interval deserves.
std::string with_range(const Estimate& e, double scale) {
  const double half = scale * (e.high - e.low) / 2.0;
  const int decimals = !(half > 0.0) || half >= 10.0 ? 0 : half >= 1.0 ? 1 : 2;
  return fmt::format("{:.{}f} ({:.{}f} to {:.{}f})", scale * e.mean, decimals, scale * e.low, decimals, scale * e.high,
                     decimals);
}

Estimate turned(const Estimate& e) { return {-e.mean, -e.high, -e.low, e.sd, -e.most, -e.least}; }

}  // namespace

std::vector<CostAndService> frontier(std::vector<CostAndService> designs) {
  std::stable_sort(designs.begin(), designs.end(), [](const CostAndService& a, const CostAndService& b) {
    return a.cost != b.cost ? a.cost < b.cost : a.service > b.service;
  });
  std::vector<CostAndService> best;
  for (const CostAndService& each : designs) {
    if (best.empty() || each.service > best.back().service) best.push_back(each);
  }
  return best;
}

int knee(const std::vector<CostAndService>& points) {
  if (points.size() < 3) return -1;
  const double money = points.back().cost - points.front().cost, gain = points.back().service - points.front().service;
  if (!(money > 0.0) || !(gain > 0.0)) return -1;
  int found = -1;
  double farthest = 1e-9;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const double above = (points[i].service - points.front().service) / gain - (points[i].cost - points.front().cost) / money;
    if (above > farthest) farthest = above, found = static_cast<int>(i);
  }
  return found;
}

Step step_up(const YearValues& from, const YearValues& to) {
  return {0, difference(from.cost, to.cost), difference(from.fill_rate, to.fill_rate),
          difference(from.short_days, to.short_days)};
}

bool buys_something(const Step& step) {
  const bool more = step.fill_rate.low > 0.0, fewer = step.short_days.high < 0.0;
  const bool less = step.fill_rate.high < 0.0, worse = step.short_days.low > 0.0;
  return (more || fewer) && !less && !worse;
}

std::string step_words(const Step& step, const std::string& currency) {
  std::string words = fmt::format("{} {} a year more", with_range(step.cost, 1.0), currency);
  const bool fill = told(step.fill_rate), days = told(step.short_days);
  if (!fill && !days) return words + " buys nothing that can be told from luck";
  const bool better = fill ? step.fill_rate.mean > 0.0 : step.short_days.mean < 0.0;
  words += better ? " buys " : " costs ";
  if (fill) {
    const Estimate& e = step.fill_rate;
    words += fmt::format("{} percentage points of fodder served", with_range(better ? e : turned(e), 100.0));
  }
  if (days) {
    const bool fewer = step.short_days.mean < 0.0;
    const Estimate& e = step.short_days;
    words += fmt::format("{}{} {} short days a year", fill ? " and " : "", with_range(fewer ? turned(e) : e, 1.0),
                         fewer ? "fewer" : "more");
  }
  return words;
}

}  // namespace rackwright::study
