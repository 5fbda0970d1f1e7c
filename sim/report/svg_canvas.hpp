#pragma once
// A picture under construction: plain SVG with a name, a description and tooltips. Colours come from the page's
// classes, so that the same picture serves by day, by night and on paper.

#include <string>
#include <string_view>
#include <vector>

namespace rackwright::report::svg {

struct Point {
  double x = 0.0, y = 0.0;
};

class Canvas {
 public:
  /// `id` must be unique in the page; `title` and `description` are read aloud instead of the picture.
  Canvas(std::string_view id, double width, double height, std::string_view title, std::string_view description);

  void rect(double x, double y, double width, double height, std::string_view css_class, std::string_view tip = "",
            double opacity = 1.0);
  void line(Point from, Point to, std::string_view css_class);
  void circle(Point at, double radius, std::string_view css_class, std::string_view tip = "");
  /// `anchor`: start, middle or end.
  void text(Point at, std::string_view anchor, std::string_view words, std::string_view css_class = "");
  /// The same, read from bottom to top.
  void upright(Point at, std::string_view anchor, std::string_view words, std::string_view css_class = "");
  /// A line through the points; a closed one is an area. Points that are not finite are left out.
  void path(const std::vector<Point>& points, std::string_view css_class, bool closed = false);

  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double height() const { return height_; }
  [[nodiscard]] std::string finish() const { return out_ + "</svg>\n"; }

 private:
  double width_, height_;
  std::string out_;
};

/// A number of a drawing: two decimals at most, no trailing zeros.
std::string coordinate(double value);

/// From values to places: an axis with round ticks that covers [low, high].
struct Scale {
  double low = 0.0, high = 1.0, from = 0.0, to = 1.0;
  std::vector<double> ticks{};
  int decimals = 0;  ///< that tell one tick from the next
  [[nodiscard]] double at(double value) const { return from + (value - low) / (high - low) * (to - from); }
};
/// Expects from != to; an empty or unordered range is widened.
Scale round_scale(double low, double high, double from, double to, int about_ticks = 5);

}  // namespace rackwright::report::svg
