#pragma once
// The days of a year of 365, in which 29 February is the first of March.

#include <chrono>

namespace rackwright {

inline constexpr std::chrono::sys_days plain_new_year{std::chrono::year(2001) / 1 / 1};

/// 1 on 1 January, 365 on 31 December, whatever the year.
inline int plain_day_of_year(std::chrono::sys_days day) {
  const std::chrono::year_month_day date(day);
  return static_cast<int>((std::chrono::sys_days(std::chrono::year(2001) / date.month() / date.day()) - plain_new_year).count()) + 1;
}

}  // namespace rackwright
