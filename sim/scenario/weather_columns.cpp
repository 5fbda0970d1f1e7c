#include "sim/scenario/weather_columns.hpp"

#include <algorithm>
#include <charconv>
#include <limits>
#include <stdexcept>
#include <variant>

#include <fmt/format.h>

#include "sim/scenario/csv_records.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::weather {
namespace {

struct Name { std::string_view written; Column column; };
constexpr std::array names{Name{"date", Column::date},           Name{"time", Column::date},        Name{"datetime", Column::date},
                           Name{"day", Column::date},            Name{"maximum", Column::maximum},  Name{"max", Column::maximum},
                           Name{"tmax", Column::maximum},        Name{"minimum", Column::minimum},  Name{"min", Column::minimum},
                           Name{"tmin", Column::minimum},        Name{"temperature", Column::temperature},
                           Name{"temp", Column::temperature},    Name{"dewpoint", Column::dew_point},
                           Name{"humidity", Column::humidity},   Name{"rh", Column::humidity}};

/// What the unit of a column does to its numbers, or why it will not do.
std::optional<std::string> set_unit(Header& header, Column column, std::string_view unit) {
  const auto at = static_cast<std::size_t>(column);
  const std::string_view native = column == Column::humidity ? "1" : "degC";
  if (unit.empty()) return fmt::format("has no unit; write it beside the name, as in \"{} [{}]\"", name_of(column), column == Column::humidity ? "%" : "degC");
  const auto zero = read_quantity(fmt::format("0 {}", unit), native), one = read_quantity(fmt::format("1 {}", unit), native);
  if (const UnitFault* fault = std::get_if<UnitFault>(&one)) return one_line(fault->why, 200);
  if (const UnitFault* fault = std::get_if<UnitFault>(&zero)) return one_line(fault->why, 200);
  header.offset[at] = std::get<double>(zero);
  header.factor[at] = std::get<double>(one) - std::get<double>(zero);
  return std::nullopt;
}

void read_name(Header& header, std::size_t place, std::string_view written, int line, Problems& problems) {
  const auto bracket = written.find_first_of("[(");
  const std::string name = plain_heading(trimmed_cell(written.substr(0, bracket)));
  const auto known = std::find_if(names.begin(), names.end(), [&](const Name& n) { return n.written == name; });
  if (known == names.end()) return;  // rain, wind: passed over
  const auto at = static_cast<std::size_t>(known->column);
  if (header.place[at]) {
    problems.push_back({line, std::string(name_of(known->column)), one_line(written, longest_shown), "is there twice", ""});
    return;
  }
  header.place[at] = place;
  if (known->column == Column::date) return;
  std::string_view unit;
  if (bracket != std::string_view::npos) unit = trimmed_cell(written.substr(bracket + 1, written.find_first_of("])", bracket) - bracket - 1));
  if (const auto why = set_unit(header, known->column, unit))
    problems.push_back({line, std::string(name_of(known->column)), one_line(written, longest_shown), *why, ""});
}

/// Words, with or without a unit in brackets, and nothing a secret would be made of: a farm from elsewhere may name any file of the machine.
bool is_heading(std::string_view cell) {
  const auto bracket = cell.find_first_of("[(");
  const std::string_view name = trimmed_cell(cell.substr(0, bracket)), unit = bracket == std::string_view::npos ? "" : cell.substr(bracket);
  constexpr std::size_t longest_unit = 8;  // "[degree]"
  const auto of_name = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == ' ' || c == '_' || c == '-'; };
  return !name.empty() && unit.size() <= longest_unit && std::all_of(name.begin(), name.end(), of_name);
}

void require_columns(const Header& header, const std::vector<std::string_view>& cells, std::string_view line, int line_number, Problems& problems) {
  const bool headings = cells.size() > 1 && std::all_of(cells.begin(), cells.end(), is_heading);
  const bool any = std::any_of(header.place.begin(), header.place.end(), [](const auto& place) { return place.has_value(); });
  constexpr const char* example = "date, maximum [degC], minimum [degC]";
  if (!headings && !any) {
    problems.push_back({line_number, "", "", fmt::format("is no table of weather: its first line must name columns, such as {}", example), ""});
    return;
  }
  const auto missing = [&](Column column, std::string_view why) {
    problems.push_back({line_number, std::string(name_of(column)), headings ? one_line(line, longest_shown) : "", std::string(why), example});
  };
  if (!header.has(Column::date)) missing(Column::date, "the first line names no column of dates");
  if (header.has(Column::maximum) != header.has(Column::minimum))
    missing(header.has(Column::maximum) ? Column::minimum : Column::maximum, "daily maximum and minimum come together: the first line names only one of them");
  else if (!header.has(Column::maximum) && !header.has(Column::temperature))
    missing(Column::maximum, "the first line names neither the daily maximum and minimum nor an hourly temperature (for a log of trays: rackwright fit trays)");
}

}  // namespace

