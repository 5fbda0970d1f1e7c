#pragma once
// How daily highs and lows depart from a normal law: a monotone map of a standard normal score to one that leans, or has shorter or longer
// tails, and still has mean 0 and spread 1.

namespace rackwright::climate {

/// The map x -> (sinh((asinh x + skew)/exp(tail)) - mean)/scale, with mean and scale such that a standard normal x gives mean 0 and spread 1
/// (sinh-arcsinh law, Jones & Pewsey 2009, Biometrika 96:761-780). Rising everywhere; skew and tail 0 leave x as it is, to rounding.
struct Shape { double skew = 0.0, shrink = 1.0, mean = 0.0, scale = 1.0; };  ///< shrink: 1/exp(tail)

inline constexpr double most_skew = 2.0, most_tail = 0.7;

/// `skew` above 0: the warm side reaches further; `tail` above 0: both tails are shorter than normal ones. Taken to lie within +-most_skew
/// and +-most_tail (values beyond count as the nearest). Mean and scale within 1e-9 of the exact.
Shape shape_of(double skew, double tail);

/// The score so shaped.
double shaped(const Shape& shape, double score);

}  // namespace rackwright::climate
