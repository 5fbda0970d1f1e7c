#include "models/climate/shape.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace rackwright::climate {
namespace {

// Steps of a quarter from -9 to 9: the trapezium rule for a law so smooth is exact to 1e-9 and better.
constexpr int reach = 36;
constexpr double step = 0.25;
struct Node { double arcsinh = 0.0, weight = 0.0; };
using Nodes = std::array<Node, 2 * reach + 1>;

const Nodes& nodes() {
  static const Nodes all = [] {
    Nodes made{};
    for (std::size_t i = 0; i < made.size(); ++i) {
      const double x = step * (static_cast<double>(i) - reach);
      made[i] = {std::asinh(x), step * std::exp(-0.5 * x * x) / std::sqrt(2.0 * std::numbers::pi)};
    }
    return made;
  }();
  return all;
}

}  // namespace

Shape shape_of(double skew, double tail) {
  Shape shape{std::clamp(skew, -most_skew, most_skew), std::exp(-std::clamp(tail, -most_tail, most_tail))};
  double square = 0.0;
  for (const Node& node : nodes()) {
    const double y = std::sinh((node.arcsinh + shape.skew) * shape.shrink);
    shape.mean += node.weight * y;
    square += node.weight * y * y;
  }
  shape.scale = std::sqrt(square - shape.mean * shape.mean);
  return shape;
}

double shaped(const Shape& shape, double score) {
  return (std::sinh((std::asinh(score) + shape.skew) * shape.shrink) - shape.mean) / shape.scale;
}

}  // namespace rackwright::climate
