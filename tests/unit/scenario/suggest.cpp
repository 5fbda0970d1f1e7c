#include "sim/scenario/suggest.hpp"

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>

#include "tests/catch.hpp"

using rackwright::edit_distance;
using rackwright::nearest;

TEST_CASE("edit distance counts single changes and swaps") {
  CHECK(edit_distance("", "") == 0);
  CHECK(edit_distance("tier", "tiers") == 1);
  CHECK(edit_distance("teirs", "tiers") == 1);
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("", "abc") == 3);
}

namespace {

// The definition itself, without a table.
int by_definition(std::string_view a, std::string_view b) {
  if (a.empty() || b.empty()) return static_cast<int>(a.size() + b.size());
  const auto rest_a = a.substr(1), rest_b = b.substr(1);
  int best = by_definition(rest_a, rest_b) + (a[0] == b[0] ? 0 : 1);
  best = std::min({best, by_definition(rest_a, b) + 1, by_definition(a, rest_b) + 1});
  if (a.size() > 1 && b.size() > 1 && a[0] == b[1] && a[1] == b[0]) best = std::min(best, by_definition(a.substr(2), b.substr(2)) + 1);
  return best;
}

}  // namespace

TEST_CASE("a distance beyond what is asked for is told as beyond, any other as it is") {
  std::uint32_t state = 7;
  const auto word = [&] {
    std::string text;
    const std::uint32_t length = (state = 1664525U * state + 1013904223U) >> 29;
    for (std::uint32_t i = 0; i < length; ++i) text += "abc"[((state = 1664525U * state + 1013904223U) >> 16) % 3];
    return text;
  };
  int beyond = 0;
  for (int i = 0; i < 500; ++i) {
    const std::string a = word(), b = word();
    const int whole = by_definition(a, b);
    CHECK(edit_distance(a, b) == whole);
    for (int limit = 0; limit < 5; ++limit) CHECK(edit_distance(a, b, limit) == std::min(whole, limit + 1));
    beyond += whole > 4;
  }
  CHECK(beyond > 10);
}

TEST_CASE("the nearest known name") {
  const std::vector<std::string> known{"rack.tiers", "rack.trays_per_tier", "line.soak", "line.soak_water",
                                       "climate.mean"};
  CHECK(nearest("rack.teirs", known) == "rack.tiers");
  CHECK(nearest("tiers", known) == "rack.tiers");
  CHECK(nearest("rack.soak", known) == "line.soak");
  CHECK(nearest("line.soak_watr", known) == "line.soak_water");
  CHECK(nearest("zebra.stripes", known).empty());
  CHECK(nearest(std::string(5000, 'x'), known).empty());
  CHECK(nearest("anything", {}).empty());
}

TEST_CASE("a whole word of a name is near it") {
  CHECK(nearest("goat", {"ewe", "goat-milking", "goat-dry"}) == "goat-milking");
  CHECK(nearest("hen", {"horse", "laying-hen"}) == "laying-hen");
  CHECK(nearest("en", {"laying-hen"}).empty());
}
