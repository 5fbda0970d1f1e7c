#include "sim/study/bands.hpp"

#include <limits>
#include <stdexcept>
#include <vector>

#include "sim/replication/columns.hpp"
#include "sim/study/quantile_sketch.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

// Two days; served is 10 r on the first and -r on the second.
std::vector<DailyRow> rows(int r) {
  std::vector<DailyRow> made(2);
  made[0].served = 10.0F * static_cast<float>(r);
  made[1].served = -static_cast<float>(r);
  return made;
}

constexpr std::size_t served = 1;  // place in daily_columns()

}  // namespace

TEST_CASE("bands give mean and quantiles by day and variable") {
  REQUIRE(daily_columns()[served].name == "served");
  Bands bands(2);
  for (int r = 1; r <= 9; ++r) bands.add(rows(r));
  CHECK(bands.days() == 2);
  CHECK(bands.replications() == 9);
  CHECK(bands.mean(0, served) == 50.0);
  CHECK(bands.mean(1, served) == -5.0);
  CHECK(bands.mean(0, 0) == 0.0);
  CHECK(bands.quantile(0, served, 0.5) == Approx(50.0).epsilon(QuantileSketch::relative_error));
  CHECK(bands.quantile(0, served, 0.0) == 10.0);
  CHECK(bands.quantile(0, served, 1.0) == 90.0);
  CHECK(bands.quantile(1, served, 0.5) == Approx(-5.0).epsilon(QuantileSketch::relative_error));
}

TEST_CASE("parts merge to the same bits in any order") {
  Bands whole(2), early(2), late(2);
  for (int r = 1; r <= 20; ++r) {
    whole.add(rows(r * r));
    (r % 3 == 0 ? early : late).add(rows(r * r));
  }
  late.merge(early);
  CHECK(late.replications() == 20);
  for (int day = 0; day < 2; ++day) {
    CHECK(late.mean(day, served) == whole.mean(day, served));
    for (const double p : {0.1, 0.25, 0.5, 0.9}) CHECK(late.quantile(day, served, p) == whole.quantile(day, served, p));
  }
}

TEST_CASE("a year that is not finite, or of the wrong length, is refused whole") {
  Bands bands(2);
  bands.add(rows(3));
  auto bad = rows(4);
  bad[1].room_mean = std::numeric_limits<float>::quiet_NaN();
  CHECK_THROWS_AS(bands.add(bad), std::logic_error);
  bad.pop_back();
  CHECK_THROWS_AS(bands.add(bad), std::logic_error);
  CHECK(bands.replications() == 1);
  CHECK(bands.mean(0, served) == 30.0);
}
