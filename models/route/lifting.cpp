// The NIOSH revised lifting equation in its metric form (Applications Manual, publication 94-110).
#include <algorithm>
#include <array>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/route/stations.hpp"

namespace rackwright::route {

namespace {

constexpr double load_constant_kg = 23.0;
constexpr double knuckle_height_cm = 75.0;

// Lifts a minute, then the multiplier by duration (<= 1 h, <= 2 h, <= 8 h); `low` rows are for hands under 75 cm.
struct FrequencyRow { double lifts; std::array<double, 3> high, low; };
constexpr std::array<FrequencyRow, 18> frequency_table{{
    {0.2, {1.00, 0.95, 0.85}, {1.00, 0.95, 0.85}}, {0.5, {0.97, 0.92, 0.81}, {0.97, 0.92, 0.81}},
    {1.0, {0.94, 0.88, 0.75}, {0.94, 0.88, 0.75}}, {2.0, {0.91, 0.84, 0.65}, {0.91, 0.84, 0.65}},
    {3.0, {0.88, 0.79, 0.55}, {0.88, 0.79, 0.55}}, {4.0, {0.84, 0.72, 0.45}, {0.84, 0.72, 0.45}},
    {5.0, {0.80, 0.60, 0.35}, {0.80, 0.60, 0.35}}, {6.0, {0.75, 0.50, 0.27}, {0.75, 0.50, 0.27}},
    {7.0, {0.70, 0.42, 0.22}, {0.70, 0.42, 0.22}}, {8.0, {0.60, 0.35, 0.18}, {0.60, 0.35, 0.18}},
    {9.0, {0.52, 0.30, 0.15}, {0.52, 0.30, 0.00}}, {10.0, {0.45, 0.26, 0.13}, {0.45, 0.26, 0.00}},
    {11.0, {0.41, 0.23, 0.00}, {0.41, 0.00, 0.00}}, {12.0, {0.37, 0.21, 0.00}, {0.37, 0.00, 0.00}},
    {13.0, {0.34, 0.00, 0.00}, {0.00, 0.00, 0.00}}, {14.0, {0.31, 0.00, 0.00}, {0.00, 0.00, 0.00}},
    {15.0, {0.28, 0.00, 0.00}, {0.00, 0.00, 0.00}}, {15.000001, {0.0, 0.0, 0.0}, {0.0, 0.0, 0.0}},
}};

double coupling_multiplier(int coupling, double vertical_cm) {
  if (coupling == 0) return 1.0;
  if (coupling == 1) return vertical_cm < knuckle_height_cm ? 0.95 : 1.0;
  return 0.90;
}

}  // namespace

double frequency_multiplier(double lifts_per_minute, Metres vertical, LiftDuration duration) {
  EXPECTS(lifts_per_minute >= 0.0);
  const auto column = static_cast<std::size_t>(duration);
  const bool low = 100.0 * vertical.value() < knuckle_height_cm;
  const auto value = [&](const FrequencyRow& row) { return (low ? row.low : row.high)[column]; };
  if (lifts_per_minute <= frequency_table.front().lifts) return value(frequency_table.front());
  for (std::size_t i = 1; i < frequency_table.size(); ++i) {
    const FrequencyRow& before = frequency_table[i - 1];
    const FrequencyRow& after = frequency_table[i];
    if (lifts_per_minute > after.lifts) continue;
    const double share = (lifts_per_minute - before.lifts) / (after.lifts - before.lifts);
    return value(before) + share * (value(after) - value(before));
  }
  return 0.0;
}

Kilograms lifting_limit(Metres horizontal, Metres vertical, Metres travel, Degrees asymmetry, double lifts_per_minute,
                        int coupling, LiftDuration duration) {
  EXPECTS(horizontal.value() >= 0.0 && vertical.value() >= 0.0 && travel.value() >= 0.0 && asymmetry.value() >= 0.0);
  EXPECTS(coupling >= 0 && coupling <= 2);
  const double h = std::max(25.0, 100.0 * horizontal.value());
  const double v = 100.0 * vertical.value();
  const double d = std::max(25.0, 100.0 * travel.value());
  const double a = asymmetry.value();
  constexpr double hair = 1e-9;  // 0.63 m must not fall outside 63 cm by rounding
  if (h > 63.0 + hair || v > 175.0 + hair || d > 175.0 + hair || a > 135.0 + hair) return Kilograms(0.0);
  return Kilograms(load_constant_kg * (25.0 / h) * (1.0 - 0.003 * std::abs(v - knuckle_height_cm)) * (0.82 + 4.5 / d) *
                   (1.0 - 0.0032 * a) * frequency_multiplier(lifts_per_minute, vertical, duration) *
                   coupling_multiplier(coupling, v));
}

}  // namespace rackwright::route
