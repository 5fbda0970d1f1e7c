#include "models/climate/record_spread.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <boost/math/distributions/students_t.hpp>

namespace rackwright::climate {
namespace {

constexpr std::size_t fewest = 25, shortest = 73;  // blocks, and their days
using Values = std::array<double, 9>;

Values values_of(const Parameters& p) {
  return {p.mean.mean.value(),       p.mean.amplitude.value(), p.mean.peak_day,    p.range_mean.value(), p.range_amplitude.value(),
          p.range_lead_days,         p.range_follow,           p.anomaly_sd.value(), p.anomaly_memory};
}

Record without(const Record& record, std::size_t from, std::size_t block_days) {
  Record rest = record;
  for (std::size_t i = from; i < std::min(record.size(), from + block_days); ++i)
    rest.maximum[i] = rest.minimum[i] = std::numeric_limits<float>::quiet_NaN();
  return rest;
}

bool any(const Record& record, std::size_t from, std::size_t block_days) {
  for (std::size_t i = from; i < std::min(record.size(), from + block_days); ++i)
    if (record.has(i)) return true;
  return false;
}

}  // namespace

std::optional<FitSpread> fit_spread(const Record& record, const Parameters& otherwise) {
  const std::size_t block_days = std::max(shortest, record.size() / fewest);
  const Values whole = values_of(fit_record(record, otherwise));
  std::vector<Values> all;
  for (std::size_t from = 0; from < record.size(); from += block_days) {
    if (!any(record, from, block_days)) continue;
    const Record rest = without(record, from, block_days);
    if (!enough_to_fit(rest)) return std::nullopt;
    Values off = values_of(fit_record(rest, otherwise));
    for (std::size_t k : {2U, 5U}) off[k] = whole[k] + std::remainder(off[k] - whole[k], 365.0);  // days of the year
    all.push_back(off);
  }
  if (all.size() < fewest - 2) return std::nullopt;
  const auto blocks = static_cast<double>(all.size());
  const double t = boost::math::quantile(boost::math::students_t(blocks - 1.0), 0.975);
  Values half{}, centre{};
  for (std::size_t k = 0; k < half.size(); ++k) {
    double mean = 0.0, square = 0.0;
    for (const Values& one : all) mean += one[k] / blocks;
    for (const Values& one : all) square += (one[k] - mean) * (one[k] - mean);
    centre[k] = mean;
    half[k] = t * std::sqrt((blocks - 1.0) / blocks * square);
  }
  return FitSpread{half[0], half[1], half[2], half[3], half[4], half[5], half[6], half[7], half[8], (blocks - 1.0) * (whole[7] - centre[7]), (blocks - 1.0) * (whole[8] - centre[8])};
}

}  // namespace rackwright::climate
