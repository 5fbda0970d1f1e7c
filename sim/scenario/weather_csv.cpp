// Lines of a weather file into days of a record.
#include "sim/scenario/weather_csv.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <vector>

#include <fmt/format.h>

#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/weather_columns.hpp"
#include "sim/scenario/weather_days.hpp"
#include "sim/scenario/whole_file.hpp"

namespace rackwright {
namespace {

using namespace weather;
using std::chrono::sys_days;

constexpr double coldest = -90.0, hottest = 60.0;  // beyond any air temperature ever measured
constexpr std::size_t longest_line = 10000, most_problems = 20, most_gaps = 1000;
constexpr std::size_t largest_file = 64;            // [MiB]
constexpr double rounding = 1.0;                    // [K] between two temperatures, each rounded to whole degrees

// Dew point of air of that temperature and relative humidity, FAO-56 equation 11 turned round.
double dew_point_of(double celsius, double share) {
  const double g = std::log(std::max(share, 1e-3)) + 17.27 * celsius / (celsius + 237.3);
  return 237.3 * g / (17.27 - g);
}

std::chrono::year_month_day date_of(DayNumber day) { return std::chrono::year_month_day{sys_days(std::chrono::days(day))}; }

class Gatherer {
 public:
  explicit Gatherer(WeatherReading& reading) : reading_(reading) {}

  void take(std::string_view line, int number) {
    if (line.size() > longest_line) return complain(number, "", "", fmt::format("is longer than {} letters", longest_line));
    if (!header_) {
      const std::size_t before = reading_.problems.size();
      header_ = read_header(line, number, reading_.problems);
      header_line_ = number;
      usable_ = reading_.problems.size() == before;
      return;
    }
    if (usable_) row(cells_of(line, header_->separator), number);
  }

  void finish() {
    if (!header_) complain(0, "date", "", "the file is empty; its first line names the columns and their units");
    if (reading_.problems.size() > most_problems) {
      const std::size_t more = reading_.problems.size() - most_problems;
      reading_.problems.resize(most_problems);
      reading_.problems.push_back({0, "", "", fmt::format("and {} more like these", more + dropped_), ""});
    }
    if (reading_.problems.empty()) build();
  }

 private:
  void complain(int line, std::string_view key, std::string_view value, std::string why, std::string suggestion = "") {
    if (reading_.problems.size() > most_problems) { ++dropped_; return; }
    reading_.problems.push_back({line, std::string(key), one_line(value, longest_shown), std::move(why), std::move(suggestion)});
  }

  void row(const std::vector<std::string_view>& cells, int line) {
    ++rows_;
    const auto beyond = std::find_if(cells.begin() + static_cast<std::ptrdiff_t>(std::min(header_->columns, cells.size())), cells.end(), [](std::string_view c) { return !c.empty(); });
    if (beyond != cells.end())
      return complain(line, "", *beyond, header_->separator == ',' ? "has more cells than the first line names: decimals have a point where commas part the cells, and notes with commas go in quotes"
                                                                   : "has more cells than the first line names; notes that hold the sign between cells go in quotes");
    const std::string_view written = cell(*header_, cells, Column::date);
    const auto moment = read_moment(written);
    if (!moment) return complain(line, "date", written, no_date(written, header_->hourly() ? "2021-07-31T14:00" : "2021-07-31"));
    const DayNumber day = sys_days(moment->date).time_since_epoch().count();
    const std::int64_t minute = std::int64_t{1440} * day + (header_->hourly() ? moment->minute : 0);
    if (const auto [first, fresh] = seen_.emplace(minute, line); !fresh)
      return complain(line, "date", written, fmt::format("is there twice, first in line {}{}", first->second,
                                                            header_->hourly() ? "; where clocks are set back in autumn, keep winter time all year, or leave one of the two hours out" : ""));
    header_->hourly() ? reading_row(cells, line, day, moment->minute) : daily_row(cells, line, day);
  }

  /// A temperature that can be air's, NaN where none is stated; complains and gives nothing otherwise.
  std::optional<double> temperature(const std::vector<std::string_view>& cells, int line, Column column) {
    const auto value = read_cell(*header_, cells, column);
    if (!value) complain(line, name_of(column), cell(*header_, cells, column), no_number());
    else if (*value < coldest || *value > hottest)
      complain(line, name_of(column), cell(*header_, cells, column), fmt::format("is {:.4g} degC; air lies between {} and {}", *value, coldest, hottest));
    else return value;
    return std::nullopt;
  }

