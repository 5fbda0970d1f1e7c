// How many years the choice spends on a fixed problem. It may change when the rules of docs/models/sizing.md change (looks,
// spending, who is simulated next); say so there and put the new counts here. It must not change when models change.

#include <cmath>
#include <cstdint>
#include <vector>

#include "sim/study/elimination.hpp"
#include "tests/catch.hpp"

using namespace rackwright::study;

TEST_CASE("years spent on six designs with every hundredth, twentieth, fifth or second year hard") {
  // A design fails in the years whose number leaves 0 by its period; luck of cost is shared but for a small ripple.
  const std::vector<std::uint32_t> period{2, 5, 20, 100, 1000, 3};
  Elimination choice(period.size(), {.confidence = 0.95, .indifference = 0.02, .first_stage = 16, .most = 2000});
  for (auto work = choice.next(); !work.empty(); work = choice.next()) {
    for (const auto& each : work) {
      for (std::uint32_t year = each.first; year < each.first + each.count; ++year) {
        const bool success = year % period[each.design] != 0;
        const double ripple = 5.0 * std::sin(0.9 * year) + std::cos(year * (2.0 + static_cast<double>(each.design)));
        choice.record(each.design, success, 100.0 + 10.0 * static_cast<double>(each.design) + ripple + (success ? 0.0 : 5.0));
      }
    }
  }
  REQUIRE(choice.best() == 2);
  CHECK(choice.settled());
  std::vector<std::uint32_t> years;
  for (std::size_t d = 0; d < period.size(); ++d) years.push_back(choice.years(d));
  CHECK(years == std::vector<std::uint32_t>{16, 122, 413, 16, 16, 16});
}
