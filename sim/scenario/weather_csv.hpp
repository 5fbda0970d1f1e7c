#pragma once
// A measured record of outdoor weather from a CSV file: daily extremes, or hourly temperatures. docs/models/climate.md.

#include <optional>
#include <string>
#include <string_view>

#include "models/climate/record.hpp"
#include "sim/scenario/problem.hpp"

namespace rackwright {

/// What reading gave: the record is there only when there are no problems. Problems carry the line of the file; `key` is the
/// column and `value` what stands there. At most twenty are kept, then one that counts the rest.
struct WeatherReading {
  std::optional<climate::Record> record;
  Problems problems;
  Problems gaps;        ///< days that are missing, one entry a stretch, at the line after it; no fault of their own. Days of a stuck sensor are among them
  int missing_days = 0;
  int days = 0;         ///< with weather
  std::string hash;     ///< of the bytes as read, 16 hexadecimal digits (FNV-1a)
};

/// Header with a unit beside every temperature: "date, tmax [degC], tmin [degC]" or "time, temperature (degF)", and "dew
/// point [degC]" or "humidity [%]" if there is one; other columns are passed over. Dates 2021-07-31, times 2021-07-31T14:00.
/// Which days of hourly readings count, and that days on which the temperature never moved do not: weather_days.hpp. Never throws on bad text.
WeatherReading read_weather(std::string_view text);

/// The same from a file of at most 64 MiB; what cannot be read is a Problem with the path as its key.
WeatherReading read_weather_file(const std::string& path);

/// FNV-1a, 64 bits, as 16 hexadecimal digits.
std::string content_hash(std::string_view bytes);

}  // namespace rackwright
