#pragma once
// Days of a weather file as they are gathered from its lines, and which of them count.

#include <chrono>
#include <limits>
#include <map>
#include <string>
#include <vector>

namespace rackwright::weather {

using DayNumber = std::chrono::sys_days::rep;  ///< days since 1970
inline constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// One day as it is gathered.
struct GatheredDay {
  double maximum = none, minimum = none, dew_sum = 0.0;  ///< [degC]
  int dew_count = 0, line = 0;
  std::vector<int> minutes{};  ///< of hourly readings

  void add(double celsius, double dew);
};
using Days = std::map<DayNumber, GatheredDay>;

/// Hourly readings: takes out the days of which more than four hours lie in silences that are longer than four hours from one reading to the next,
/// over midnight too; those before the first reading and after the last count however short. Why none is left, where none is.
std::string drop_silent(Days& days);

/// Days in a row, three at least, on which the highest was the lowest: no air keeps still for so long. Where a sensor is stuck for a day or two, or
/// for a part of one, this does not see it.
struct Stretch { DayNumber first = 0; int days = 0, line = 0; };  // the line of its last day
/// Takes them out.
std::vector<Stretch> drop_stuck(Days& days);

}  // namespace rackwright::weather
