#pragma once
// Which day or year a moment lies in, before the beginning as well as after it.

namespace rackwright {

/// Largest whole number of `length` (> 0) that is not beyond `value`: -1 for -1 of 365, where C++ division gives 0.
template <class Whole>
constexpr Whole floor_quotient(Whole value, Whole length) {
  return value >= 0 ? value / length : -((length - 1 - value) / length);
}

}  // namespace rackwright
