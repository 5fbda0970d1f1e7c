// Many streams at once, on whatever registers the processor has.
#include <cstdint>
#include <vector>

#include "sim/random/philox_lanes.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

TEST_CASE("first blocks of many streams are those of each stream, in lanes and one by one") {
  const Key key = make_key(7, 3);
  // Steps of both words, counts that leave lanes over, and words that run past 2^32.
  const StreamRow rows[] = {{key, Purpose::test, 5, 1, 11, 0},
                                    {key, Purpose::test, 5, 0, 11, 1},
                                    {key, Purpose::test, 0xfffffffeU, 3, 0xffffffffU, 2}};
  for (const auto& row : rows) {
    for (const std::size_t count : {1U, 3U, 4U, 5U, 16U, 41U}) {
      std::vector<Block> blocks(count), one_by_one(count);
      first_blocks(row, blocks);
      first_blocks_plain(row, one_by_one);
      for (std::uint32_t i = 0; i < count; ++i) {
        const std::uint32_t entity = row.entity + i * row.entity_step, day = row.day + i * row.day_step;
        Stream plain(key, row.purpose, entity, day), given(key, row.purpose, entity, day, blocks[i]);
        CHECK(one_by_one[i].first == blocks[i].first);
        CHECK(one_by_one[i].second == blocks[i].second);
        for (int draw = 0; draw < 5; ++draw) CHECK(plain() == given());
      }
    }
  }
}
