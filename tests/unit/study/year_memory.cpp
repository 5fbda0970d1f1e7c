// Years of designs: simulated, remembered, or not to be had.
#include "sim/study/year_memory.hpp"

#include <map>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

Scenario two_designs() {
  Scenario farm = test::goat_farm();
  farm.choose.choices = {{"line.trays_per_batch", {"4", "6"}}};
  return farm;
}
const std::vector<std::vector<std::string>> values{{"4"}, {"6"}};

/// Keeps what it is given; counts what it was asked to keep.
class Shelf : public YearMemory {
 public:
  std::vector<Outcome> recall(std::size_t design, std::uint32_t first, std::uint32_t most) override {
    std::vector<Outcome> found;
    while (found.size() < most) {
      const auto at = years.find({design, first + static_cast<std::uint32_t>(found.size())});
      if (at == years.end()) break;
      found.push_back(at->second);
    }
    return found;
  }
  std::uint32_t next_known(std::size_t design, std::uint32_t first, std::uint32_t end) override {
    while (first < end && !years.contains({design, first})) ++first;
    return first;
  }
  void keep(std::size_t design, std::uint32_t first, std::span<const Outcome> outcomes) override {
    for (const Outcome& outcome : outcomes) years[{design, first++}] = outcome, ++kept;
  }
  std::map<std::pair<std::size_t, std::uint32_t>, Outcome> years;
  int kept = 0;
};

using Told = std::vector<std::pair<std::size_t, std::string>>;  // design and fingerprint, in the order they came

Told told(const std::vector<Elimination::Work>& work, YearMemory* memory) {
  Told all;
  SizeRequest request{.threads = 2};
  request.memory = memory;
  CHECK(run_or_recall(two_designs(), values, work, request, [&](const DesignYears& years) {
    CHECK(years.fault.empty());
    for (const Outcome& outcome : years.outcomes) all.emplace_back(years.design, std::to_string(outcome.fingerprint));
  }));
  return all;
}

}  // namespace

TEST_CASE("years that are known are not simulated again, and come in the same order as if all were") {
  const std::vector<Elimination::Work> work{{0, 3, 30}, {1, 0, 20}, {0, 33, 4}};
  const Told plain = told(work, nullptr);
  REQUIRE(plain.size() == 54);
  Shelf shelf;
  CHECK(told(work, &shelf) == plain);
  CHECK(shelf.kept == 54);
  CHECK(told(work, &shelf) == plain);
  CHECK(shelf.kept == 54);
  // Gaps in the middle, at the start and at the end are filled, and nothing else.
  for (const std::uint32_t year : {3U, 10U, 11U, 32U, 36U}) shelf.years.erase({0, year});
  for (std::uint32_t year = 0; year < 20; ++year) shelf.years.erase({1, year});
  CHECK(told(work, &shelf) == plain);
  CHECK(shelf.kept == 54 + 25);
}

TEST_CASE("a design that cannot be worked out is told with its fault, its years are not kept, and the others go on") {
  Shelf shelf;
  SizeRequest request{.threads = 1};
  request.memory = &shelf;
  int faults = 0, years_of_good = 0;
  const std::vector<std::vector<std::string>> with_bad{{"4"}, {"-3"}};
  CHECK(run_or_recall(two_designs(), with_bad, {{1, 0, 4}, {0, 0, 6}}, request, [&](const DesignYears& years) {
    if (years.design == 1) {
      CHECK_FALSE(years.fault.empty());
      CHECK(years.outcomes.empty());
      ++faults;
    } else {
      CHECK(years.fault.empty());
      years_of_good += static_cast<int>(years.outcomes.size());
    }
  }));
  CHECK(faults == 1);
  CHECK(years_of_good == 6);
  CHECK(shelf.kept == 6);
}
