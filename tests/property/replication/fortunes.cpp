// Luck belongs to the farm, not to the design or to the order of work.

#include <cstring>
#include <thread>
#include <vector>

#include "sim/replication/columns.hpp"
#include "sim/replication/fortune.hpp"
#include "sim/replication/replicate.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

bool same_bits(const Outcome& a, const Outcome& b) {
  for (const Column& column : outcome_columns()) {
    const double x = column.get(a), y = column.get(b);
    if (std::memcmp(&x, &y, sizeof x) != 0) return false;
  }
  return a.fingerprint == b.fingerprint;
}

}  // namespace

TEST_CASE("a replication gives the same bits alone, among a thousand, and on another thread") {
  const Plan plan = make_plan(test::small_farm());
  Replicator alone(plan);
  const Outcome lone = alone.run(11, 777);
  Replicator among(plan);
  Outcome found;
  for (std::uint32_t r = 0; r < 1000; ++r) {
    const Outcome o = among.run(11, r);
    if (r == 777) found = o;
  }
  CHECK(same_bits(lone, found));
  Outcome elsewhere;
  std::jthread([&] { Replicator other(plan); other.run(11, 3); elsewhere = other.run(11, 777); }).join();
  CHECK(same_bits(lone, elsewhere));
  CHECK_FALSE(same_bits(lone, among.run(11, 778)));
  CHECK_FALSE(same_bits(lone, among.run(12, 777)));
}

TEST_CASE("what ran before leaves nothing behind, from an empty rack either") {
  Scenario farm = test::small_farm();
  farm.run.rack_full_at_start = false;
  farm.run.length = days(20);
  const Plan plan = make_plan(farm);
  Replicator alone(plan), after(plan);
  after.run(11, 4);
  CHECK(same_bits(alone.run(11, 5), after.run(11, 5)));
}

TEST_CASE("two designs share weather, wants, slips, outages and lots") {
  const Scenario first = test::small_farm();
  Scenario second = first;
  second.rack.tiers = 6;
  second.line.days_on_rack = 6;
  second.line.trays_per_batch = 4;
  second.line.sowing_density = KilogramsPerSquareMetre(4.0);
  second.line.soak = Hours(8.0);
  second.room.heater = Watts(1000.0);
  const Plan a = make_plan(first), b = make_plan(second);
  Fortune one, two;
  one.draw(a, 5, 9);
  two.draw(b, 5, 9);
  for (int day = -lead_days; day < a.horizon_days; ++day) {
    REQUIRE(one.weather(day).maximum == two.weather(day).maximum);
    REQUIRE(one.weather(day).humidity_ratio == two.weather(day).humidity_ratio);
    for (std::size_t g = 0; g < a.groups.size(); ++g) REQUIRE(one.wanted(g, day) == two.wanted(g, day));
    for (int session : {0, 1}) REQUIRE(one.missed(day, session) == two.missed(day, session));
  }
  REQUIRE(one.pump().size() == two.pump().size());
  for (std::size_t i = 0; i < one.pump().size(); ++i) CHECK(one.pump()[i].start == two.pump()[i].start);
  // A level's emitters clog when they would on any rack that has that level.
  std::vector<Outage> shared;
  for (const Outage& clog : two.clogs())
    if (clog.tier < first.rack.tiers) shared.push_back(clog);
  REQUIRE_FALSE(shared.empty());
  CHECK(shared.size() < two.clogs().size());
  REQUIRE(one.clogs().size() == shared.size());
  for (std::size_t i = 0; i < shared.size(); ++i) {
    CHECK(one.clogs()[i].start == shared[i].start);
    CHECK(one.clogs()[i].tier == shared[i].tier);
  }
  for (std::uint32_t number = 0; number < 20; ++number) {
    CHECK(one.lot(a, 0, number).germinable == two.lot(b, 0, number).germinable);
    CHECK(one.lot(a, 0, number).vigour == two.lot(b, 0, number).vigour);
    CHECK(one.delivery_hours(a, 1, number) == two.delivery_hours(b, 1, number));
  }
}

TEST_CASE("births bring wants: a herd with kids wants more than the same herd without, and only after weaning") {
  Scenario with = test::small_farm();
  Scenario without = with;
  without.groups[0].breeding.first_birth_day = -1.0;
  Fortune kids, none;
  kids.draw(make_plan(with), 1, 0);
  none.draw(make_plan(without), 1, 0);
  double more = 0.0;
  const int weaned = 40 + static_cast<int>(in_days(with.groups[0].breeding.weaning));
  for (int day = 0; day < 365; ++day) {
    const double difference = kids.wanted(0, day) - none.wanted(0, day);
    CHECK(difference >= 0.0);
    if (day < weaned) CHECK(difference == 0.0);
    more += difference;
  }
  CHECK(more > 0.0);
}
