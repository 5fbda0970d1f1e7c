#include "sim/replication/sprout_curve.hpp"

namespace rackwright {

std::vector<double> SproutCurve::of(const germination::Parameters& parameters) {
  constexpr double step = 1.0 / cells;
  struct Node { double value, slope; };  // slope a cell
  const auto node = [&](int i) -> Node {
    if (i == cells) return {1.0, parameters.shape > 1.0 ? 0.0 : step};
    if (i == 0) return {0.0, parameters.shape > 1.0 ? 0.0 : step};
    const double y = step * i;
    const double value = germination::share_germinated(parameters, y / (1.0 - y));
    return {value, step * parameters.shape * value * (1.0 - value) / (y * (1.0 - y))};
  };
  std::vector<double> curve;
  curve.reserve(doubles);
  for (int i = 0; i < cells; ++i) {
    const Node a = node(i), b = node(i + 1);
    const double rise = b.value - a.value;
    curve.insert(curve.end(), {a.value, a.slope, 3.0 * rise - 2.0 * a.slope - b.slope, a.slope + b.slope - 2.0 * rise});
  }
  return curve;
}

}  // namespace rackwright
