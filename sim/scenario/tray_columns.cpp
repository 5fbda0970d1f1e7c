#include "sim/scenario/tray_columns.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "sim/scenario/csv_records.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::trays {
namespace {

/// What a column holds; texts have no native unit.
struct About {
  std::string_view name, native, metric, us;  ///< `metric` and `us`: of bare numbers, where a keeper has said which
  bool bare = false;                          ///< a number without any unit is taken in the native one
  double least = 0.0, most = 0.0;             ///< native
};
constexpr std::array<About, column_count> about{{
    {"date sown", "", "", ""},
    {"lot", "", "", ""},
    {"species", "", "", ""},
    {"germination", "%", "%", "%", false, 2.0, 100.0},
    {"dry grain", "kg", "kg", "lb", false, 0.005, 200.0},
    {"soak", "h", "h", "h", true, 0.0, 120.0},
    {"tray area", "m2", "m2", "ft2", false, 0.002, 20.0},
    {"room max", "degC", "degC", "degF", false, -40.0, 70.0},
    {"room min", "degC", "degC", "degF", false, -40.0, 70.0},
    {"days on rack", "d", "d", "d", true, 0.0, 60.0},
    {"fresh weight", "kg", "kg", "lb", false, 0.0, 2000.0},
    {"height", "cm", "cm", "inch", false, 0.0, 150.0},
    {"spoiled", "", "", ""},
    {"notes", "", "", ""},
}};

struct Name { std::string_view written; Column column; };
constexpr std::array names{
    Name{"datesown", Column::sown},      Name{"sown", Column::sown},          Name{"date", Column::sown},
    Name{"sowingdate", Column::sown},    Name{"sowdate", Column::sown},       Name{"lot", Column::lot},
    Name{"species", Column::species},    Name{"germination", Column::germination}, Name{"germinates", Column::germination},
    Name{"drygrain", Column::grain},     Name{"grain", Column::grain},
    Name{"graindry", Column::grain},     Name{"grainweight", Column::grain},  Name{"soak", Column::soak},
    Name{"soaked", Column::soak},        Name{"soakhours", Column::soak},     Name{"soaktime", Column::soak},
    Name{"trayarea", Column::area},      Name{"area", Column::area},          Name{"roommax", Column::room_max},
    Name{"maximum", Column::room_max},   Name{"max", Column::room_max},       Name{"tmax", Column::room_max},
    Name{"roommaximum", Column::room_max}, Name{"roommin", Column::room_min}, Name{"minimum", Column::room_min},
    Name{"min", Column::room_min},       Name{"tmin", Column::room_min},      Name{"roomminimum", Column::room_min},
    Name{"days", Column::days},          Name{"daysonrack", Column::days},    Name{"freshweight", Column::fresh},
    Name{"fresh", Column::fresh},        Name{"weight", Column::fresh},       Name{"matweight", Column::fresh},
    Name{"height", Column::height},      Name{"spoiled", Column::spoiled},    Name{"spoilt", Column::spoiled},
    Name{"notes", Column::notes},        Name{"note", Column::notes},         Name{"remarks", Column::notes},
};

const About& of(Column column) { return about[static_cast<std::size_t>(column)]; }
bool is_number(Column column) { return !of(column).native.empty(); }

std::optional<std::string> set_unit(Header& header, Column column, std::string_view unit) {
  const auto at = static_cast<std::size_t>(column);
  const auto zero = read_quantity(fmt::format("0 {}", unit), of(column).native), one = read_quantity(fmt::format("1 {}", unit), of(column).native);
  if (const UnitFault* fault = std::get_if<UnitFault>(&one)) return one_line(fault->why, 200);
  if (const UnitFault* fault = std::get_if<UnitFault>(&zero)) return one_line(fault->why, 200);
  header.offset[at] = std::get<double>(zero);
  header.factor[at] = std::get<double>(one) - std::get<double>(zero);
  header.has_unit[at] = true;
  return std::nullopt;
}

void read_name(Header& header, std::size_t place, std::string_view written, int line, std::optional<Units> units, Problems& problems) {
  const auto bracket = written.find_first_of("[(");
  const std::string name = plain_heading(trimmed_cell(written.substr(0, bracket)));
  const auto known = std::find_if(names.begin(), names.end(), [&](const Name& n) { return n.written == name; });
  if (known == names.end()) {
    if (!name.empty()) header.set_aside.push_back(one_line(written, longest_shown));
    return;
  }
  const Column column = known->column;
  const auto complain = [&](std::string why) {
    problems.push_back({line, std::string(name_of(column)), one_line(written, longest_shown), std::move(why), ""});
  };
  std::optional<std::size_t>& at = header.place[static_cast<std::size_t>(column)];
  if (at) return complain("is there twice");
  at = place;
  if (!is_number(column)) return;
  std::string_view unit;
  if (bracket != std::string_view::npos) unit = trimmed_cell(written.substr(bracket + 1, written.find_first_of("])", bracket + 1) - bracket - 1));
  if (unit.empty() && units) unit = *units == Units::us ? of(column).us : of(column).metric;
  if (unit.empty() && of(column).bare) unit = of(column).native;
  if (unit.empty()) return;  // its cells must bring their own
  if (const auto why = set_unit(header, column, unit)) complain(*why);
}

}  // namespace

std::string_view name_of(Column column) { return of(column).name; }

Header read_header(const std::vector<std::string>& cells, int line, std::optional<Units> units, Problems& problems) {
  Header header;
  for (std::size_t i = 0; i < cells.size(); ++i) read_name(header, i, cells[i], line, units, problems);
  const auto missing = [&](Column column, std::string_view why) {
    problems.push_back({line, std::string(name_of(column)), "", std::string(why), "date sown, dry grain [kg], room max [degC], room min [degC], days, fresh weight [kg], spoiled"});
  };
  if (!header.has(Column::sown)) missing(Column::sown, "no column of dates is named in the first line");
  if (header.has(Column::room_max) != header.has(Column::room_min))
    missing(header.has(Column::room_max) ? Column::room_min : Column::room_max, "the room's maximum and minimum come together");
  return header;
}

std::string_view cell(const Header& header, const std::vector<std::string>& cells, Column column) {
  const auto place = header.place[static_cast<std::size_t>(column)];
  if (!place || *place >= cells.size()) return {};
  const std::string_view text = cells[*place];
  return text == "NA" || text == "na" || text == "-" || text == "?" ? std::string_view() : text;
}

std::variant<std::optional<double>, Wrong> read_number(const Header& header, const std::vector<std::string>& cells, Column column,
                                                       bool decimal_comma) {
  const std::string_view text = cell(header, cells, column);
  if (text.empty()) return std::optional<double>();
  const auto at = static_cast<std::size_t>(column);
  const About& what = of(column);
  double value = 0.0;
  if (const auto number = plain_number(text, decimal_comma)) {
    if (!header.has_unit[at])
      return Wrong{fmt::format("has no unit; write it in the first line, as in \"{} [{}]\", or say --units", what.name, what.metric), ""};
    value = header.offset[at] + header.factor[at] * *number;
  } else {
    const auto read = read_quantity(text, what.native);
    if (const UnitFault* fault = std::get_if<UnitFault>(&read)) return Wrong{one_line(fault->why, 200), ""};
    value = std::get<double>(read);
  }
  if (value >= what.least && value <= what.most) return std::optional<double>(value);
  return Wrong{fmt::format("is {:.4g} {}; it must lie between {:.4g} and {:.4g}", value, what.native, what.least, what.most), ""};
}

}  // namespace rackwright::trays
