// Bands through the year.

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/report/svg_canvas.hpp"
#include "sim/report/svg_charts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report::svg {
namespace {

constexpr double width = 640, height = 340, left_edge = 62, right_edge = 628, top_edge = 48, bottom_edge = 300;

std::vector<Point> band(const std::vector<Quantiles>& days, std::size_t low, std::size_t high, const Scale& x,
                        const Scale& y) {
  std::vector<Point> outline;
  for (std::size_t d = 0; d < days.size(); ++d) outline.push_back({x.at(static_cast<double>(d)), y.at(days[d][high])});
  for (std::size_t d = days.size(); d-- > 0;) outline.push_back({x.at(static_cast<double>(d)), y.at(days[d][low])});
  return outline;
}

std::vector<Point> middle(const std::vector<Quantiles>& days, const Scale& x, const Scale& y) {
  std::vector<Point> points;
  for (std::size_t d = 0; d < days.size(); ++d) points.push_back({x.at(static_cast<double>(d)), y.at(days[d][2])});
  return points;
}

void frame(Canvas& c, const Fan& data, const Scale& x, const Scale& y) {
  for (const double tick : y.ticks) {
    c.line({left_edge, y.at(tick)}, {right_edge, y.at(tick)}, "grid");
    c.text({left_edge - 8, y.at(tick) + 5}, "end", plain(tick, y.decimals));
  }
  c.text({8, 24}, "start", data.unit, "small");
  // With more than a year of months every name would stand on the next.
  const std::size_t every = 1 + data.months.size() / 14;
  for (std::size_t m = 0; m < data.months.size(); ++m) {
    const double at = x.at(static_cast<double>(data.months[m].day));
    c.line({at, bottom_edge}, {at, bottom_edge + 6}, "axis");
    if (m % every == 0) c.text({at + 3, bottom_edge + 26}, "start", data.months[m].name, "month");
  }
  c.line({left_edge, bottom_edge}, {right_edge, bottom_edge}, "axis");
}

void legend(Canvas& c, const Fan& data) {
  double at = left_edge;
  for (const FanSeries& s : data.series) {
    c.rect(at, 10, 26, 16, "band-" + s.css_class);
    c.line({at, 18}, {at + 26, 18}, "mid-" + s.css_class);
    c.text({at + 33, 24}, "start", s.name);
    at += 75.0 + 10.5 * static_cast<double>(report::width(s.name));
  }
}

/// One strip a week that nobody sees but the pointer.
void tips(Canvas& c, const Fan& data, const Scale& x) {
  const std::size_t days = data.series.front().days.size(), step = std::max<std::size_t>(7, days / 53);
  for (std::size_t d = 0; d < days; d += step) {
    std::string tip = d < data.dates.size() ? data.dates[d] : "";
    for (const FanSeries& s : data.series) {
      const Quantiles& q = s.days[d];
      tip += fmt::format("; {}: {} {} (in 9 of 10 years {} to {})", s.name, plain(q[2], 1), data.unit, plain(q[0], 1),
                         plain(q[4], 1));
    }
    const double from = x.at(static_cast<double>(d)), to = x.at(static_cast<double>(std::min(days - 1, d + step)));
    c.rect(from, top_edge, to - from, bottom_edge - top_edge, "touch", tip);
  }
}

}  // namespace

std::string fan(const Fan& data) {
  EXPECTS(!data.series.empty() && !data.series.front().days.empty());
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const FanSeries& s : data.series)
    for (const Quantiles& q : s.days) low = std::min(low, q[0]), high = std::max(high, q[4]);
  if (data.from_zero) low = std::min(0.0, low);
  const auto last = static_cast<double>(std::max<std::size_t>(2, data.series.front().days.size()) - 1);
  const Scale x{0.0, last, left_edge, right_edge, {}, 0};
  const Scale y = round_scale(low, high, bottom_edge, top_edge);
  Canvas c(data.words.id, width, height, data.words.title, data.words.description);
  frame(c, data, x, y);
  for (const FanSeries& s : data.series) {
    c.path(band(s.days, 0, 4, x, y), "outer-" + s.css_class, true);
    c.path(band(s.days, 1, 3, x, y), "band-" + s.css_class, true);
  }
  for (const FanSeries& s : data.series) c.path(middle(s.days, x, y), "mid-" + s.css_class);
  legend(c, data);
  tips(c, data, x);
  return c.finish();
}

}  // namespace rackwright::report::svg
