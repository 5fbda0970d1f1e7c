#pragma once
// Counter-based streams: a draw is a function of what it is for, not of when or where it is drawn.

#include <Random123/philox.h>

#include <array>
#include <cstdint>
#include <limits>

#include "models/base/expects.hpp"
#include "sim/random/purpose.hpp"

namespace rackwright::random {

/// The key of one replication: 64 bits, shared by all its streams.
struct Key {
  std::array<std::uint32_t, 2> word{};
  friend constexpr bool operator==(const Key&, const Key&) = default;
};

/// Derives the key by enciphering the replication's number with the master seed: two passes of the 64-bit permutation
/// Philox2x32-10, keyed by the seed's low and high word. For one seed, different replications always have different
/// keys; two seeds share a key by chance only (2^-64 a pair). Nothing is added to a seed, so neighbouring seeds and
/// replications have nothing in common.
inline Key make_key(std::uint64_t master_seed, std::uint64_t replication) {
  const auto low = static_cast<std::uint32_t>(replication), high = static_cast<std::uint32_t>(replication >> 32);
  r123::Philox2x32::ctr_type block{{low, high}};
  const r123::Philox2x32 permute;
  block = permute(block, r123::Philox2x32::key_type{{static_cast<std::uint32_t>(master_seed)}});
  block = permute(block, r123::Philox2x32::key_type{{static_cast<std::uint32_t>(master_seed >> 32)}});
  return Key{{block[0], block[1]}};
}

/// One block of a stream: two results.
struct Block { std::uint64_t first, second; };

/// The first block of the stream of that identity.
inline Block first_block(Key key, Purpose purpose, std::uint32_t entity, std::uint32_t day) {
  const auto block = r123::Philox4x32{}({{0, day, entity, static_cast<std::uint32_t>(purpose)}}, {{key.word[0], key.word[1]}});
  return {block[0] | (std::uint64_t{block[1]} << 32), block[2] | (std::uint64_t{block[3]} << 32)};
}

/// Philox4x32-10 (Salmon, Moraes, Dror & Shaw 2011, "Parallel random numbers: as easy as 1, 2, 3", SC11) as a
/// uniform_random_bit_generator of 64-bit results. Cheap to make: nothing is computed before the first draw.
///
///   counter word 0   index: blocks drawn so far, each of two results
///   counter word 1   day
///   counter word 2   entity
///   counter word 3   purpose
///   key words 0, 1   make_key(master seed, replication)
///
/// Every word has its full 32 bits: two identities with different words never meet. One stream has 2^33
/// results; asking for more throws std::logic_error.
class Stream {
 public:
  using result_type = std::uint64_t;
  static constexpr result_type min() { return 0; }
  static constexpr result_type max() { return std::numeric_limits<result_type>::max(); }

  Stream(Key key, Purpose purpose, std::uint32_t entity = 0, std::uint32_t day = 0)
      : counter_{{0, day, entity, static_cast<std::uint32_t>(purpose)}}, key_{{key.word[0], key.word[1]}} {}
  /// The same stream, whose first block has been worked out already; see first_blocks().
  Stream(Key key, Purpose purpose, std::uint32_t entity, std::uint32_t day, Block first)
      : counter_{{1, day, entity, static_cast<std::uint32_t>(purpose)}}, key_{{key.word[0], key.word[1]}},
        results_{first.first, first.second}, next_(0) {}

  result_type operator()() {
    if (next_ < 2) return results_[next_++];
    EXPECTS(!spent_);
    const auto block = r123::Philox4x32{}(counter_, key_);
    spent_ = ++counter_[0] == 0;
    results_ = {block[0] | (std::uint64_t{block[1]} << 32), block[2] | (std::uint64_t{block[3]} << 32)};
    next_ = 1;
    return results_[0];
  }

 private:
  r123::Philox4x32::ctr_type counter_;
  r123::Philox4x32::key_type key_;
  std::array<result_type, 2> results_{};
  std::size_t next_ = 2;
  bool spent_ = false;
};

}  // namespace rackwright::random
