#include "sim/random/philox_lanes.hpp"

#include <cstddef>

#if defined(__x86_64__) && defined(__GNUC__)
#include <immintrin.h>
#define RACKWRIGHT_LANES 1
#endif

namespace rackwright::random {
namespace {

#ifdef RACKWRIGHT_LANES

#define RACKWRIGHT_LANE __attribute__((target("avx2"), always_inline)) inline

// Four streams, a 32-bit word of each in the lower half of a 64-bit lane. The multiplication reads lower halves only, so what is
// in the upper ones need not be cleared until the end.
struct Words { __m256i x0, x1, x2, x3; };

RACKWRIGHT_LANE __m256i all(std::uint32_t word) { return _mm256_set1_epi64x(word); }

// Numbers are those of philox.h: multipliers, then Weyl steps of the key.
RACKWRIGHT_LANE void one_round(Words& w, __m256i k0, __m256i k1) {
  const __m256i p0 = _mm256_mul_epu32(w.x0, all(0xD2511F53)), p1 = _mm256_mul_epu32(w.x2, all(0xCD9E8D57));
  w = {_mm256_xor_si256(_mm256_xor_si256(_mm256_srli_epi64(p1, 32), w.x1), k0), p1,
       _mm256_xor_si256(_mm256_xor_si256(_mm256_srli_epi64(p0, 32), w.x3), k1), p0};
}

RACKWRIGHT_LANE void write(const Words& w, Block* to) {
  const __m256i low_half = all(0xffffffff);
  const __m256i first = _mm256_or_si256(_mm256_and_si256(w.x0, low_half), _mm256_slli_epi64(w.x1, 32));
  const __m256i second = _mm256_or_si256(_mm256_and_si256(w.x2, low_half), _mm256_slli_epi64(w.x3, 32));
  // Lanes 0 and 2, 1 and 3 of the two together.
  const __m256i even = _mm256_unpacklo_epi64(first, second), odd = _mm256_unpackhi_epi64(first, second);
  auto* wide = reinterpret_cast<__m256i*>(to);
  _mm256_storeu_si256(wide, _mm256_permute2x128_si256(even, odd, 0x20));
  _mm256_storeu_si256(wide + 1, _mm256_permute2x128_si256(even, odd, 0x31));
}

// The first four of `to`, or as many as there are.
RACKWRIGHT_LANE void write_some(const Words& w, std::span<Block> to) {
  if (to.size() >= 4) return write(w, to.data());
  alignas(32) Block four[4];
  write(w, four);
  for (std::size_t i = 0; i < to.size(); ++i) to[i] = four[i];
}

// Two registers of four at a time: while the one waits for its products the other multiplies.
__attribute__((target("avx2"))) void eight_by_eight(const StreamRow& row, std::span<Block> blocks) {
  constexpr int rounds = 10;
  constexpr std::size_t width = 8;
  const __m256i lane = _mm256_set_epi64x(3, 2, 1, 0);
  const auto stepped = [&](std::uint32_t start, std::uint32_t step) __attribute__((target("avx2"))) {
    return _mm256_add_epi64(all(start), _mm256_mul_epu32(lane, all(step)));
  };
  __m256i day = stepped(row.day, row.day_step), entity = stepped(row.entity, row.entity_step);
  const __m256i next_day = _mm256_set1_epi64x(4 * std::int64_t{row.day_step}), next_entity = _mm256_set1_epi64x(4 * std::int64_t{row.entity_step});
  const __m256i purpose = _mm256_set1_epi64x(static_cast<std::int64_t>(row.purpose)), zero = _mm256_setzero_si256();
  for (std::size_t i = 0; i < blocks.size(); i += width) {
    Words low{zero, day, entity, purpose};
    day = _mm256_add_epi64(day, next_day);
    entity = _mm256_add_epi64(entity, next_entity);
    Words high{zero, day, entity, purpose};
    day = _mm256_add_epi64(day, next_day);
    entity = _mm256_add_epi64(entity, next_entity);
    __m256i k0 = all(row.key.word[0]), k1 = all(row.key.word[1]);
#pragma GCC unroll 10
    for (int r = 0; r < rounds; ++r) {
      one_round(low, k0, k1);
      one_round(high, k0, k1);
      k0 = _mm256_add_epi64(k0, all(0x9E3779B9));  // upper halves are as good as lost
      k1 = _mm256_add_epi64(k1, all(0xBB67AE85));
    }
    write_some(low, blocks.subspan(i));
    if (blocks.size() > i + 4) write_some(high, blocks.subspan(i + 4));
  }
}

bool has_lanes() {
  static const bool has = __builtin_cpu_supports("avx2") != 0;
  return has;
}

#endif

}  // namespace

void first_blocks(const StreamRow& row, std::span<Block> blocks) {
#ifdef RACKWRIGHT_LANES
  if (has_lanes()) {
    eight_by_eight(row, blocks);
    return;
  }
#endif
  first_blocks_plain(row, blocks);
}

void first_blocks_plain(const StreamRow& row, std::span<Block> blocks) {
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    blocks[i] = first_block(row.key, row.purpose, row.entity + n * row.entity_step, row.day + n * row.day_step);
  }
}

}  // namespace rackwright::random