std::string_view name_of(Column column) {
  constexpr std::array<std::string_view, column_count> all{"date", "maximum", "minimum", "temperature", "dew point", "humidity"};
  return all.at(static_cast<std::size_t>(column));
}

std::vector<std::string_view> cells_of(std::string_view line, char separator) {
  std::vector<std::string_view> cells;
  for (std::size_t at = 0; at <= line.size();) {
    const auto start = line.find_first_not_of(" \t", at);
    if (start != std::string_view::npos && line[start] == '"') {
      const auto close = std::min(line.find('"', start + 1), line.size());
      cells.push_back(trimmed_cell(line.substr(start + 1, close - start - 1)));
      at = std::min(line.find(separator, close), line.size()) + 1;
    } else {
      const auto end = std::min(line.find(separator, at), line.size());
      cells.push_back(trimmed_cell(line.substr(at, end - at)));
      at = end + 1;
    }
  }
  return cells;
}

Header read_header(std::string_view line, int line_number, Problems& problems) {
  Header header;
  for (const char separator : {';', '\t'})
    if (line.find(separator) != std::string_view::npos && line.find(',') == std::string_view::npos) header.separator = separator;
  const auto cells = cells_of(line, header.separator);
  header.columns = cells.size();
  for (std::size_t i = 0; i < cells.size(); ++i) read_name(header, i, cells[i], line_number, problems);
  require_columns(header, cells, line, line_number, problems);
  return header;
}

std::string_view cell(const Header& header, const std::vector<std::string_view>& cells, Column column) {
  const auto place = header.place[static_cast<std::size_t>(column)];
  return place && *place < cells.size() ? cells[*place] : std::string_view();
}

std::optional<double> read_cell(const Header& header, const std::vector<std::string_view>& cells, Column column) {
  std::string_view text = cell(header, cells, column);
  if (text.empty() || text == "NA" || text == "NaN" || text == "nan" || text == "-") return std::numeric_limits<double>::quiet_NaN();
  const auto value = plain_number(text, header.separator != ',');
  if (!value) return std::nullopt;
  const auto at = static_cast<std::size_t>(column);
  return header.offset[at] + header.factor[at] * *value;
}

std::optional<Moment> read_moment(std::string_view text) {
  const auto digits = [&](std::size_t at, std::size_t count) -> int {
    if (at + count > text.size()) return -1;
    int value = 0;
    const auto [end, error] = std::from_chars(text.data() + at, text.data() + at + count, value);
    return error == std::errc() && end == text.data() + at + count && text[at] != '-' ? value : -1;
  };
  const int year = digits(0, 4), month = digits(5, 2), day = digits(8, 2);
  if (text.size() < 10 || text[4] != '-' || text[7] != '-' || year < 1800 || year > 2200 || month < 1 || day < 1) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)), std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok()) return std::nullopt;
  if (text.size() == 10) return Moment{date, 0};
  if (text.ends_with('Z')) text.remove_suffix(1);
  if (text.size() < 13) return std::nullopt;
  const int hour = digits(11, 2), minute = text.size() > 13 ? digits(14, 2) : 0;
  const bool shape = (text[10] == 'T' || text[10] == ' ') && (text.size() == 13 || (text[13] == ':' && (text.size() == 16 || (text.size() == 19 && text[16] == ':'))));
  if (text.size() == 19 && (digits(17, 2) < 0 || digits(17, 2) > 59)) return std::nullopt;
  if (!shape || hour < 0 || hour > 23 || minute < 0 || minute > 59) return std::nullopt;
  return Moment{date, 60 * hour + minute};
}

std::string no_date(std::string_view written, std::string_view example) {
  if (written.empty()) return fmt::format("is not stated; dates are written {}", example);
  std::array<int, 3> parts{};
  std::array<std::size_t, 3> figures{};
  std::size_t at = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto [end, error] = std::from_chars(written.data() + at, written.data() + written.size(), parts.at(i));
    if (error == std::errc()) figures.at(i) = static_cast<std::size_t>(end - written.data()) - at;
    at = std::min(written.find_first_of("./-", at + figures.at(i)), written.size() - 1) + 1;
  }
  const bool year_first = figures[0] == 4;
  int month = parts[1], day = year_first ? parts[2] : parts[0];
  if (!year_first && month > 12) std::swap(month, day);  // 12/31/2023
  const std::string meant = fmt::format("{:04d}-{:02d}-{:02d}", year_first ? parts[0] : parts[2], month, day);
  if ((!year_first && figures[2] != 4) || !read_moment(meant) || written.starts_with(meant)) return fmt::format("is not a date such as {}", example);
  // 6/1/2026 is the sixth of January to some and the first of June to others.
  const std::string other = fmt::format("{:04d}-{:02d}-{:02d}", parts[2], day, month);
  const bool either = !year_first && written.find('/') != std::string_view::npos && month != day && read_moment(other);
  return fmt::format("is not a date as it is read here: write {}: {}{}", year_first ? "month and day with two figures" : "the year first", meant, either ? " or " + other : "");
}

}  // namespace rackwright::weather
