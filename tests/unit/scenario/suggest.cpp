#include "sim/scenario/suggest.hpp"

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
