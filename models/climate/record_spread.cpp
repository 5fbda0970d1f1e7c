#include "models/climate/record_spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <boost/math/distributions/students_t.hpp>

#include "models/base/expects.hpp"
#include "models/climate/fitted_values.hpp"

namespace rackwright::climate {
namespace {

constexpr std::size_t fewest = 25, shortest = 73;  // blocks, and their days
using Values = std::vector<double>;

Values values_of(const Parameters& p) {
  Values values;
  for (const FittedValue& value : fitted_values()) values.push_back(value.get(p));
  return values;
}

std::size_t index_of(std::string_view key) {
  const auto all = fitted_values();
  const auto at = std::find_if(all.begin(), all.end(), [&](const FittedValue& value) { return value.key == key; });
  EXPECTS(at != all.end());
  return static_cast<std::size_t>(at - all.begin());
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

double FitSpread::half_of(std::string_view key) const { return half[index_of(key)]; }
double FitSpread::short_of(std::string_view key) const { return lacks[index_of(key)]; }

std::optional<FitSpread> fit_spread(const Record& record, const Parameters& otherwise) {
  const std::size_t block_days = std::max(shortest, record.size() / fewest);
  const Values whole = values_of(fit_record(record, otherwise));
  std::vector<Values> all;
  for (std::size_t from = 0; from < record.size(); from += block_days) {
    if (!any(record, from, block_days)) continue;
    const Record rest = without(record, from, block_days);
    if (!enough_to_fit(rest)) return std::nullopt;
    Values off = values_of(fit_record(rest, otherwise));
    for (std::size_t k = 0; k < off.size(); ++k)
      if (const double period = fitted_values()[k].period; period > 0.0) off[k] = whole[k] + std::remainder(off[k] - whole[k], period);
    all.push_back(off);
  }
  if (all.size() < fewest - 2) return std::nullopt;
  const auto blocks = static_cast<double>(all.size());
  const double t = boost::math::quantile(boost::math::students_t(blocks - 1.0), 0.975);
  FitSpread spread;
  for (std::size_t k = 0; k < whole.size(); ++k) {
    double mean = 0.0, square = 0.0;
    for (const Values& one : all) mean += one[k] / blocks;
    for (const Values& one : all) square += (one[k] - mean) * (one[k] - mean);
    const std::string_view key = fitted_values()[k].key;
    spread.half.push_back(t * std::sqrt((blocks - 1.0) / blocks * square));
    spread.lacks.push_back(key == "climate.anomaly_sd" || key == "climate.anomaly_memory" ? (blocks - 1.0) * (whole[k] - mean) : 0.0);
  }
  return spread;
}

}  // namespace rackwright::climate
