#pragma once
// Measured weather, day by day, and how a run is pieced together from it: blocks of days taken from years of the record at
// the same season, so that season and memory are those measured. docs/models/climate.md.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "models/climate/climate.hpp"

namespace rackwright::climate {

/// Whole years of 365 days (29 February is left out), 1 January first. Values are kept to 0.05 K, missing days are NaN.
struct Record {
  int first_year = 0;
  std::vector<float> maximum{}, minimum{};  ///< of each day [degC], NaN together
  std::vector<float> dew_point{};           ///< empty where not measured; NaN on days without [degC]

  [[nodiscard]] std::size_t size() const { return maximum.size(); }
  [[nodiscard]] int years() const { return static_cast<int>(size() / 365); }
  [[nodiscard]] bool has(std::size_t day) const { return maximum[day] == maximum[day]; }
  [[nodiscard]] double mean(std::size_t day) const { return 0.5 * (static_cast<double>(maximum[day]) + static_cast<double>(minimum[day])); }
};
inline constexpr int longest_record = 100;      ///< years
inline constexpr double record_step = 0.05;     ///< [K]
float rounded_to_step(double celsius);

/// The record as one line of letters and digits, two for a value; decode gives it back to the bit, or nothing if the text is
/// not one of ours.
std::string encode(const Record& record);
std::optional<Record> decode(std::string_view text);

/// A site's climate with everything the record tells in place of what `otherwise` says: wave, range, anomaly, and dew point
/// where measured. Expects enough_to_fit.
Parameters fit_record(const Record& record, const Parameters& otherwise);
/// Are there days enough for that?
bool enough_to_fit(const Record& record);

/// A record with what a run asks of it worked out once.
struct RecordedWeather {
  Record record;
  std::vector<float> anomaly{};  ///< day's mean less the fitted wave [K]
  std::vector<int> run{};        ///< days in a row without a gap from this day on
};
RecordedWeather prepare(Record record, const YearlyWave& wave);

/// Years that can give a block of `length` days from that day of the year (1..365) on.
int candidates(const RecordedWeather& weather, int day_of_year, int length);
/// The day of the year from which fewest years have such a block; there must be one for every day.
int scarcest_day(const RecordedWeather& weather, int length);

/// Index of the day that begins the next block. `yesterday` is the index of the last day used, or -1 at the start; the block
/// is one of the third of the candidates (two at least) whose own yesterday was most like it, the one `luck` in [0, 1) points
/// at. Expects candidates(...) >= 1.
std::size_t next_block(const RecordedWeather& weather, int day_of_year, int length, int yesterday, double luck);

/// Weather of that day of the record with an overlay's rise. Where no dew point was measured it is drawn as in day_from.
Day day_of(const RecordedWeather& weather, std::size_t index, const Parameters& parameters, const Normal& normal, double dew,
           Kelvins rise);

}  // namespace rackwright::climate
