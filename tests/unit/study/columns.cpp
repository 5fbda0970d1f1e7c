#include "sim/replication/columns.hpp"

#include <set>
#include <string>

#include "sim/scenario/units.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

TEST_CASE("every result column has its own name, a unit that UDUNITS reads and a long name") {
  std::set<std::string_view> names;
  for (const Column& column : outcome_columns()) {
    CAPTURE(column.name);
    CHECK(names.insert(column.name).second);
    CHECK(column.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_") == std::string_view::npos);
    CHECK(convert(2.0, column.unit, column.unit) == Approx(2.0));
    CHECK(column.long_name.size() > 5);
  }
  std::set<std::string_view> daily;
  for (const DailyColumn& column : daily_columns()) {
    CAPTURE(column.name);
    CHECK(daily.insert(column.name).second);
    CHECK(convert(2.0, column.unit, column.unit) == Approx(2.0));
  }
  // No field of a day is left out, but the signs that only stress reads.
  CHECK(daily.size() * sizeof(float) + sizeof(DaySigns) == sizeof(DailyRow));
}

TEST_CASE("the names of the result file's page are all there") {
  for (const char* name : {"fill_rate", "short_feedings", "short_days", "longest_short_run", "spoiled_trays",
                           "overdue_trays", "fodder_fresh", "fodder_dry_matter", "grain_used", "water_used",
                           "energy_used", "labour", "reserve_feed", "cost_total",
                           "cost_per_kg_dry_matter"}) {
    CAPTURE(name);
    CHECK(find_column(name) != nullptr);
  }
  CHECK(find_column("fill rate") == nullptr);
}

TEST_CASE("sums and yearly amounts are made of their parts") {
  Outcome outcome;
  outcome.days = 730.0;
  outcome.spoiled_mould = 3;
  outcome.spoiled_sour = 4;
  outcome.energy_heater = 1.0;
  outcome.energy_cooler = 2.0;
  outcome.energy_pump = 4.0;
  outcome.cost_total = 500.0;
  outcome.short_days = 12;
  outcome.short_days_by_season = {1, 2, 3, 6};
  const auto value = [&](const char* name) { return find_column(name)->get(outcome); };
  CHECK(value("spoiled_trays") == 7.0);
  CHECK(value("energy_used") == 7.0);
  CHECK(value("cost_year") == 250.0);
  CHECK(value("short_days_year") == 6.0);
  CHECK(value("short_days_sep_nov") == 6.0);
}
