#include "sim/random/philox_lanes.hpp"

#include <cstddef>

#if defined(__x86_64__) && defined(__GNUC__)
#include <immintrin.h>
#define RACKWRIGHT_LANES 1
#endif

namespace rackwright::random {
namespace {

void one_by_one(const StreamRow& row, std::span<Block> blocks) {
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    blocks[i] = first_block(row.key, row.purpose, row.entity + n * row.entity_step, row.day + n * row.day_step);
  }
}

#ifdef RACKWRIGHT_LANES

// Four streams, a 32-bit word of each in the lower half of a 64-bit lane. The multiplication reads lower halves only, so what is
// in the upper ones need not be cleared until the end. Numbers are those of philox.h: multipliers, then Weyl steps of the key.
__attribute__((target("avx2"))) void four_by_four(const StreamRow& row, std::span<Block> blocks) {
  constexpr int rounds = 10;
  const __m256i m0 = _mm256_set1_epi64x(0xD2511F53), m1 = _mm256_set1_epi64x(0xCD9E8D57);
  const __m256i low_half = _mm256_set1_epi64x(0xffffffff);
  const __m256i weyl0 = _mm256_set1_epi64x(0x9E3779B9), weyl1 = _mm256_set1_epi64x(0xBB67AE85);
  const __m256i lane = _mm256_set_epi64x(3, 2, 1, 0);
  const auto stepped = [&](std::uint32_t start, std::uint32_t step) __attribute__((target("avx2"))) {
    return _mm256_add_epi64(_mm256_set1_epi64x(start), _mm256_mul_epu32(lane, _mm256_set1_epi64x(step)));
  };
  __m256i day = stepped(row.day, row.day_step), entity = stepped(row.entity, row.entity_step);
  const __m256i next_day = _mm256_set1_epi64x(4 * std::int64_t{row.day_step}), next_entity = _mm256_set1_epi64x(4 * std::int64_t{row.entity_step});
  const __m256i purpose = _mm256_set1_epi64x(static_cast<std::int64_t>(row.purpose));
  for (std::size_t i = 0; i < blocks.size(); i += 4) {
    __m256i x0 = _mm256_setzero_si256(), x1 = day, x2 = entity, x3 = purpose;
    __m256i k0 = _mm256_set1_epi64x(row.key.word[0]), k1 = _mm256_set1_epi64x(row.key.word[1]);
#pragma GCC unroll 10
    for (int r = 0; r < rounds; ++r) {
      const __m256i p0 = _mm256_mul_epu32(x0, m0), p1 = _mm256_mul_epu32(x2, m1);
      x0 = _mm256_xor_si256(_mm256_xor_si256(_mm256_srli_epi64(p1, 32), x1), k0);
      x2 = _mm256_xor_si256(_mm256_xor_si256(_mm256_srli_epi64(p0, 32), x3), k1);
      x1 = p1;
      x3 = p0;
      k0 = _mm256_add_epi64(k0, weyl0);  // upper halves are as good as lost
      k1 = _mm256_add_epi64(k1, weyl1);
    }
    const __m256i first = _mm256_or_si256(_mm256_and_si256(x0, low_half), _mm256_slli_epi64(x1, 32));
    const __m256i second = _mm256_or_si256(_mm256_and_si256(x2, low_half), _mm256_slli_epi64(x3, 32));
    // Lanes 0 and 2, 1 and 3 of the two together.
    const __m256i even = _mm256_unpacklo_epi64(first, second), odd = _mm256_unpackhi_epi64(first, second);
    alignas(32) Block four[4];
    auto* to = reinterpret_cast<__m256i*>(blocks.size() - i >= 4 ? &blocks[i] : four);
    _mm256_storeu_si256(to, _mm256_permute2x128_si256(even, odd, 0x20));
    _mm256_storeu_si256(to + 1, _mm256_permute2x128_si256(even, odd, 0x31));
    for (std::size_t rest = i; blocks.size() - i < 4 && rest < blocks.size(); ++rest) blocks[rest] = four[rest - i];
    day = _mm256_add_epi64(day, next_day);
    entity = _mm256_add_epi64(entity, next_entity);
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
    four_by_four(row, blocks);
    return;
  }
#endif
  one_by_one(row, blocks);
}

}  // namespace rackwright::random
