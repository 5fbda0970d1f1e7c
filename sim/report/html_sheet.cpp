// Numbers of a file as the page words them.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <chrono>
#include <cmath>
#include <utility>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/simulate_page.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::report {
namespace {

int candidate_at(const results::ResultFile& file, std::string_view path) {
  const double value = file.number(path).value_or(-1.0);
  return value >= 0.0 && value < static_cast<double>(file.candidates()) ? static_cast<int>(value) : -1;
}

int candidate_shown(const results::ResultFile& file) {
  const auto shown = design_shown(file);
  return shown ? static_cast<int>(*shown) : -1;
}

}  // namespace

std::vector<Setting> design_settings(const results::ResultFile& file) {
  std::vector<Setting> settings;
  if (const results::Array* best = file.find("sweep/leader_value")) {
    const auto& names = file.at("sweep/key").texts;
    for (std::size_t k = 0; k < std::min(names.size(), best->texts.size()); ++k) settings.emplace_back(names[k], best->texts[k]);
    return settings;
  }
  const int candidate = candidate_shown(file);
  const results::Array* keys = file.find("design/choice");
  if (candidate < 0 || keys == nullptr) return settings;
  const auto& values = file.at("design/value").texts;
  for (std::size_t k = 0; k < keys->texts.size(); ++k)
    settings.emplace_back(keys->texts[k], values[static_cast<std::size_t>(candidate) * keys->texts.size() + k]);
  return settings;
}

namespace html {

Sheet::Sheet(const results::ResultFile& result, const DesignFacts& design_facts)
    : file(result),
      facts(design_facts),
      scenario(result.text("scenario/resolved"), design_settings(result)),
      design(candidate_shown(result)),
      us(in_us_units(result)) {}

bool Sheet::recommended() const { return candidate_at(file, "design/chosen") >= 0; }
bool Sheet::searched() const { return in_search() > 0.0 && !told_by_replications(file); }
double Sheet::in_search() const { return sized() && design >= 0 ? file.at("design/replications").numbers[static_cast<std::size_t>(design)] : 0.0; }

std::optional<study::Estimate> Sheet::estimate(std::string_view quantity, As how) const {
  auto e = file.estimate(quantity);
  if (!e || (how != As::year && how != As::money) || file.header.horizon_days == 0) return e;
  const double f = 365.0 / static_cast<double>(file.header.horizon_days);
  return study::Estimate{e->mean * f, e->low * f, e->high * f, e->sd * f, e->least * f, e->most * f};
}

Shown Sheet::shown(std::string_view quantity, As how) const {
  if (how == As::share) return as_share();
  if (how == As::money) return {1.0, 0.0, file.header.currency};
  std::string unit = "1";
  const results::Array* names = file.find("summary/quantity");
  for (std::size_t i = 0; names != nullptr && i < names->texts.size(); ++i)
    if (names->texts[i] == quantity) unit = file.at("summary/unit").texts[i];
  Shown s = shown_in(unit, us);
  s.top = most_possible(quantity, how == As::year ? 365.0 : static_cast<double>(file.header.horizon_days));
  if (how == As::price) s.unit = file.header.currency + s.unit;
  return s;
}

Cells Sheet::cells(std::string_view quantity, As how) const {
  const auto e = estimate(quantity, how);
  return e ? report::cells(*e, shown(quantity, how)) : Cells{"not in the file", "", ""};
}

std::string Sheet::words(std::string_view quantity, As how) const {
  const Cells c = cells(quantity, how);
  return c.interval.empty() ? c.mean : c.mean + " (" + c.interval + ")";
}

namespace {

/// So many digits, and all of them before the point: never an exponent.
std::string in_digits(double value, int digits) {
  if (value == 0.0 || !std::isfinite(value)) return fmt::format("{}", value);
  const int decimals = digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(value))));
  std::string text = plain(value, std::max(0, decimals));
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  return text.ends_with('.') ? text.substr(0, text.size() - 1) : text;
}

/// The unit one measures so much in: 2.5 min, 10 h, 60 d; 0.0015 mm, 30 cm, 4 m; 20 in, 6.73 ft.
std::string_view handy(std::string_view unit, double value, bool us) {
  const double size = std::abs(value);
  if (unit == "h" && size > 0.0) return size < 2.0 ? "min" : size >= 48.0 ? "d" : "h";
  if (unit == "m" && size > 0.0) return us ? (size < 0.9144 ? "in" : "ft") : size < 0.1 ? "mm" : size < 1.0 ? "cm" : "m";
  if (us)
    if (const auto words = unit_words(unit)) return words->us;
  return unit;
}

}  // namespace

std::string Sheet::amount(double value, std::string_view unit) const {
  const auto words = unit_words(unit);
  const std::string_view to = us && words ? words->us : unit;
  return with_signs(in_digits(convert(value, unit, to), 3) + (to == "1" ? "" : " " + std::string(to.starts_with("1/") ? to.substr(1) : to)));
}

std::string Sheet::amount(std::string_view key, std::string_view unit) const {
  const auto value = scenario.number(key, unit);
  return value ? amount(*value, unit) : "";
}

std::string Sheet::length(std::string_view key) const {
  const auto metres = scenario.number(key, "m");
  if (!metres) return "";
  const char* unit = us ? (*metres < 0.9144 ? "in" : "ft") : *metres < 0.1 ? "mm" : *metres < 1.0 ? "cm" : "m";
  return fmt::format("{:.3g} {}", convert(*metres, "m", unit), unit);
}

