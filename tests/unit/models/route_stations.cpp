#include "models/route/feeding_rounds.hpp"
#include "models/route/stations.hpp"

#include <stdexcept>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::route;

namespace {

Plan planned(const LineShape& shape, Handling handling = Handling::ladder, const Times& times = {}) {
  return plan(usual_layout(shape, handling, times), shape, handling, times);
}

}  // namespace

TEST_CASE("the rack is the bottleneck of the usual line: positions over days") {
  const Plan p = planned({});
  CHECK(p.daily_ceiling == Approx(5.0));
  CHECK(p.bottleneck == "rack");
}

TEST_CASE("a rack of fewer places than days passes a tray less often than daily") {
  LineShape shape;
  shape.days_on_rack = days(7);
  for (const Handling handling : {Handling::ladder, Handling::fixed})
    for (const int places : {1, 3, 6}) {
      shape.positions = places;
      CHECK(planned(shape, handling).daily_ceiling == near(places / 7.0, 1e-6));
      CHECK(planned(shape, handling).bottleneck == "rack");
    }
}

TEST_CASE("a ladder needs whole lanes, fixed places do not") {
  LineShape shape;
  shape.positions = 42;
  CHECK(planned(shape, Handling::ladder).daily_ceiling == Approx(5.0));
  CHECK(planned(shape, Handling::fixed).daily_ceiling == Approx(5.25));
}

TEST_CASE("each station can bind") {
  LineShape shape;
  shape.positions = 400;
  shape.keeper_minutes_per_day = 1000.0;
  CHECK(planned(shape).bottleneck == "soak buckets");
  CHECK(planned(shape).daily_ceiling == Approx(8.0));
  shape.soak_buckets = 40;
  shape.wash_trays_per_day = 12.0;
  CHECK(planned(shape).bottleneck == "wash");
  shape.wash_trays_per_day = 500.0;
  shape.keeper_minutes_per_day = 60.0;
  CHECK(planned(shape).bottleneck == "keeper's time");
}

TEST_CASE("a station that passes a tray in three days is a limit, one of nought has none") {
  LineShape shape;
  shape.wash_trays_per_day = 1.0 / 3.0;
  CHECK(planned(shape).daily_ceiling == near(1.0 / 3.0, 1e-6));
  CHECK(planned(shape).bottleneck == "wash");
  shape.wash_trays_per_day = 0.0;
  CHECK(planned(shape).bottleneck == "rack");
}

TEST_CASE("a soak longer than the time between batches holds the bucket for two") {
  LineShape shape;
  shape.positions = 1000;
  shape.keeper_minutes_per_day = 1000.0;
  shape.batches_per_day = 2.0;
  shape.soak = Hours(10.0);
  CHECK(planned(shape).daily_ceiling == Approx(16.0));
  shape.soak = Hours(13.0);
  CHECK(planned(shape).daily_ceiling == Approx(8.0));
}

TEST_CASE("a round that only feeds has its walk, from the rack by the animals to the washing place and back") {
  LineShape shape;
  const Times times;
  const auto walk = [&](double rounds) {
    return plan(with_feeding_rounds(usual_layout(shape, Handling::fixed, times), shape, rounds), shape, Handling::fixed, times);
  };
  const double batch = 2.0 * (6.0 + 4.0 + 30.0 + 20.0), feeding = 2.0 * (30.0 + 20.0);
  CHECK(walk(1.0).walk_per_day.value() == Approx(batch));
  CHECK(walk(2.0).walk_per_day.value() == Approx(batch + feeding));
  CHECK(walk(2.0).minutes_per_day == Approx(walk(1.0).minutes_per_day + feeding / times.walking_speed));
  CHECK(walk(2.0).daily_ceiling <= walk(1.0).daily_ceiling);
  shape.batches_per_day = 2.0;  // sown on both rounds, and fed on the same walk
  CHECK(walk(2.0).walk_per_day.value() == Approx(2.0 * batch));
  CHECK(walk(1.0).walk_per_day.value() == Approx(2.0 * batch));
}

TEST_CASE("walking is there and back by the shortest way, once a batch") {
  LineShape shape;
  const Times times;
  CHECK(planned(shape).walk_per_day.value() == Approx(2.0 * (6.0 + 4.0 + 30.0 + 20.0)));
  Layout layout = usual_layout(shape, Handling::fixed, times);
  layout.paths.push_back({3, 5, Metres(10.0)});
  CHECK(plan(layout, shape, Handling::fixed, times).walk_per_day.value() == Approx(2.0 * (6.0 + 4.0 + 10.0)));
  layout.paths.clear();
  const Plan nowhere = plan(layout, shape, Handling::fixed, times);
  CHECK(nowhere.daily_ceiling == 0.0);
  CHECK(nowhere.bottleneck == "no path");
  layout.paths.push_back({0, 77, Metres(1.0)});
  CHECK_THROWS_AS(plan(layout, shape, Handling::fixed, times), std::logic_error);
}

TEST_CASE("minutes a day agree with the sessions they are made of") {
  LineShape shape;
  const Times times;
  SessionWork work;
  work.trays_sown = work.trays_harvested = work.trays_washed = 4;
  work.trays_moved = 4 * 8;
  work.groups_fed = 3;
  work.batches_soaked = 1;
  const double walking = 120.0 / 60.0;
  CHECK(planned(shape).minutes_per_day == Approx(session_minutes(times, work) + walking));
  CHECK(planned(shape, Handling::fixed).minutes_per_day == Approx(planned(shape).minutes_per_day - 4 * 8 * 0.25));
}

TEST_CASE("a keeper with no minutes passes no trays") {
  LineShape shape;
  shape.keeper_minutes_per_day = 0.0;
  CHECK(planned(shape).daily_ceiling == 0.0);
  CHECK(planned(shape).bottleneck == "keeper's time");
}

TEST_CASE("lifting: best posture gives the load constant, beyond the limits nothing") {
  const auto limit = [](double h, double v, double d, double a, double f) {
    return lifting_limit(Metres(h), Metres(v), Metres(d), Degrees(a), f, 0).value();
  };
  CHECK(limit(0.25, 0.75, 0.25, 0.0, 0.2) == Approx(23.0));
  CHECK(limit(0.10, 0.75, 0.10, 0.0, 0.0) == Approx(23.0));
  CHECK(limit(0.63, 0.75, 0.25, 0.0, 0.2) == Approx(23.0 * 25.0 / 63.0));
  CHECK(limit(0.64, 0.75, 0.25, 0.0, 0.2) == 0.0);
  CHECK(limit(0.25, 1.76, 0.25, 0.0, 0.2) == 0.0);
  CHECK(limit(0.25, 0.75, 1.76, 0.0, 0.2) == 0.0);
  CHECK(limit(0.25, 0.75, 0.25, 136.0, 0.2) == 0.0);
  CHECK(limit(0.25, 0.75, 0.25, 0.0, 15.5) == 0.0);
  CHECK_THROWS_AS(lifting_limit(Metres(0.3), Metres(0.75), Metres(0.3), Degrees(0.0), 1.0, 3), std::logic_error);
}

TEST_CASE("the frequency multiplier is linear between its rows and low hands lose it sooner") {
  CHECK(frequency_multiplier(0.35, Metres(0.8)) == Approx(0.985));
  CHECK(frequency_multiplier(13.0, Metres(0.8)) == Approx(0.34));
  CHECK(frequency_multiplier(13.0, Metres(0.5)) == 0.0);
  CHECK(frequency_multiplier(3.0, Metres(0.5), LiftDuration::up_to_8_hours) == Approx(0.55));
}
