#include "sim/report/words.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"

namespace rackwright::report {
namespace {

constexpr std::size_t line_width = 96;

/// The scenario's spelling of a unit that the file spells for UDUNITS.
std::string_view spelling(std::string_view unit) {
  if (unit == "kW h") return "kWh";
  if (unit == "kg-1") return "1/kg";
  if (unit == "L kg-1") return "L/kg";
  return unit;
}

}  // namespace

std::string plain(double value, int decimals) {
  if (decimals < 0) {
    const double step = std::pow(10.0, -decimals);
    value = std::round(value / step) * step;
  }
  std::string text = fmt::format("{:.{}f}", value, std::max(0, decimals));
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

int decimals_for(double half_width, double value) {
  const bool has_width = std::isfinite(half_width) && half_width > 1e-4 * std::abs(value);
  if (!has_width && value == std::round(value)) return 0;  // a count of one replication
  const double size = has_width ? half_width : std::abs(value) / 100.0;
  if (!(size > 0.0) || !std::isfinite(size)) return 0;
  const auto power = static_cast<int>(std::floor(std::log10(size)));
  // A second digit of the width says something only behind a small first one: 0.14, but 0.3.
  const int for_width = !has_width ? -power : (size < 2.95 * std::pow(10.0, power) ? 1 : 0) - power;
  // Beyond three digits of the value itself nobody reads on; of a thousand and more a fourth, of a year's money or mats.
  if (value == 0.0) return std::clamp(for_width, 0, 4);
  const int before = static_cast<int>(std::floor(std::log10(std::abs(value))));
  return std::clamp(std::min(for_width, (before < 3 ? 2 : 3) - before), std::min(0, 3 - before), 4);
}

std::string whole_percent(double share) {
  constexpr double nearly = 0.995;
  if (share < 1.0 && share >= nearly) return "more than 99 %";
  if (share > 0.0 && share < 1.0 - nearly) return "less than 1 %";
  return plain(100.0 * share, 0) + " %";
}

Shown days_a_year() { return {1.0, 0.0, "", 365.0}; }

Shown as_share() { return {100.0, 0.0, "%", 1.0}; }

double most_possible(std::string_view quantity, double days) {
  constexpr std::string_view shares[] = {"fill_rate", "served/wanted", "success"};
  constexpr std::string_view counted[] = {"short_days", "longest_short_run", "unmoved_days", "overloaded_days"};
  if (std::find(std::begin(shares), std::end(shares), quantity) != std::end(shares)) return 1.0;
  if (std::find(std::begin(counted), std::end(counted), quantity) != std::end(counted)) return days;
  return quantity == "short_days_year" ? 365.0 : std::numeric_limits<double>::infinity();
}

Shown shown_in(std::string_view unit, bool us) {
  const std::string_view native = spelling(unit);
  if (native == "1") return {};
  std::string_view to = native;
  if (const auto words = unit_words(native); us && words) to = words->us;
  if (us && native == "L/kg") to = "gal/lb";
  Shown shown;
  shown.unit = to.starts_with("1/") ? to.substr(1) : to;
  if (to == native) return shown;
  shown.offset = convert(0.0, native, to);
  shown.scale = convert(1.0, native, to) - shown.offset;
  return shown;
}

Cells cells(const study::Estimate& e, const Shown& shown) {
  const auto show = [&](double value) { return shown.scale * value + shown.offset; };
  const auto span = [&](double from, double to, int decimals) {
    return plain(show(from), decimals) + " to " + plain(show(to), decimals);
  };
  const double scale = std::abs(shown.scale);
  const int decimals = decimals_for(scale * (e.high - e.low) / 2.0, show(e.mean));
  const int range_decimals = std::min(decimals, decimals_for(scale * (e.most - e.least) / 2.0, show(e.mean)));
  Cells c{plain(show(e.mean), decimals), "", ""};
  if (!shown.unit.empty()) c.mean += " " + shown.unit;
  // Of one replication no interval can be told; one narrower than the digits shown says nothing.
  const auto tells = [&](double from, double to, int digits) {
    return std::isfinite(from) && std::isfinite(to) && plain(show(from), digits) != plain(show(to), digits);
  };
  // What is never below nought has no interval that is.
  const double low = e.least >= 0.0 ? std::max(0.0, e.low) : e.low;
  const double high = std::min(e.high, std::max(shown.top, e.mean));  // nor what has a top one above it
  if (std::isfinite(e.low) && tells(low, high, decimals)) c.interval = span(low, high, decimals);
  if (tells(e.least, e.most, range_decimals)) c.range = span(e.least, e.most, range_decimals);
  return c;
}

std::string with_interval(const study::Estimate& estimate, const Shown& shown) {
  const Cells c = cells(estimate, shown);
  return c.interval.empty() ? c.mean : c.mean + " (" + c.interval + ")";
}

std::size_t width(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string left(std::string_view text, std::size_t columns) {
  return std::string(text) + std::string(columns > width(text) ? columns - width(text) : 0, ' ');
}

std::string right(std::string_view text, std::size_t columns) {
  return std::string(columns > width(text) ? columns - width(text) : 0, ' ') + std::string(text);
}

std::string wrapped(std::string_view paragraph, int indent, int hang) {
  std::string start(static_cast<std::size_t>(indent), ' ');
  std::string out, line;
  const auto end_line = [&] {
    if (line.empty()) return;
    out += start + line + "\n";
    line.clear();
    start.assign(static_cast<std::size_t>(indent) + static_cast<std::size_t>(hang), ' ');
  };
  for (std::size_t at = 0; at < paragraph.size();) {
    std::size_t end = std::min(paragraph.find_first_of(" \n", at), paragraph.size());
    if (paragraph.substr(end).starts_with(" %"))
      end = std::min(paragraph.find_first_of(" \n", end + 1), paragraph.size());
    // A command is not broken: it is to run as it stands.
    if (paragraph.substr(at).starts_with("`rackwright ")) end = std::min(paragraph.find_first_of(" \n", std::min(paragraph.find('`', at + 1), paragraph.size())), paragraph.size());
    const std::string_view word = paragraph.substr(at, end - at);
    if (!line.empty() && !word.empty() && start.size() + width(line) + 1 + width(word) > line_width) end_line();
    if (!word.empty()) line += (line.empty() ? "" : " ") + std::string(word);
    at = end + 1;
  }
  end_line();
  return out;
}

}  // namespace rackwright::report
