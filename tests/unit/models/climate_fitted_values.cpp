// The table of what a fit of a record finds.
#include <cmath>
#include <set>
#include <string>

#include "models/climate/fitted_values.hpp"
#include "tests/catch.hpp"

using namespace rackwright::climate;

TEST_CASE("every fitted value lands in a field of its own, in parts of a unit, days of the year come round again and nothing else does") {
  std::set<std::string_view> keys;
  for (const auto& values : {fitted_values(), fitted_dew_values()}) {
    for (const FittedValue& value : values) {
      INFO(value.key);
      CHECK(keys.insert(value.key).second);
      CHECK(value.key.starts_with("climate."));
      CHECK((value.parts == 10.0 || value.parts == 100.0 || value.parts == 1000.0));
      const bool day = value.key.ends_with("peak") || value.key.ends_with("peak_day") || value.key == "climate.range_lead";
      CHECK((value.period > 0.0) == day);
      if (day) CHECK((value.period == 365.0 || value.period == 182.5));
      CHECK((value.period == 182.5) == (day && value.key.find("half_year") != std::string_view::npos));
      Parameters p;
      const double before = value.get(p);
      value.set(p, before + 0.125);
      CHECK(value.get(p) == before + 0.125);
      for (const FittedValue& other : values)
        if (other.key != value.key) CHECK(other.get(p) == other.get(Parameters{}));
    }
  }
}
