// The parts of a sweep that come from the random layer.

#include <set>

#include "sim/random/permutation.hpp"
#include "sim/random/sobol_points.hpp"
#include "tests/catch.hpp"

using namespace rackwright::random;

TEST_CASE("permutation: every place is taken once, whatever the size") {
  for (const std::uint64_t size : {1ULL, 2ULL, 3ULL, 4ULL, 5ULL, 16ULL, 17ULL, 1000ULL, 4096ULL}) {
    const Permutation order(make_key(3, 0), 2, size);
    std::set<std::uint64_t> places;
    for (std::uint64_t i = 0; i < size; ++i) places.insert(order(i));
    CHECK(places.size() == size);
    CHECK(*places.rbegin() == size - 1);
  }
}

TEST_CASE("permutation: keys and entities have orders of their own, and large sizes work") {
  const Permutation a(make_key(3, 0), 0, 1000), b(make_key(3, 0), 1, 1000), c(make_key(4, 0), 0, 1000);
  int same_b = 0, same_c = 0, still = 0;
  for (std::uint64_t i = 0; i < 1000; ++i) {
    same_b += a(i) == b(i) ? 1 : 0;
    same_c += a(i) == c(i) ? 1 : 0;
    still += a(i) == i ? 1 : 0;
  }
  // Each count is about Poisson with mean 1: 10 or more has a chance of 1e-7.
  CHECK(same_b < 10);
  CHECK(same_c < 10);
  CHECK(still < 10);
  const Permutation huge(make_key(3, 0), 0, 1'000'000'007ULL);
  std::set<std::uint64_t> places;
  for (std::uint64_t i = 0; i < 1000; ++i) places.insert(huge(i * 999'983ULL % 1'000'000'007ULL));
  CHECK(places.size() == 1000);
}

TEST_CASE("Sobol points: the first 2^m - 1 with the origin fill every dyadic slice once, in each dimension") {
  SobolPoints points(12);
  std::vector<std::set<int>> slices(12);
  for (std::uint64_t i = 0; i < 255; ++i) {
    const auto& point = points.at(i);
    for (std::size_t d = 0; d < 12; ++d) slices[d].insert(static_cast<int>(point[d] * 256.0));
  }
  for (const auto& each : slices) {
    CHECK(each.size() == 255);
    CHECK(each.count(0) == 0);  // the origin's own slice
  }
}