  [[nodiscard]] std::string no_number() const {
    return header_->separator == ',' ? "is not a number (decimals have a point where commas part the cells; leave a missing value empty)"
                                     : "is not a number (leave a missing value empty)";
  }

  /// NaN where none is stated, nothing where it is wrong.
  std::optional<double> dew(const std::vector<std::string_view>& cells, int line, double celsius) {
    if (header_->has(Column::dew_point)) return temperature(cells, line, Column::dew_point);
    if (!header_->has(Column::humidity)) return none;
    const auto share = read_cell(*header_, cells, Column::humidity);
    if (share && std::isnan(*share)) return none;
    if (share) dampest_ = std::max(dampest_, *share);
    if (share && *share >= 0.0 && *share <= 1.05) return std::max(coldest, dew_point_of(celsius, std::min(1.0, *share)));
    complain(line, "humidity", cell(*header_, cells, Column::humidity), "is not a relative humidity of 0 to 100 %");
    return std::nullopt;
  }

  /// Saturated air is at its dew point; none lies above.
  bool can_hold(const std::vector<std::string_view>& cells, int line, double dew_point, double celsius, Column warmest) {
    if (!header_->has(Column::dew_point) || !(dew_point > celsius + rounding)) return true;
    complain(line, "dew point", cell(*header_, cells, Column::dew_point),
             fmt::format("lies above the {}, {}: no air holds so much water; is it another column, or another unit?", name_of(warmest), cell(*header_, cells, warmest)));
    return false;
  }

  void daily_row(const std::vector<std::string_view>& cells, int line, DayNumber day) {
    const auto high = temperature(cells, line, Column::maximum), low = temperature(cells, line, Column::minimum);
    if (!high || !low || std::isnan(*high) || std::isnan(*low)) return;
    if (*low > *high) return complain(line, "minimum", cell(*header_, cells, Column::minimum), fmt::format("lies above the maximum, {}", cell(*header_, cells, Column::maximum)));
    const auto moisture = dew(cells, line, 0.5 * (*high + *low));
    if (!moisture || !can_hold(cells, line, *moisture, *high, Column::maximum)) return;
    GatheredDay& gathered = days_[day];
    gathered.line = line;
    gathered.add(*high, *moisture);
    gathered.add(*low, none);
  }

  void reading_row(const std::vector<std::string_view>& cells, int line, DayNumber day, int minute) {
    const auto celsius = temperature(cells, line, Column::temperature);
    if (!celsius || std::isnan(*celsius)) return;
    const auto moisture = dew(cells, line, *celsius);
    if (!moisture || !can_hold(cells, line, *moisture, *celsius, Column::temperature)) return;
    GatheredDay& gathered = days_[day];
    gathered.line = line;
    gathered.add(*celsius, *moisture);
    gathered.minutes.push_back(minute);
  }

  /// Numbers that say 0.6 where 60 % is meant: air as dry as 1 % on each day there is nowhere.
  [[nodiscard]] bool shares_for_percent() const {
    constexpr double one_percent = 0.01;
    return header_->has(Column::humidity) && !header_->has(Column::dew_point) && header_->factor[static_cast<std::size_t>(Column::humidity)] < 0.5 && dampest_ > 0.0 &&
           dampest_ <= one_percent * (1.0 + 1e-9);
  }

  [[nodiscard]] std::string no_day() const {
    if (rows_ == 0) return "there is no line below the first";
    return header_->hourly() ? "no line has a temperature" : "no line has both a maximum and a minimum";
  }

