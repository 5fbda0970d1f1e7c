// The year as bands: fodder and the room.

#include <fmt/format.h>

#include <algorithm>

#include "models/base/expects.hpp"
#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

/// A variable of /daily that a picture shows.
struct Shade {
  std::string_view path, name, css_class;
};

/// Longer runs show every n-th day, so that the page stays small.
struct Days {
  std::vector<std::size_t> shown{};
  std::size_t step = 1;
};

Days days_of(const Sheet& s) {
  const results::Array* day = s.file.find("daily/day");
  Days days;
  if (day == nullptr) return days;
  const std::size_t n = day->numbers.size();
  days.step = 1 + (n - (n > 0 ? 1 : 0)) / 366;
  for (std::size_t d = 0; d < n; d += days.step) days.shown.push_back(d);
  return days;
}

bool has_bands(const Sheet& s, std::string_view path) {
  const results::Array* array = s.file.find(path);
  return array != nullptr && array->shape.size() == 2 && array->shape[1] == 5 && array->shape[0] > 1;
}

svg::FanSeries series(const Sheet& s, const Shade& shade, const Days& days, const Shown& shown) {
  const auto& values = s.file.at(shade.path).numbers;
  svg::FanSeries out{std::string(shade.name), std::string(shade.css_class), {}};
  for (const std::size_t d : days.shown) {
    svg::Quantiles q{};
    for (std::size_t k = 0; k < q.size(); ++k) q[k] = shown.scale * values[5 * d + k] + shown.offset;
    out.days.push_back(q);
  }
  return out;
}

/// The picture and, folded, a line for each day it shows.
std::string picture(const Sheet& s, svg::Fan fan, const std::vector<Shade>& shades, std::string_view unit,
                    std::string caption) {
  const Days days = days_of(s);
  const Calendar calendar(s.file.header.start_date);
  const Shown shown = shown_in(unit, s.us);
  fan.unit = shown.unit == "degC" ? "°C" : shown.unit == "degF" ? "°F" : shown.unit;
  Table t{
      fan.words.title + (days.step > 1 ? fmt::format(", every {} days", days.step) : std::string()), {"day"}, {}, ""};
  for (const Shade& shade : shades) {
    fan.series.push_back(series(s, shade, days, shown));
    for (const char* q : {"1 in 20 below", "1 in 4 below", "middle", "3 in 4 below", "19 in 20 below"})
      t.heads.push_back(fmt::format("{}, {} [{}]", shade.name, q, fan.unit));
  }
  for (std::size_t i = 0; i < days.shown.size(); ++i) {
    const int day = static_cast<int>(days.shown[i]);
    fan.dates.push_back(calendar.date(day));
    // Of a long run the first of a month may not be among the days shown: the first shown after it bears the name.
    const bool turned = i > 0 && calendar.month(day) != calendar.month(static_cast<int>(days.shown[i - 1]));
    if (turned || calendar.first_of_month(day))
      fan.months.push_back({i, std::string(month_name(calendar.month(day)).substr(0, 3))});
    std::vector<std::string> line{fmt::format("{}: {}", day + 1, calendar.date(day))};
    for (const auto& one : fan.series)
      for (const double value : one.days[i]) line.push_back(plain(value, 1));
    t.lines.push_back(std::move(line));
  }
  if (days.step > 1) caption += fmt::format(" The run is long: every {} days is shown.", days.step);
  return figure(svg::fan(fan), caption, t);
}

/// What plays the design on the page, as it is typed.
std::string command(const Sheet& s) {
  std::string out = "rackwright simulate SCENARIO.toml --out YEAR.h5";
  for (const auto& [key, value] : design_settings(s.file)) {
    std::string quoted;
    const std::string setting = fmt::format("{}={}", key, value);
    for (const char c : setting) {
      if (c == '\'') quoted += "'\\''";
      else quoted += c;
    }
    out += fmt::format(" \\\n  --set '{}'", quoted);
  }
  return out + "\nrackwright report YEAR.h5 --out YEAR.html";
}

}  // namespace

