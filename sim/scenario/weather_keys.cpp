#include "sim/scenario/weather_keys.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "models/climate/fitted_values.hpp"
#include "models/climate/record_blocks.hpp"
#include "sim/scenario/read.hpp"

namespace rackwright {
namespace {

bool among(std::span<const climate::FittedValue> values, std::string_view key) {
  return std::any_of(values.begin(), values.end(), [&](const climate::FittedValue& value) { return value.key == key; });
}

}  // namespace

bool given_by_weather(const Scenario& scenario, std::string_view key) {
  if (!scenario.weather.record) return false;
  if (key == "climate.monthly_mean" || among(climate::fitted_values(), key)) return true;
  return climate::tells_dew(scenario.weather.record->record) && among(climate::fitted_dew_values(), key);
}

std::vector<std::string> stated_in_vain(const Scenario& scenario, const Scenario& without) {
  std::vector<std::string> keys;
  Scenario standing;
  standing.units = without.units;
  for (const auto& list : {climate::fitted_values(), climate::fitted_dew_values()}) {
    for (const climate::FittedValue& value : list) {
      const auto stated = get_key(without, value.key);
      if (given_by_weather(scenario, value.key) && stated != get_key(standing, value.key) && stated != get_key(scenario, value.key)) keys.emplace_back(value.key);
    }
  }
  return keys;
}

std::optional<std::string> beyond_keys(const Scenario& fitted) {
  Scenario tried;
  for (const auto& list : {climate::fitted_values(), climate::fitted_dew_values()}) {
    for (const climate::FittedValue& value : list) {
      const std::string text = get_key(fitted, value.key).value();
      if (const auto problem = set_key(tried, value.key, text))
        return fmt::format("tells of weather that cannot be: {} comes to {}, which {}; look for a wrong unit or a wrong column", value.key, text, problem->why);
    }
  }
  return std::nullopt;
}

}  // namespace rackwright
