// Source: known-answer vectors philox4x32-10 of the Random123 1.14 distribution (file kat_vectors; Salmon, Moraes, Dror
// & Shaw 2011). Equality is exact.

#include <Random123/philox.h>

#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

namespace {
struct Row {
  std::uint32_t counter[4], key[2], out[4];
};
const Row rows[] = {
    {{0, 0, 0, 0}, {0, 0}, {0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}},
    {{0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff},
     {0xffffffff, 0xffffffff},
     {0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}},
    {{0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
     {0xa4093822, 0x299f31d0},
     {0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}},
};
}  // namespace

TEST_CASE("Philox4x32-10 as installed gives the published vectors") {
  for (const Row& row : rows) {
    const auto& c = row.counter;
    const auto out = r123::Philox4x32{}({{c[0], c[1], c[2], c[3]}}, {{row.key[0], row.key[1]}});
    for (std::size_t i = 0; i < 4; ++i) CHECK(out[i] == row.out[i]);
  }
}

TEST_CASE("a stream is the cipher of its identity, words in the documented order") {
  // The first vector is the stream of purpose 0, entity 0, day 0 under key 0, its first block.
  Stream first(Key{}, static_cast<Purpose>(0), 0, 0);
  CHECK(first() == 0xe169c58d6627e8d5U);
  CHECK(first() == 0x9b00dbd8bc57ac4cU);
  // And any block of any stream against the cipher called directly.
  const Key key{{0xa4093822, 0x299f31d0}};
  Stream stream(key, Purpose::tray, 0x13198a2e, 0x85a308d3);
  for (std::uint32_t index = 0; index < 5; ++index) {
    const auto out = r123::Philox4x32{}({{index, 0x85a308d3, 0x13198a2e, 4}}, {{key.word[0], key.word[1]}});
    CHECK(stream() == (out[0] | (std::uint64_t{out[1]} << 32)));
    CHECK(stream() == (out[2] | (std::uint64_t{out[3]} << 32)));
  }
}
