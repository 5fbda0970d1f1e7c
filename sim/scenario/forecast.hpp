#pragma once
// The weather of days to come, or just gone, typed in or read from a weather file.

#include <chrono>
#include <string>
#include <variant>
#include <vector>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

struct ForecastDay {
  std::chrono::sys_days day{};
  double maximum = 0.0, minimum = 0.0;  ///< outdoors [degC]
};
using Forecast = std::vector<ForecastDay>;

/// "38/22 40/24 36/21": highest and lowest of the day `first` and those after it, in degC or, where the scenario shows US units, in degF;
/// a unit after the last number decides. Anything else is the path of a weather file, whose days within 60 before and 400 after `first`
/// are taken.
std::variant<Forecast, Problems> read_forecast(const std::string& text, std::chrono::sys_days first, const Scenario& scenario);

}  // namespace rackwright
