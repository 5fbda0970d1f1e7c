#pragma once
// Points that fill a unit cube evenly: the Sobol sequence with the direction numbers of Joe & Kuo (2008, SIAM J. Sci.
// Comput. 30, 2635-2654) from Boost.Random, whose first point is the middle of the cube.

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

namespace rackwright::random {

/// Not to be shared between threads.
class SobolPoints {
 public:
  static constexpr std::size_t most_dimensions = 3667;
  /// 1 to most_dimensions (EXPECTS).
  explicit SobolPoints(std::size_t dimensions);
  ~SobolPoints();

  /// Point `index`, counted from 0, in (0, 1)^dimensions. Points in turn are quickest; a jump costs the same anywhere.
  const std::vector<double>& at(std::uint64_t index);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace rackwright::random
