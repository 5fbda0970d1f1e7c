// Continuous ranked probability scores against R's numerical integration of their definition (Matheson & Winkler 1976, Manage. Sci.
// 22:1087-1096, as in Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359-378). R's integrate is asked for eleven figures.
#include <vector>

#include "sim/study/forecast.hpp"
#include "tests/catch.hpp"
#include "tests/reference/outside/said.hpp"

using namespace rackwright;

TEST_CASE("the score of a normal forecast agrees with its integral") {
  const auto rows = outside::table("crps_normal.csv");
  REQUIRE(rows.size() == 24);
  for (const auto& row : rows) {
    INFO("mean " << row[0] << ", sd " << row[1] << ", y " << row[2]);
    CHECK(study::crps_of_normal(row[0], row[1], row[2]) == Approx(row[3]).epsilon(1e-8));
  }
}

TEST_CASE("the score of a sample agrees with its integral") {
  const auto rows = outside::table("crps_sample.csv");
  REQUIRE(rows.size() == 4);
  for (const auto& row : rows) {
    std::vector<double> sample{3.1, 4.4, 4.7, 2.2, 5.9, 4.4, 6.3};
    INFO("y " << row[0]);
    CHECK(study::crps_of_sample(sample, row[0]) == Approx(row[1]).epsilon(1e-12));
  }
}