  void build() {
    if (shares_for_percent())
      return complain(header_line_, "humidity", "", "is 1 % or less on every line: if these are shares, such as 0.6, the first line must say so: humidity [1]");
    std::string why = days_.empty() ? no_day() : header_->hourly() ? drop_silent(days_) : "";
    if (!why.empty()) return complain(0, "date", "", "no day has its weather: " + why);
    // Hours of the first and the last day of a log are seldom all there, and are not missed; days on which the sensor was stuck are.
    const DayNumber begins = days_.begin()->first, ends = days_.rbegin()->first;
    const std::vector<Stretch> stuck = drop_stuck(days_);
    if (days_.empty()) return complain(0, "date", "", "no day has its weather: the highest of each is its lowest, as of a mean, or of a sensor that is stuck");
    const int first = static_cast<int>(date_of(days_.begin()->first).year()), last = static_cast<int>(date_of(days_.rbegin()->first).year());
    const int years = last - first + 1;
    if (years > climate::longest_record)
      return complain(0, "date", "", fmt::format("{} to {} are more than the {} years that are kept", first, last, climate::longest_record));
    climate::Record record{first, std::vector<float>(static_cast<std::size_t>(years) * 365, static_cast<float>(none)), {}, {}};
    record.minimum = record.maximum;
    if (header_->has(Column::dew_point) || header_->has(Column::humidity)) record.dew_point = record.maximum;
    DayNumber before = begins - 1;
    for (const auto& [day, gathered] : days_) {
      gap(before, day, gathered.line, stuck);
      before = day;
      place(record, date_of(day), gathered);
    }
    if (before < ends) gap(before, ends + 1, stuck.back().line, stuck);
    reading_.days = static_cast<int>(days_.size());
    reading_.record = std::move(record);
  }

  void gap(DayNumber before, DayNumber day, int line, const std::vector<Stretch>& stuck) {
    const auto missing = static_cast<int>(day - before - 1);
    if (missing <= 0) return;
    reading_.missing_days += missing;
    if (reading_.gaps.size() >= most_gaps) return;
    int still = 0;
    for (const Stretch& stretch : stuck)
      if (stretch.first > before && stretch.first < day) still += stretch.days;
    std::string why = fmt::format("{} day{} missing from here on", missing, missing == 1 ? " is" : "s are");
    if (still > 0) why += fmt::format("{}: the temperature never moved, as of a sensor that is stuck", still == missing ? "" : fmt::format(", {} of them left out here", still));
    const auto from = date_of(before + 1);
    reading_.gaps.push_back({line, "date", fmt::format("{}-{:02}-{:02}", static_cast<int>(from.year()), static_cast<unsigned>(from.month()), static_cast<unsigned>(from.day())),
                             std::move(why), ""});
  }

  static void place(climate::Record& record, std::chrono::year_month_day date, const GatheredDay& gathered) {
    const bool leap_day = date.month() == std::chrono::February && date.day() == std::chrono::day(29);
    if (leap_day) return;  // the program's year has 365 days
    auto of_year = static_cast<std::size_t>((sys_days(date) - sys_days(date.year() / 1 / 1)).count());
    if (date.year().is_leap() && date.month() > std::chrono::February) --of_year;
    const std::size_t at = 365 * static_cast<std::size_t>(static_cast<int>(date.year()) - record.first_year) + of_year;
    record.maximum[at] = climate::rounded_to_step(gathered.maximum);
    record.minimum[at] = climate::rounded_to_step(gathered.minimum);
    if (gathered.dew_count > 0) record.dew_point[at] = climate::rounded_to_step(gathered.dew_sum / gathered.dew_count);
  }

  WeatherReading& reading_;
  std::optional<Header> header_;
  bool usable_ = false;
  int header_line_ = 0, rows_ = 0;
  double dampest_ = 0.0;  ///< humidity of any line [1]
  std::size_t dropped_ = 0;
  Days days_;
  std::map<std::int64_t, int> seen_;  ///< minute since 1970 to the line that stated it
};

WeatherReading refused(const std::string& path, std::string why) {
  WeatherReading reading;
  reading.problems.push_back({0, path, "", std::move(why), ""});
  return reading;
}

}  // namespace

std::string content_hash(std::string_view bytes) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return fmt::format("{:016x}", hash);
}

WeatherReading read_weather(std::string_view text) {
  WeatherReading reading;
  reading.hash = content_hash(text);
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  Gatherer gatherer(reading);
  int number = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string_view line = text.substr(at, end - at);
    at = end + 1;
    ++number;
    const auto first = line.find_first_not_of(" \t\r");
    if (first != std::string_view::npos && line[first] != '#') gatherer.take(line, number);
  }
  gatherer.finish();
  return reading;
}

WeatherReading read_weather_file(const std::string& path) {
  const auto text = whole_file(path, largest_file, FileKind::regular);
  if (const auto* fault = std::get_if<FileFault>(&text)) return refused(path, fault->why);
  return read_weather(std::get<std::string>(text));
}

}  // namespace rackwright
