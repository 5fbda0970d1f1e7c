#include "sim/random/philox_stream.hpp"

#include <random>
#include <set>

#include "sim/random/laws.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

static_assert(std::uniform_random_bit_generator<Stream>);

TEST_CASE("purposes keep their numbers") {
  const Purpose list[] = {Purpose::weather, Purpose::humidity, Purpose::lot, Purpose::tray, Purpose::chore, Purpose::failure,
                          Purpose::birth, Purpose::death, Purpose::delivery, Purpose::demand, Purpose::parameter, Purpose::sample,
                          Purpose::test, Purpose::queue, Purpose::shortage, Purpose::harvest, Purpose::trial};
  std::uint32_t number = 0;
  for (const Purpose p : list) CHECK(static_cast<std::uint32_t>(p) == ++number);
  CHECK(number == random_purposes);
}

TEST_CASE("a draw depends on its identity, not on when it is made") {
  const Key key = make_key(42, 3);
  Stream a(key, Purpose::tray, 7, 100);
  const auto a1 = a();
  Stream b(key, Purpose::tray, 8, 100);
  const auto b1 = b(), b2 = b();
  const auto a2 = a();

  Stream b_again(key, Purpose::tray, 8, 100);
  CHECK(b_again() == b1);
  CHECK(b_again() == b2);
  Stream a_again(make_key(42, 3), Purpose::tray, 7, 100);
  CHECK(a_again() == a1);
  CHECK(a_again() == a2);
}

TEST_CASE("every part of the identity matters") {
  std::set<std::uint64_t> first;
  for (const std::uint64_t seed : {std::uint64_t{1}, std::uint64_t{2}, std::uint64_t{1} << 32})
    for (const std::uint64_t replication : {std::uint64_t{0}, std::uint64_t{1}, std::uint64_t{1} << 32})
      for (const Purpose purpose : {Purpose::weather, Purpose::lot})
        for (const std::uint32_t entity : {0U, 1U, 0xffffffffU})
          for (const std::uint32_t day : {0U, 1U, 0xffffffffU})
            first.insert(Stream(make_key(seed, replication), purpose, entity, day)());
  CHECK(first.size() == 3 * 3 * 2 * 3 * 3);
}

TEST_CASE("keys do not collide within a study, and are not made by adding") {
  std::set<std::uint64_t> keys;
  for (std::uint64_t replication = 0; replication < 20000; ++replication) {
    const Key k = make_key(5, replication);
    keys.insert(k.word[0] | (std::uint64_t{k.word[1]} << 32));
  }
  CHECK(keys.size() == 20000);
  CHECK_FALSE(make_key(5, 1) == make_key(6, 0));
  CHECK_FALSE(make_key(1, 5) == make_key(5, 1));
  CHECK_FALSE(make_key(0, 0) == Key{});
}
