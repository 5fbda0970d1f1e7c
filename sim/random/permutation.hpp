#pragma once
// A random order of very many things without a list of them.

#include <bit>
#include <cstdint>

#include "models/base/expects.hpp"
#include "sim/random/philox_stream.hpp"

namespace rackwright::random {

/// A permutation of 0 .. size - 1 (size >= 1), a function of (key, entity): eight Feistel rounds over the least even
/// number of bits that holds the size, each round function a Philox block, walked along the cycle until the result
/// lies below the size (Black & Rogaway 2002, "Ciphers with arbitrary finite domains"). At most four steps on average.
class Permutation {
 public:
  Permutation(Key key, std::uint32_t entity, std::uint64_t size) : key_(key), entity_(entity), size_(size) {
    EXPECTS(size >= 1 && size <= (std::uint64_t{1} << 62U));
    const auto bits = static_cast<int>(std::bit_width(size - 1));
    half_ = static_cast<unsigned>(bits < 2 ? 1 : (bits + 1) / 2);
  }

  /// Place of thing `i` < size.
  [[nodiscard]] std::uint64_t operator()(std::uint64_t i) const {
    EXPECTS(i < size_);
    do i = once(i);
    while (i >= size_);
    return i;
  }

 private:
  [[nodiscard]] std::uint64_t once(std::uint64_t i) const {
    const std::uint64_t mask = (std::uint64_t{1} << half_) - 1;
    std::uint64_t left = i >> half_, right = i & mask;
    for (std::uint32_t round = 0; round < 8; ++round) {
      const Block block = first_block(key_, Purpose::sample, 16 * entity_ + round, static_cast<std::uint32_t>(right));
      const std::uint64_t next = left ^ (block.first & mask);
      left = right;
      right = next;
    }
    return left << half_ | right;
  }

  Key key_;
  std::uint32_t entity_;
  std::uint64_t size_;
  unsigned half_ = 1;
};

}  // namespace rackwright::random
