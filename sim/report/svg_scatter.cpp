// Every design that was played: what it costs and how often it is good enough.

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/report/svg_canvas.hpp"
#include "sim/report/svg_charts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report::svg {
namespace {

constexpr double width = 640, height = 400, left_edge = 84, right_edge = 616, top_edge = 48, bottom_edge = 322;

void frame(Canvas& c, const Scatter& data, const Scale& x, const Scale& y) {
  for (int tick = 0; tick <= 4; ++tick) {
    const double share = data.y_low + (data.y_high - data.y_low) * tick / 4.0, at = y.at(share);
    c.line({left_edge, at}, {right_edge, at}, "grid");
    c.text({left_edge - 8, at + 5}, "end", fmt::format("{} %", plain(100.0 * share, data.y_high - data.y_low > 0.3 ? 0 : 1)));
  }
  for (const double tick : x.ticks) {
    c.line({x.at(tick), bottom_edge}, {x.at(tick), bottom_edge + 6}, "axis");
    c.text({x.at(tick), bottom_edge + 28}, "middle", plain(tick, x.decimals));
  }
  c.line({left_edge, bottom_edge}, {right_edge, bottom_edge}, "axis");
  c.text({right_edge, bottom_edge + 62}, "end", data.x_name);
  c.text({2, 22}, "start", data.y_name);
}

}  // namespace

std::string scatter(const Scatter& data) {
  EXPECTS(!data.dots.empty());
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Dot& dot : data.dots) low = std::min(low, dot.x), high = std::max(high, dot.x);
  const Scale x = round_scale(low, high, left_edge + 10, right_edge - 10, 4);
  const Scale y{data.y_low, std::max(data.y_high, data.y_low + 1e-6), bottom_edge - 8, top_edge, {}, 0};
  Canvas c(data.words.id, width, height, data.words.title, data.words.description);
  frame(c, data, x, y);
  if (data.asked >= 0.0) c.line({left_edge, y.at(data.asked)}, {right_edge, y.at(data.asked)}, "asked");
  if (data.joined) {
    std::vector<Point> line;
    for (const Dot& dot : data.dots) line.push_back({x.at(dot.x), y.at(dot.y)});
    c.path(line, "joined");
  }
  for (const Dot& dot : data.dots) c.circle({x.at(dot.x), y.at(dot.y)}, 5, dot.css_class, dot.tip);
  if (data.chosen >= 0) {
    const Dot& dot = data.dots.at(static_cast<std::size_t>(data.chosen));
    const Point at{x.at(dot.x), y.at(dot.y)};
    const bool right_half = at.x > (left_edge + right_edge) / 2;
    c.circle(at, 11, "ring", dot.tip);
    c.circle(at, 5, "dot-served", dot.tip);
    // Below the dot, where there is room when it stands high as it should.
    c.text({at.x + (right_half ? -4 : 4), at.y + (dot.y > data.y_low + 0.2 * (data.y_high - data.y_low) ? 36 : -20)}, right_half ? "end" : "start",
           data.chosen_name, "strong");
  }
  return c.finish();
}

}  // namespace rackwright::report::svg
