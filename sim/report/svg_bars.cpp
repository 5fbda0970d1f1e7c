// Bars, and a share with its interval.

#include <fmt/format.h>

#include <algorithm>

#include "models/base/expects.hpp"
#include "sim/report/svg_canvas.hpp"
#include "sim/report/svg_charts.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report::svg {

std::string bars(const Words& words, const std::vector<Bar>& all) {
  EXPECTS(!all.empty());
  constexpr double width = 640, row = 54, thickness = 20;
  double most = 0.0;
  for (const Bar& bar : all) most = std::max(most, bar.value);
  Canvas c(words.id, width, row * static_cast<double>(all.size()) + 12, words.title, words.description);
  double y = 4;
  for (const Bar& bar : all) {
    c.text({10, y + 20}, "start", bar.label);
    c.text({width - 10, y + 20}, "end", bar.shown);
    c.rect(10, y + 28, width - 20, thickness, "track");
    const double length = most > 0.0 ? bar.value / most * (width - 20) : 0.0;
    c.rect(10, y + 28, std::max(length, bar.value > 0.0 ? 1.5 : 0.0), thickness, bar.css_class,
           bar.label + ": " + bar.shown);
    y += row;
  }
  return c.finish();
}

std::string chance(const Words& words, const Chance& share) {
  constexpr double width = 640, height = 150, left_edge = 40, right_edge = 594, base = 84;
  Canvas c(words.id, width, height, words.title, words.description);
  const Scale x{0.0, 1.0, left_edge, right_edge, {}, 0};
  for (int tick = 0; tick <= 4; ++tick) {
    const double at = x.at(tick / 4.0);
    c.line({at, base - 26}, {at, base + 26}, "grid");
    c.text({at, base + 52}, "middle", fmt::format("{} %", 25 * tick));
  }
  c.line({left_edge, base}, {right_edge, base}, "axis");
  const std::string interval = fmt::format("between {} and {} %, most likely near {} %", plain(100 * share.low, 1),
                                           plain(100 * share.high, 1), plain(100 * share.mean, 1));
  c.rect(x.at(share.low), base - 12, std::max(2.0, x.at(share.high) - x.at(share.low)), 24, "band-served", interval);
  c.circle({x.at(share.mean), base}, 8, "dot-served", interval);
  if (share.asked >= 0.0) {
    const double at = x.at(std::min(1.0, share.asked));
    c.line({at, base - 40}, {at, base + 30}, "asked");
    c.text({at, base - 48}, share.asked > 0.5 ? "end" : "start",
           fmt::format("asked for: {} %", plain(100 * share.asked, 0)));
  }
  return c.finish();
}

}  // namespace rackwright::report::svg
