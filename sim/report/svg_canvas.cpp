#include "sim/report/svg_canvas.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"
#include "sim/report/html_text.hpp"

namespace rackwright::report::svg {

using html::escaped;

std::string coordinate(double value) {
  std::string text = fmt::format("{:.2f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

Canvas::Canvas(std::string_view id, double width, double height, std::string_view title, std::string_view description)
    : width_(width), height_(height),
      out_(fmt::format("<svg role=\"img\" viewBox=\"0 0 {} {}\" aria-labelledby=\"{}-t {}-d\">\n<title id=\"{}-t\">{}</title>\n"
                       "<desc id=\"{}-d\">{}</desc>\n",
                       coordinate(width), coordinate(height), id, id, id, escaped(title), id, escaped(description))) {}

void Canvas::rect(double x, double y, double width, double height, std::string_view css_class, std::string_view tip,
                  double opacity) {
  out_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" class=\"{}\"", coordinate(x), coordinate(y),
                      coordinate(std::max(0.0, width)), coordinate(std::max(0.0, height)), css_class);
  if (opacity < 1.0) out_ += fmt::format(" fill-opacity=\"{}\"", coordinate(opacity));
  out_ += tip.empty() ? "/>\n" : fmt::format("><title>{}</title></rect>\n", escaped(tip));
}

void Canvas::line(Point from, Point to, std::string_view css_class) {
  out_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" class=\"{}\"/>\n", coordinate(from.x),
                      coordinate(from.y), coordinate(to.x), coordinate(to.y), css_class);
}

void Canvas::circle(Point at, double radius, std::string_view css_class, std::string_view tip) {
  out_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" class=\"{}\"", coordinate(at.x), coordinate(at.y),
                      coordinate(radius), css_class);
  out_ += tip.empty() ? "/>\n" : fmt::format("><title>{}</title></circle>\n", escaped(tip));
}

void Canvas::text(Point at, std::string_view anchor, std::string_view words, std::string_view css_class) {
  out_ += fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\"", coordinate(at.x), coordinate(at.y), anchor);
  if (!css_class.empty()) out_ += fmt::format(" class=\"{}\"", css_class);
  out_ += fmt::format(">{}</text>\n", escaped(words));
}

void Canvas::upright(Point at, std::string_view anchor, std::string_view words, std::string_view css_class) {
  out_ += fmt::format("<text transform=\"translate({} {}) rotate(-90)\" text-anchor=\"{}\"", coordinate(at.x),
                      coordinate(at.y), anchor);
  if (!css_class.empty()) out_ += fmt::format(" class=\"{}\"", css_class);
  out_ += fmt::format(">{}</text>\n", escaped(words));
}

void Canvas::path(const std::vector<Point>& points, std::string_view css_class, bool closed) {
  std::string d;
  for (const Point& p : points) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) continue;
    // A tenth of a unit is finer than any screen; it halves the page.
    d += fmt::format("{}{:.1f},{:.1f}", d.empty() ? "M" : " ", p.x, p.y);
  }
  if (d.empty()) return;
  out_ += fmt::format("<path d=\"{}{}\" class=\"{}\"/>\n", d, closed ? "Z" : "", css_class);
}

Scale round_scale(double low, double high, double from, double to, int about_ticks) {
  EXPECTS(from != to && about_ticks > 0);
  if (!std::isfinite(low) || !std::isfinite(high)) low = 0.0, high = 1.0;
  if (!(high > low)) high = low + std::max(1.0, std::abs(low) * 0.1);
  const double rough = (high - low) / about_ticks, power = std::pow(10.0, std::floor(std::log10(rough)));
  double step = 10.0 * power;
  for (const double m : {1.0, 2.0, 5.0})
    if (m * power >= rough) {
      step = m * power;
      break;
    }
  Scale scale{std::floor(low / step + 1e-9) * step, std::ceil(high / step - 1e-9) * step, from, to, {}, 0};
  const int count = static_cast<int>(std::lround((scale.high - scale.low) / step));
  for (int i = 0; i <= count; ++i) scale.ticks.push_back(scale.low + i * step);
  scale.decimals = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
  return scale;
}

}  // namespace rackwright::report::svg
