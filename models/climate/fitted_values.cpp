#include "models/climate/fitted_values.hpp"

#include <array>
#include <type_traits>

namespace rackwright::climate {
namespace {

double number(double value) { return value; }
template <class Tag>
double number(Quantity<Tag> value) {
  return value.value();
}

// A value by the path of its field, which no template parameter can name.
#define FITTED(key, parts, period, path)                                                  \
  FittedValue {                                                                           \
    key, parts, period, [](const Parameters& p) { return number(p.path); },               \
        [](Parameters& p, double v) { p.path = std::remove_cvref_t<decltype(p.path)>(v); } \
  }

#define UNTOLD(key, parts, period, path) \
  [] {                                   \
    FittedValue value = FITTED(key, parts, period, path); \
    value.told = false;                  \
    return value;                        \
  }()

constexpr std::array always{
    FITTED("climate.mean", 100, 0, mean.mean),
    FITTED("climate.amplitude", 100, 0, mean.amplitude),
    FITTED("climate.peak_day", 10, 365, mean.peak_day),
    FITTED("climate.half_year", 100, 0, mean.second),
    FITTED("climate.half_year_peak", 10, 182.5, mean.second_peak),
    FITTED("climate.range_mean", 100, 0, range_mean),
    FITTED("climate.range_amplitude", 100, 0, range_amplitude),
    FITTED("climate.range_lead", 10, 365, range_lead_days),
    FITTED("climate.range_half_year", 100, 0, range_half_year),
    FITTED("climate.range_half_year_peak", 10, 182.5, range_half_year_peak),
    FITTED("climate.range_follow", 1000, 0, range_follow),
    FITTED("climate.range_follow_summer", 1000, 0, range_follow_summer),
    FITTED("climate.range_follow_half_year", 1000, 0, range_follow_half_year),
    FITTED("climate.range_follow_lead", 10, 0, range_follow_lead),
    FITTED("climate.range_sd", 100, 0, range_sd),
    FITTED("climate.range_sd_summer", 100, 0, range_sd_summer),
    FITTED("climate.range_sd_half_year", 100, 0, range_sd_half_year),
    FITTED("climate.range_memory", 1000, 0, range_memory),
    FITTED("climate.anomaly_sd", 100, 0, anomaly_sd),
    FITTED("climate.anomaly_season", 1000, 0, anomaly_season),
    FITTED("climate.anomaly_season_peak", 10, 365, anomaly_season_peak),
    FITTED("climate.anomaly_half_year", 1000, 0, anomaly_half_year),
    FITTED("climate.anomaly_half_year_peak", 10, 182.5, anomaly_half_year_peak),
    FITTED("climate.anomaly_memory", 1000, 0, anomaly_memory),
    FITTED("climate.anomaly_two_days", 1000, 0, anomaly_two_days),
    UNTOLD("climate.slow_share", 1000, 0, slow_share),
    UNTOLD("climate.slow_memory", 1000, 0, slow_memory),
    FITTED("climate.highs_skew", 1000, 0, highs.skew),
    FITTED("climate.highs_skew_summer", 1000, 0, highs.skew_summer),
    FITTED("climate.highs_skew_half_year", 1000, 0, highs.skew_half_year),
    UNTOLD("climate.highs_tail", 1000, 0, highs.tail),
    FITTED("climate.highs_tail_summer", 1000, 0, highs.tail_summer),
    FITTED("climate.highs_tail_half_year", 1000, 0, highs.tail_half_year),
    FITTED("climate.lows_skew", 1000, 0, lows.skew),
    FITTED("climate.lows_skew_summer", 1000, 0, lows.skew_summer),
    FITTED("climate.lows_skew_half_year", 1000, 0, lows.skew_half_year),
    UNTOLD("climate.lows_tail", 1000, 0, lows.tail),
    FITTED("climate.lows_tail_summer", 1000, 0, lows.tail_summer),
    FITTED("climate.lows_tail_half_year", 1000, 0, lows.tail_half_year),
};
constexpr std::array dew{
    FITTED("climate.dew_depression_mean", 100, 0, dew_depression_mean),
    FITTED("climate.dew_depression_amplitude", 100, 0, dew_depression_amplitude),
    FITTED("climate.dew_depression_sd", 100, 0, dew_depression_sd),
};

#undef UNTOLD
#undef FITTED

}  // namespace

std::span<const FittedValue> fitted_values() { return always; }
std::span<const FittedValue> fitted_dew_values() { return dew; }

}  // namespace rackwright::climate
