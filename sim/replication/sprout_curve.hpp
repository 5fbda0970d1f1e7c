#pragma once
// germination::share_germinated as a table of cubics: asked of every batch at every settling, and a power is dear.
//
// Over y = progress / (1 + progress), which maps all progress to [0, 1), the log-logistic curve is smooth: 512 cubics through its
// values and slopes agree with it to 1e-8 for the presets' shapes and to 2e-5 for any that a scenario may state, tested.

#include <algorithm>
#include <cstddef>
#include <vector>

#include "models/germination/germination.hpp"

namespace rackwright {

struct SproutCurve {
  static constexpr int cells = 512;
  static constexpr std::size_t doubles = std::size_t{4} * cells;  ///< of one curve: four coefficients a cell
  static constexpr double last = cells - 1e-9;

  /// The curve of one germination law, as `doubles` numbers.
  static std::vector<double> of(const germination::Parameters& parameters);

  /// Share of the germinable grain that has germinated after `progress` medians, at least 0.
  static double at(const double* curve, double progress) {
    const double place = std::min(last, progress / (1.0 + progress) * cells);
    const int cell = static_cast<int>(place);
    const double t = place - cell;
    const double* c = curve + 4 * static_cast<std::ptrdiff_t>(cell);
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
  }
};

}  // namespace rackwright
