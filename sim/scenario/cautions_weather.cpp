#include "sim/scenario/cautions_weather.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace rackwright {
namespace {

/// Has no day of the year more than one year to be taken from?
bool one_year(const climate::RecordedWeather& weather, int block) {
  for (int day = 1; day <= 365; ++day)
    if (climate::candidates(weather, day, block) > 1) return false;
  return true;
}

}  // namespace

void weather_cautions(const Scenario& s, std::vector<std::string>& out) {
  if (!s.weather.record) return;
  const climate::Record& record = s.weather.record->record;
  std::size_t first = record.size(), last = 0, there = 0;
  for (std::size_t i = 0; i < record.size(); ++i) {
    if (!record.has(i)) continue;
    first = std::min(first, i);
    last = i;
    ++there;
  }
  const std::size_t missing = last + 1 - first - there;
  std::string text = fmt::format("Weather is that of {}: {} days in {} calendar year{}, drawn in blocks of {:.0f} days on end. Nothing hotter or "
                                 "colder than they were can come in a run.",
                                 s.weather.file.empty() ? "a file" : s.weather.file, there, record.years(), record.years() == 1 ? "" : "s", in_days(s.weather.block));
  if (missing > 0)
    text += fmt::format(" {} {} missing (rackwright fit weather tells which, and why days were left out); blocks go round them.", missing, missing == 1 ? "day is" : "days are");
  if (one_year(*s.weather.record, static_cast<int>(in_days(s.weather.block))))
    text += " Every year of a run has the same weather, and nothing is said of how years differ: for that, take the [climate] that rackwright fit weather finds in place of the file.";
  else if (record.years() < 10) text += " Few years hold few hard seasons: add a heat wave or a cold snap by hand.";
  out.push_back(text);
}

}  // namespace rackwright
