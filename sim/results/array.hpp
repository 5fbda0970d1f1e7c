#pragma once
// One dataset in memory: a shape, and numbers or texts in row order.

#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace rackwright::results {

struct Array {
  std::vector<std::size_t> shape{};   ///< empty: one single value
  std::vector<double> numbers{};      ///< row-major; whole numbers are exact up to 2^53
  std::vector<std::string> texts{};   ///< instead of numbers, where the dataset holds text

  friend bool operator==(const Array&, const Array&) = default;
};

/// Datasets by path without the leading slash, e.g. "daily/room_mean".
using Arrays = std::map<std::string, Array, std::less<>>;

inline Array number(double value) { return {{}, {value}, {}}; }
inline Array text(std::string value) { return {{}, {}, {std::move(value)}}; }
inline Array row(std::vector<double> values) { return {{values.size()}, std::move(values), {}}; }
inline Array row(std::vector<std::string> values) { return {{values.size()}, {}, std::move(values)}; }

}  // namespace rackwright::results
