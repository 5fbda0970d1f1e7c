#pragma once
// How finely a column of a log was read, by what stands in it, and what a reading tells that only says between which two values it lies.

#include <vector>

namespace rackwright::study {

/// Degrees of freedom of the scatter of weights and heights: a few wild entries do not carry the fit away (assumed).
inline constexpr double scatter_freedom = 5.0;
/// Spread of a height read with a ruler on a mat, whose top is no plane [cm] (assumed).
inline constexpr double ruler_cm = 0.3;

/// A column of a log, weights or heights.
struct ReadColumn {
  double step = 0.0;                   ///< [kg or cm]; 0: finer than any that is usual
  int readings = 0, most_alike = 0;    ///< how many stand in it, and how many of them are one figure
  double common = 0.0;                 ///< that figure
  /// Nearly all one figure: written by rote, or read too coarsely to tell trays apart. All of them together then count as one reading.
  [[nodiscard]] bool by_rote() const;
  /// So many readings each of them counts as.
  [[nodiscard]] double counts() const { return by_rote() ? 1.0 / readings : 1.0; }
};

/// The step is the greatest usual one of which all readings are whole multiples: a column of 20 cm only may be read to 10 cm.
ReadColumn column_of_weights(const std::vector<double>& kilograms);
ReadColumn column_of_heights(const std::vector<double>& centimetres);

/// How far below and above a reading the truth may lie, as logarithms; both 0: it is exact.
struct ReadSpan { double down = 0.0, up = 0.0; };
/// Of a value so great that was read to `step`; `plus` is added before the logarithm is taken.
ReadSpan span_of(double value, double step, double plus);

/// Student's law of a miss: its part of minus the logarithm of the density, and slope and (expected) curvature by what is expected and by
/// the logarithm of the scale.
struct Miss { double minus_log, slope, curvature, scale_slope, scale_curvature; };
/// Of a reading that lies so far above what is expected; curvatures only where asked for, as they take longer.
Miss student(double miss, double scale, ReadSpan span, bool curved);

}  // namespace rackwright::study
