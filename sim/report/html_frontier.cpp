// The curve of cost against fodder served, its knee, what a bit more money buys, and how long the rack lasts.

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

constexpr std::size_t least_points = 3;

/// Candidates on the frontier, cheapest first.
std::vector<std::size_t> on_frontier(const Sheet& s) {
  const results::Array* places = s.file.find("design/frontier");
  std::vector<std::size_t> all;
  if (places == nullptr) return all;
  for (std::size_t c = 0; c < places->numbers.size(); ++c)
    if (places->numbers[c] > 0.0) all.push_back(c);
  std::sort(all.begin(), all.end(), [&](std::size_t a, std::size_t b) { return places->numbers[a] < places->numbers[b]; });
  return all;
}

std::string settings_of(const Sheet& s, std::size_t c) {
  const results::Array* keys = s.file.find("design/choice");
  std::string words;
  for (std::size_t k = 0; keys != nullptr && k < keys->texts.size(); ++k)
    words += fmt::format("{}{} = {}", k == 0 ? "" : ", ", keys->texts[k], s.file.at("design/value").texts[c * keys->texts.size() + k]);
  return words;
}

std::string chart(const Sheet& s, const std::vector<std::size_t>& points) {
  svg::Scatter plot;
  plot.joined = true;
  plot.y_name = "fodder served";
  // Where nothing meets the target, "beyond it money buys least" would be said of a design that is short of it.
  const int knee = s.recommended() ? static_cast<int>(s.file.number("design/knee").value_or(-1.0)) : -1;
  double low = 1.0, high = 0.0;
  Table t{"designs that nothing cheaper serves better than", {"design", "cost a year [" + s.file.header.currency + "]",
          fmt::format("{} played in the search", years_or_runs(s.file)), "fodder served", "short days a year", "verdict", "settings"}, {}, "lrrrrll"};
  for (const std::size_t c : points) {
    const auto cost = s.file.design("cost_year", c), fill = s.file.design("fill_rate", c);
    low = std::min(low, fill.mean), high = std::max(high, fill.mean);
    if (static_cast<int>(c) == s.design) plot.chosen = static_cast<int>(plot.dots.size());
    plot.dots.push_back({cost.mean, fill.mean, static_cast<int>(c) == knee ? "dot-served" : "dot-plain",
                         fmt::format("design {}{}: {}; {} {} a year, {} served", c, static_cast<int>(c) == knee ? ", where it bends most" : "",
                                     settings_of(s, c), plain(cost.mean, 0), s.file.header.currency, share_with_interval(fill))});
    t.lines.push_back({fmt::format("{}", c), with_interval(cost, {}), plain(s.file.at("design/replications").numbers[c], 0), share_with_interval(fill),
                       with_interval(s.file.design("short_days", c), days_a_year()), s.file.at("design/verdict").texts[c], settings_of(s, c)});
  }
  plot.y_low = std::max(0.0, low - 0.05 * (high - low));
  plot.y_high = std::min(1.0, high + 0.05 * (high - low));
  plot.x_name = "cost a year [" + s.file.header.currency + "]";
  plot.chosen_name = s.recommended() ? "recommended" : "nearest";
  plot.words = {"frontier", "What more money buys",
                fmt::format("A curve through {} designs, cost to the right, share of the fodder served upwards.", points.size())};
  std::string caption = "Every design on this curve serves more than anything cheaper.";
  if (knee >= 0) caption += fmt::format(" The filled dot, design {}, is where it bends most: beyond it money buys least.", knee);
  return figure(svg::scatter(plot), caption, t);
}

std::string list(const Sheet& s, const char* path, const std::string& heading) {
  const results::Array* lines = s.file.find(path);
  if (lines == nullptr || lines->texts.empty()) return "";
  Table t{heading, {heading}, {}, "l"};
  for (const std::string& line : lines->texts) t.lines.push_back({line});
  return table(t);
}

}  // namespace

std::string frontier_part(const Sheet& s) {
  std::string out;
  if (const std::string promise = s.file.text("design/promise"); !promise.empty()) out += paragraph("The promise: " + promise + ".");
  out += list(s, "design/help", "what would help the nearest miss, told of years other than those it was found in");
  out += list(s, "design/buys", "what a bit more money buys");
  if (const auto points = on_frontier(s); points.size() >= least_points) out += chart(s, points);
  if (const std::string thrift = s.file.text("design/thrift"); !thrift.empty()) out += paragraph("What would be cheaper still: " + thrift + ".");
  if (const std::string runway = s.file.text("design/runway"); !runway.empty())
    out += paragraph("How long the rack lasts: " + runway + ".");
  return out;
}

}  // namespace rackwright::report::html