std::string year_part(const Sheet& s) {
  std::string out;
  if (has_bands(s, "daily/wanted") && has_bands(s, "daily/served")) {
    svg::Fan fan;
    fan.words = {
        "fodder", "Fodder wanted and fodder served, day by day",
        "Two bands through the run, one of the fodder wanted and one of the fodder served; where served lies below "
        "wanted the animals are short. The table holds every value."};
    out += picture(
        s, fan, {{"daily/wanted", "wanted", "wanted"}, {"daily/served", "served", "served"}}, "kg",
        "Fresh fodder a day. The line is the middle value of each day, the dark band holds half of them, the light band "
        "nine in ten. Humps in what is wanted are the herd's: young at their mothers' side, groups that come and go.");
  }
  if (has_bands(s, "daily/room_mean")) {
    svg::Fan fan;
    fan.from_zero = false;
    fan.words = {"room", "Temperature of the room, day by day",
                 "Bands of the room's daily mean temperature through the run. The table holds every value."};
    std::vector<Shade> shades{{"daily/room_mean", "room", "room"}};
    if (has_bands(s, "daily/outdoor_mean")) shades.push_back({"daily/outdoor_mean", "outdoors", "outdoors"});
    out += picture(
        s, fan, shades, "degC",
        "Mean temperature of each day, in the room and outdoors. The warmer the room, the faster mats grow, mould "
        "and sour.");
  }
  if (!s.sized() || s.design < 0) return out;
  if (out.empty())
    out = paragraph("This file keeps no days. To see the design on this page through the year, play it and report that:");
  else
    out = paragraph(fmt::format("The design on this page, played {} times on the luck of the search.",
                                s.file.header.replications_completed)) +
          out + paragraph("To play it with other luck, longer or with something changed:");
  return out + "<pre tabindex=\"0\">" + escaped(command(s)) + "</pre>\n";
}

std::string stress_part(const Sheet& s) {
  return estimates_table(s, "Heat, cold, mould and breakdowns in a year",
                         {{"hottest hour in the room", "room_max", As::value},
                          {"coldest hour in the room", "room_min", As::value},
                          {"mean of the room", "room_mean", As::value},
                          {"mats lost to mould", "spoiled_mould", As::year},
                          {"mats lost to souring", "spoiled_sour", As::year},
                          {"mats killed by frost", "frost_killed", As::year},
                          {"trays not soaked or sown for frost", "frost_unsown", As::year},
                          {"hours with the room below freezing", "frozen_hours", As::year},
                          {"mats past their best, fed or composted", "overdue_trays", As::year},
                          {"mats fed unripe", "unripe_fed", As::year},
                          {"ripe mats composted, not needed", "composted_surplus", As::year},
                          {"unripe mats composted, place wanted", "composted_unripe", As::year},
                          {"spoiled mats fed unnoticed", "spoiled_fed", As::year},
                          {"electricity of the heater", "energy_heater", As::year},
                          {"electricity of the cooler", "energy_cooler", As::year},
                          {"pump failures", "pump_failures", As::year},
                          {"power cuts", "power_cuts", As::year},
                          {"clogged emitters", "clogs", As::year},
                          {"hours without water, beyond the usual gap between waterings, summed over the trays", "dry_hours", As::year},
                          {"rounds the keeper missed", "missed_rounds", As::year},
                          {"days with more work than minutes", "overloaded_days", As::year},
                          {"trays not soaked, no bucket", "unsoaked_trays", As::year},
                          {"trays not sown, no time", "untimely_trays", As::year},
                          {"trays not soaked or sown, nobody there", "unattended_trays", As::year},
                          {"trays not washed", "unwashed_trays", As::year},
                          {"times the grain ran out", "grain_run_outs", As::year},
                          {"grain thrown out for its age", "grain_aged_out", As::year},
                          {"lots of grain opened", "lots", As::year},
                          {"lots tried before they were sown", "lots_tried", As::year},
                          {"lots refused after a trial", "lots_refused", As::year}});
}

}  // namespace rackwright::report::html
