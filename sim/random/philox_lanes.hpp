#pragma once
// The first draws of many streams at once: the same bits as one after another, several to a vector register.

#include <cstdint>
#include <span>

#include "sim/random/philox_stream.hpp"

namespace rackwright::random {

/// Streams of one key and purpose whose entity and day go up in steps (modulo 2^32): stream i has entity + i * entity_step,
/// day + i * day_step.
struct StreamRow {
  Key key;
  Purpose purpose = Purpose::test;
  std::uint32_t entity = 0, entity_step = 0;
  std::uint32_t day = 0, day_step = 0;
};

/// blocks[i] becomes the first block of stream i, which Stream takes as its fifth argument.
void first_blocks(const StreamRow& row, std::span<Block> blocks);

/// The same one after another: the way of a processor without AVX2.
void first_blocks_plain(const StreamRow& row, std::span<Block> blocks);

}  // namespace rackwright::random
