// Which assumptions matter most: each halved and doubled by itself.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/report/html_parts.hpp"
#include "sim/report/html_text.hpp"
#include "sim/report/svg_charts.hpp"

namespace rackwright::report::html {
namespace {

constexpr std::size_t most_rows = 8;

study::Estimate shift(const Sheet& s, const std::string& path, std::size_t i, double scale) {
  study::Estimate e;
  e.mean = scale * s.file.at(path).numbers[i];
  e.low = scale * s.file.at(path + "_low").numbers[i];
  e.high = scale * s.file.at(path + "_high").numbers[i];
  e.least = e.low;  // differences go below nought
  return e;
}

std::string signed_cell(const study::Estimate& e) {
  // Nothing at all changed in any year.
  if (e.low == 0.0 && e.high == 0.0) return "none";
  return (e.mean > 0.0 ? "+" : "") + with_interval(e, {});
}

const std::string& text(const Sheet& s, const std::string& path, std::size_t i) { return s.file.at(path).texts[i]; }

/// Values of one key, of several grains or groups apart by commas, in the digits of the rest of the page.
std::string values(const Sheet& s, const std::string& path, std::size_t i) {
  const std::string& all = text(s, path, i);
  std::string out;
  for (std::size_t at = 0; at < all.size();) {
    const std::size_t end = std::min(all.find(", ", at), all.size());
    out += (out.empty() ? "" : ", ") + s.readable(all.substr(at, end - at));
    at = end + 2;
  }
  return out;
}

/// The start of what a key means, short enough for a line of the picture on a phone.
std::string in_short(const std::string& meaning) {
  constexpr std::size_t most = 50;
  std::string words = meaning.substr(0, meaning.find_first_of(";.("));
  while (words.ends_with(' ')) words.pop_back();
  if (width(words) <= most) return words;
  words.resize(words.rfind(' ', most - 2));
  return words + " ...";
}

svg::TornadoRow drawn(const Sheet& s, std::size_t i) {
  svg::TornadoRow r;
  r.less = shift(s, "assumption/less_fill_rate", i, 100.0).mean;
  r.more = shift(s, "assumption/more_fill_rate", i, 100.0).mean;
  r.label = in_short(text(s, "assumption/meaning", i));
  const auto tip = [&](const char* side, double change) {
    return fmt::format("{} = {}: fodder served {}{} points", text(s, "assumption/key", i),
                       values(s, fmt::format("assumption/{}", side), i), change > 0.0 ? "+" : "", plain(change, 2));
  };
  r.less_tip = tip("less", r.less);
  r.more_tip = tip("more", r.more);
  return r;
}

std::vector<std::string> line(const Sheet& s, std::size_t i) {
  std::vector<std::string> cells{text(s, "assumption/key", i), values(s, "assumption/used", i)};
  for (const char* side : {"less", "more"}) {
    const std::string at = fmt::format("assumption/{}", side);
    cells.push_back(values(s, at, i));
    cells.push_back(signed_cell(shift(s, at + "_fill_rate", i, 100.0)));
    cells.push_back(signed_cell(shift(s, at + "_cost_year", i, 1.0)));
  }
  cells.push_back(text(s, "assumption/meaning", i));
  cells.push_back(text(s, "assumption/source", i));
  return cells;
}

}  // namespace

std::string weights_part(const Sheet& s) {
  const results::Array* keys = s.file.find("assumption/key");
  if (keys == nullptr || keys->texts.empty()) return "";
  svg::Tornado plot;
  plot.words = {"weights", "The assumptions that matter most",
                "Pairs of bars, one for half and one for twice each assumed number, showing how the share of fodder served "
                "moves; strongest first."};
  plot.x_name = "change of the fodder served [percentage points]";
  plot.less_name = "half", plot.more_name = "twice";
  const std::string money = s.file.header.currency;
  Table t{"every assumed number, half and twice",
          {"key", "used", "half", "fodder served [percentage points]", "cost a year [" + money + "]", "twice", "fodder served [percentage points]",
           "cost a year [" + money + "]", "what it is", "where its usual value comes from"},
          {},
          "lrrrrrrrll"};
  for (std::size_t i = 0; i < keys->texts.size(); ++i) {
    if (plot.rows.size() < most_rows) plot.rows.push_back(drawn(s, i));
    t.lines.push_back(line(s, i));
  }
  return figure(svg::tornado(plot),
                fmt::format("Numbers that nobody has measured for you, each put at about half and twice its value by itself (of "
                            "shares, the odds of them), on the same luck. The {} strongest of {}; the others are in the table. Measure "
                            "or log those on top first.",
                            plot.rows.size(), keys->texts.size()),
                t);
}

}  // namespace rackwright::report::html
