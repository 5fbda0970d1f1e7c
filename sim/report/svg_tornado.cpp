// How far an answer moves when one thing at a time is turned down and up: bars to both sides of where it stands.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/report/svg_canvas.hpp"
#include "sim/report/svg_charts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report::svg {
namespace {

constexpr double width = 640, left_edge = 24, right_edge = 616, row = 58, thickness = 11, head = 34;

/// A bar from where the answer stands to where the change takes it.
void bar(Canvas& c, const Scale& x, double y, double to, std::string_view css_class, const std::string& tip) {
  const double from = x.at(0.0), end = x.at(to);
  c.rect(std::min(from, end), y, std::max(1.0, std::abs(end - from)), thickness, css_class, tip);
}

}  // namespace

std::string tornado(const Tornado& data) {
  EXPECTS(!data.rows.empty());
  double low = 0.0, high = 0.0;
  for (const TornadoRow& r : data.rows) low = std::min({low, r.less, r.more}), high = std::max({high, r.less, r.more});
  const Scale x = round_scale(low, high, left_edge, right_edge, 4);
  const double bottom = head + row * static_cast<double>(data.rows.size());
  Canvas c(data.words.id, width, bottom + 66, data.words.title, data.words.description);
  c.rect(left_edge, 8, 22, thickness, "bar-plain");
  c.text({left_edge + 30, 19}, "start", data.less_name);
  c.rect(left_edge + 150, 8, 22, thickness, "bar-served");
  c.text({left_edge + 180, 19}, "start", data.more_name);
  for (const double tick : x.ticks) {
    c.line({x.at(tick), head}, {x.at(tick), bottom}, "grid");
    c.text({x.at(tick), bottom + 26}, "middle", (tick > 0.0 ? "+" : "") + plain(tick, x.decimals));
  }
  c.text({right_edge, bottom + 56}, "end", data.x_name);
  double y = head + 6;
  for (const TornadoRow& r : data.rows) {
    bar(c, x, y + 24, r.less, "bar-plain", r.less_tip);
    bar(c, x, y + 24 + thickness + 2, r.more, "bar-served", r.more_tip);
    c.text({left_edge, y + 16}, "start", r.label, "halo");
    y += row;
  }
  c.line({x.at(0.0), head}, {x.at(0.0), bottom}, "axis");
  return c.finish();
}

}  // namespace rackwright::report::svg