std::string Sheet::readable(const std::string& value) const {
  double number = 0.0;
  const char* end = value.data() + value.size();
  const auto [stop, error] = std::from_chars(value.data(), end, number);
  if (error != std::errc{}) return value;
  const std::string_view unit(stop, static_cast<std::size_t>(end - stop));
  if (unit.empty()) return in_digits(number, 4);
  if (unit.front() != ' ') return value;  // a date, a clock time, a name
  std::string native(unit.substr(1));
  const bool price = native.starts_with("/") && native != "/d" && native != "/cm";
  if (native.starts_with("/")) native.insert(0, "1");
  if (!unit_words(native)) return in_digits(number, 4) + std::string(unit);
  const std::string_view to = handy(native, number, us);
  std::string shown(to.starts_with("1/") ? to.substr(1) : to);
  if (price) shown.insert(0, file.header.currency);
  return with_signs(in_digits(convert(number, native, to), 4) + " " + shown);
}

const DesignSection* Sheet::section(std::string_view key) const {
  for (const DesignSection& s : facts.sections)
    if (s.key == key) return &s;
  return nullptr;
}

std::string Sheet::fact(std::string_view section_key, std::string_view key) const {
  if (const DesignSection* s = section(section_key))
    for (const DesignFact& f : s->facts)
      if (f.key == key) return with_signs(f.value);
  return "";
}

std::string with_signs(std::string text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 10> signs{
      {{" degC", " °C"}, {" degF", " °F"}, {"[degC]", "[°C]"}, {"[degF]", "[°F]"}, {" m2", " m²"}, {"/m2", "/m²"}, {"[m2", "[m²"}, {" ft2", " ft²"}, {"/ft2", "/ft²"}, {"[ft2", "[ft²"}}};
  const auto in_a_name = [&](std::size_t at) { return at < text.size() && (std::isalnum(static_cast<unsigned char>(text[at])) != 0 || text[at] == '_'); };
  for (const auto& [plain_text, sign] : signs)
    for (auto at = text.find(plain_text); at != std::string::npos; at = text.find(plain_text, at + 1))
      if (!in_a_name(at + plain_text.size())) text.replace(at, plain_text.size(), sign);
  return text;
}

Calendar::Calendar(const std::string& text) {
  int y = 1970, m = 1, d = 1;
  if (text.size() == 10 && text.find_first_not_of("0123456789-") == std::string::npos && text[4] == '-' &&
      text[7] == '-') {
    const auto digits = [&](std::size_t at, std::size_t n) {
      int value = 0;
      for (std::size_t i = at; i < at + n; ++i) value = 10 * value + (text[i] == '-' ? 0 : text[i] - '0');
      return value;
    };
    y = digits(0, 4), m = digits(5, 2), d = digits(8, 2);
  }
  const std::chrono::year_month_day date{std::chrono::year(y), std::chrono::month(static_cast<unsigned>(m)),
                                         std::chrono::day(static_cast<unsigned>(d))};
  if (date.ok()) start = static_cast<int>(std::chrono::sys_days(date).time_since_epoch().count());
}

namespace {
std::chrono::year_month_day on(int days) { return {std::chrono::sys_days(std::chrono::days(days))}; }
}  // namespace

int Calendar::month(int day) const { return static_cast<int>(static_cast<unsigned>(on(start + day).month())); }
bool Calendar::first_of_month(int day) const { return static_cast<unsigned>(on(start + day).day()) == 1; }
std::string Calendar::date(int day) const {
  return fmt::format("{} {}", static_cast<unsigned>(on(start + day).day()), month_name(month(day)));
}

std::string_view month_name(int month) {
  static constexpr std::array<std::string_view, 13> names{"",        "January",  "February", "March",  "April",
                                                          "May",     "June",     "July",     "August", "September",
                                                          "October", "November", "December"};
  return names.at(static_cast<std::size_t>(month));
}

std::string estimates_table(const Sheet& sheet, std::string_view caption, const std::vector<Line>& lines) {
  const std::string runs = range_words(sheet.file);
  const bool yearly = std::any_of(lines.begin(), lines.end(), [](const Line& line) { return line.how == As::year || line.how == As::money; });
  const std::string range = runs.empty() ? "least to most of single runs" : fmt::format("least to most of single runs {}{}", runs, yearly ? ", a year" : "");
  Table t{std::string(caption), {"what", "mean", "95 % interval of the mean", range}, {}, ""};
  std::vector<std::string_view> told;
  for (const Line& line : lines) {
    if (!sheet.file.estimate(line.quantity)) continue;
    told.push_back(line.quantity);
    const Cells c = sheet.cells(line.quantity, line.how);
    t.lines.push_back({std::string(line.label), with_signs(c.mean), c.interval, c.range});
  }
  if (t.lines.empty()) return "";
  const std::string same = unvaried_words(sheet.file, told);
  return table(t) + (same.empty() ? "" : paragraph(same));
}

std::string facts_table(const Sheet& sheet, std::string_view key) {
  const DesignSection* s = sheet.section(key);
  if (s == nullptr || s->facts.empty()) return "";
  Table t{s->title, {"what", "how much", "remark"}, {}, "lrl"};
  for (const DesignFact& f : s->facts) t.lines.push_back({f.label, with_signs(f.value), with_signs(f.remark)});
  return table(t);
}

}  // namespace html
}  // namespace rackwright::report
