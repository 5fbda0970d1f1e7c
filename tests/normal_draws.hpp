#pragma once
// Normal numbers for tests that need luck of their own.

#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

namespace rackwright::test {

/// Nearly normal numbers of no pattern, the same to the bit on every platform: twelve uniform ones summed.
inline double pseudo_normal(std::uint32_t& state) {
  double sum = -6.0;
  for (int i = 0; i < 12; ++i) sum += static_cast<double>((state = 1664525U * state + 1013904223U) >> 8) / 16777216.0;
  return sum;
}

/// Standard normals by Box and Muller on raw output: fixed seed, the same on every platform to rounding.
class NormalDraws {
 public:
  explicit NormalDraws(unsigned seed) : engine_(seed) {}
  double operator()() {
    const double u = (static_cast<double>(engine_()) + 1.0) / 4294967297.0, v = static_cast<double>(engine_()) / 4294967296.0;
    return std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * std::numbers::pi * v);
  }

 private:
  std::mt19937 engine_;
};

}  // namespace rackwright::test
