#include "sim/study/limits.hpp"

#include <span>

#include "sim/replication/season_book.hpp"
#include "sim/study/kept.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

Outcome good_year() {
  Outcome o;
  o.days = 365.0;
  o.fill_rate = 0.98;
  o.worst_season_fill_rate = 0.95;
  o.short_days = 10;
  o.longest_short_run = 3;
  o.cost_total = 1000.0;
  return o;
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("each limit is broken by its own amount and no other, at the limit not yet") {
  Target t;
  t.fill_rate = 0.98;
  t.short_days = 10.0;
  t.longest_short_run = 3.0;
  t.season_fill_rate = 0.95;
  t.spoiled_fed = 0.0;
  t.yearly_cost = 1000.0;
  CHECK(broken_limits(good_year(), t).empty());
  const auto with = [&](auto change) {
    Outcome o = good_year();
    change(o);
    return broken_limits(o, t);
  };
  CHECK(with([](Outcome& o) { o.fill_rate = 0.97; }) == Names{"fill rate"});
  CHECK(with([](Outcome& o) { o.short_days = 11; }) == Names{"short days"});
  CHECK(with([](Outcome& o) { o.longest_short_run = 4; }) == Names{"short days in a row"});
  CHECK(with([](Outcome& o) { o.worst_season_fill_rate = 0.94; }) == Names{"worst season"});
  CHECK(with([](Outcome& o) { o.spoiled_fed = 1; }) == Names{"spoiled mats fed"});
  CHECK(with([](Outcome& o) { o.trays_fed = 1000, o.unripe_fed = 100; }).empty());
  CHECK(with([](Outcome& o) { o.trays_fed = 1000, o.unripe_fed = 101; }) == Names{"unripe mats fed"});
  t.unripe_fed = 1.0;
  CHECK(with([](Outcome& o) { o.trays_fed = 1000, o.unripe_fed = 1000; }).empty());
  CHECK(with([](Outcome& o) { o.cost_total = 1001.0; }) == Names{"yearly cost"});
  Outcome two_years = good_year();  // amounts are for 365 days
  two_years.days = 730.0;
  two_years.short_days = 20;
  two_years.cost_total = 2000.0;
  CHECK(broken_limits(two_years, t).empty());
}

TEST_CASE("a limit with its own share of years is a requirement apart, and so is a mean") {
  Target t;
  t.fill_rate = 0.9;
  t.spoiled_fed = 0.0;
  t.spoiled_fed_years = 0.99;
  t.mean_fill_rate = 0.97;
  t.mean_yearly_cost = 1200.0;
  const auto asked = requirements(t);
  REQUIRE(asked.size() == 4);
  CHECK(asked[0].least == 0.9);
  CHECK(asked[1].least == 0.99);
  CHECK(asked[2].kind == Requirement::Kind::mean);
  CHECK(asked[3].least == -1200.0);
  CHECK(requirement_names(t) == Names{"the limits together", "spoiled mats fed", "mean fill rate", "mean yearly cost"});
  Outcome o = good_year();
  o.spoiled_fed = 2;
  CHECK(succeeds(o, t));  // not one of those taken together
  CHECK(given_by(o, t) == std::vector<double>{1.0, 0.0, 0.98, -1000.0});
  t.spoiled_fed_years.reset();
  CHECK_FALSE(succeeds(o, t));
}

TEST_CASE("what is kept is counted requirement by requirement, and the worst tells how near the target is") {
  Target t;
  t.fill_rate = 0.5;
  t.years = 0.8;
  t.spoiled_fed = 0.0;
  t.spoiled_fed_years = 0.75;
  t.mean_yearly_cost = 500.0;
  Keeping keeping;
  CHECK(keeping.kept(t).empty());
  CHECK(gap(std::span<const Kept>()) == -1.0);
  for (int year = 0; year < 4; ++year) {
    Outcome o = good_year();
    o.spoiled_fed = year == 0 ? 3 : 0;
    keeping.add(given_by(o, t));
  }
  const auto kept = keeping.kept(t);
  REQUIRE(kept.size() == 3);
  CHECK(kept[0].value.mean == 1.0);
  CHECK(kept[1].value.mean == 0.75);
  CHECK(kept[1].value.low == near(0.3006, 1e-4));  // Wilson 1927: 3 of 4
  CHECK(gap(kept[1]) == 0.0);
  CHECK(kept[2].mean);
  CHECK(gap(kept[2]) == Approx(-1.0));  // twice the money
  CHECK(gap(kept) == Approx(-1.0));
}

TEST_CASE("the worst season is the least share of any that lies in the run for four weeks or more") {
  SeasonBook book;
  const auto days = [&](std::size_t season, int count, double served) {
    for (int d = 0; d < count; ++d) book.add(season, 10.0, served);
  };
  days(0, 27, 0.0);  // too short to count
  days(1, 92, 9.0);
  days(2, 92, 8.0);
  days(3, 91, 10.0);
  days(1, 28, 7.0);  // the next year's, by itself
  CHECK(book.worst(0.5) == Approx(0.7));
  book = SeasonBook{};
  days(0, 20, 1.0);
  CHECK(book.worst(0.5) == 0.5);
}
