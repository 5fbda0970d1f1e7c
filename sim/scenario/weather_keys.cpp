#include "sim/scenario/weather_keys.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "models/climate/fitted_values.hpp"
#include "models/climate/record_blocks.hpp"
#include "sim/scenario/document.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/whole_file.hpp"

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

std::vector<std::string> stated_in_vain(const Scenario& scenario, const Scenario& without, const std::vector<std::string>& written) {
  constexpr std::string_view monthly = "climate.monthly_mean";
  const auto wrote = [&](std::string_view key) { return std::find(written.begin(), written.end(), key) != written.end(); };
  const auto of_months = [](std::string_view key) { return key == "climate.mean" || key == "climate.amplitude" || key == "climate.peak_day"; };
  std::vector<std::string> keys;
  Scenario standing;
  standing.units = without.units;
  for (const auto& list : {climate::fitted_values(), climate::fitted_dew_values()}) {
    for (const climate::FittedValue& value : list) {
      const auto stated = get_key(without, value.key);
      if (!given_by_weather(scenario, value.key) || stated == get_key(standing, value.key) || stated == get_key(scenario, value.key)) continue;
      const std::string_view told = wrote(monthly) && of_months(value.key) && !wrote(value.key) ? monthly : value.key;
      if (std::find(keys.begin(), keys.end(), told) == keys.end()) keys.emplace_back(told);
    }
  }
  return keys;
}

std::vector<std::string> written_keys(std::string_view text, const std::vector<std::string>& settings) {
  std::vector<std::string> keys;
  const auto all_of = [&](std::string_view one) {
    for (const Leaf& leaf : parse_document(one).leaves) keys.push_back(leaf.path);
  };
  all_of(text);
  for (const std::string& setting : settings) {
    if (!setting.starts_with('@')) {
      keys.push_back(setting.substr(0, setting.find('=')));
    } else if (const auto file = whole_file(setting.substr(1), 1, FileKind::any); const auto* stated = std::get_if<std::string>(&file)) {
      all_of(*stated);
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
