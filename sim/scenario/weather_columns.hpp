#pragma once
// The columns of a weather file: which is which, in what unit, and how a cell is read.

#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/scenario/problem.hpp"

namespace rackwright::weather {

enum class Column { date, maximum, minimum, temperature, dew_point, humidity };
inline constexpr std::size_t column_count = 6;
std::string_view name_of(Column column);

/// Bytes of a piece of a file that a message shows.
inline constexpr std::size_t longest_shown = 40;

/// Cells of a line, trimmed, quotes taken off; a quote that does not close takes the rest of the line.
std::vector<std::string_view> cells_of(std::string_view line, char separator);

/// A header: where each column stands and how its numbers become degC (humidity: a share).
struct Header {
  char separator = ',';
  std::size_t columns = 0;  ///< that the line names
  std::array<std::optional<std::size_t>, column_count> place{};
  std::array<double, column_count> factor{}, offset{};

  [[nodiscard]] bool has(Column column) const { return place[static_cast<std::size_t>(column)].has_value(); }
  [[nodiscard]] bool hourly() const { return has(Column::temperature) && !has(Column::maximum); }
};
/// Complaints go to `problems`; then the header is not to be used.
Header read_header(std::string_view line, int line_number, Problems& problems);

/// The cell of a column as written; empty where the line is short.
std::string_view cell(const Header& header, const std::vector<std::string_view>& cells, Column column);

/// A cell's value in degC or as a share: a number, NaN where it is empty or says NA, nothing where it cannot be read. Where no comma
/// parts the cells, one may stand for the decimal point.
std::optional<double> read_cell(const Header& header, const std::vector<std::string_view>& cells, Column column);

/// Day and minute of the day; the minute is 0 where only a date is written.
struct Moment {
  std::chrono::year_month_day date{};
  int minute = 0;
};
std::optional<Moment> read_moment(std::string_view text);

/// Why read_moment refuses a text. Shown is how the date would be written, where it is one in another form: of "01.01.2023", "1/1/2023"
/// or "2023-1-1", whatever stands behind, 2023-01-01; where the year comes last the day comes first, but for a second part beyond 12.
std::string no_date(std::string_view written, std::string_view example);

}  // namespace rackwright::weather
