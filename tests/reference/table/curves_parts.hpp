#pragma once
// What the files of curves share.

#include <functional>
#include <string>

#include "tests/reference/table/curves.hpp"

namespace rackwright::validation {

using Marks = std::vector<Mark>;

/// A line of 81 points.
inline void line(Marks& out, const char* model, const std::string& series, double from, double to, const std::function<double(double)>& f) {
  constexpr int steps = 80;
  for (int i = 0; i <= steps; ++i) {
    const double x = from + (to - from) * i / steps;
    out.push_back({model, series, false, x, f(x), 0.0});
  }
}
/// A published value, or a game played.
inline void point(Marks& out, const char* model, const std::string& series, double x, double y, double half_width = 0.0) {
  out.push_back({model, series, true, x, y, half_width});
}

/// Of pages whose models are rules of work, of chance and of counting: chores, design, feed, queue, random, sizing, statistics, store.
void work_marks(Marks& out);

}  // namespace rackwright::validation
