// A small farm solved by brute force: every design of its grid played often enough that its truth is known to a few tenths of
// a percent, then sized again and again with other luck. RACKWRIGHT_LONG=1 (scripts/test --long): 500 searches and 6000 years
// a design; else 25 searches and 1500. The error allowed is 0.10; 82 wrong in 500 would come with probability 6e-6 at that
// rate, 9 in 25 with 5e-4: the false-alarm rates. Answers within three standard errors of the truth's own are not called wrong.

#include <cmath>
#include <cstdlib>
#include <variant>
#include <vector>

#include "sim/replication/replicate.hpp"
#include "sim/study/design_runs.hpp"
#include "sim/study/limits.hpp"
#include "sim/study/moments.hpp"
#include "sim/study/size.hpp"
#include "tests/catch.hpp"
#include "tests/unit/study/small_farm.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

struct Truth { double success = 0.0, success_error = 0.0; Moments cost{}; };

Truth brute_force(const Scenario& farm, const std::vector<std::string>& values, std::uint32_t years) {
  const auto design = std::get<Scenario>(design_of(farm, values));
  const Plan plan = make_plan(design);
  Replicator replicator(plan);
  Truth truth;
  for (std::uint32_t year = 0; year < years; ++year) {
    const Outcome outcome = replicator.run(987654321, year);
    truth.success += succeeds(outcome, farm.target) / static_cast<double>(years);
    truth.cost.add(outcome.cost_total * 365.0 / outcome.days);
  }
  truth.success_error = std::sqrt(truth.success * (1.0 - truth.success) / years);
  return truth;
}

}  // namespace

TEST_CASE("promise: a small farm solved by brute force") {
  const bool whole_test = std::getenv("RACKWRIGHT_LONG") != nullptr;
  Scenario farm = test::goat_farm();
  farm.target.fill_rate = 0.85;
  farm.target.years = 0.8;
  farm.target.confidence = 0.9;
  farm.choose.indifference = 0.02;
  farm.choose.most_replications = 600;
  farm.choose.choices = {{"line.trays_per_batch", {"3", "4", "5", "6"}}, {"rack.trays_per_tier", {"8", "10", "12"}}};
  std::vector<Truth> truths;
  for (const auto& values : grid(farm.choose)) truths.push_back(brute_force(farm, values, whole_test ? 6000 : 1500));

  const int searches = whole_test ? 500 : 25;
  int wrong = 0, settled = 0, chosen = 0;
  double years = 0.0;
  for (int search = 0; search < searches; ++search) {
    const SizeResult result = size(farm, {.random_seed = 100U + static_cast<std::uint64_t>(search), .threads = 1});
    years += static_cast<double>(result.replications) / searches;
    settled += result.settled;
    chosen += result.chosen >= 0;
    const auto surely_meets = [&](const Truth& t) { return t.success - 3.0 * t.success_error >= farm.target.years; };
    bool bad = false;
    if (result.chosen >= 0) {
      const Truth& taken = truths[static_cast<std::size_t>(result.chosen)];
      bad = taken.success + 3.0 * taken.success_error < farm.target.years;
      for (const Truth& other : truths) {
        const double within = 3.0 * (other.cost.standard_error() + taken.cost.standard_error());
        const bool cheaper = other.cost.mean() + within < (1.0 - farm.choose.indifference) * taken.cost.mean();
        bad = bad || (result.settled && surely_meets(other) && cheaper);
      }
    } else if (result.settled) {
      for (const Truth& other : truths) bad = bad || surely_meets(other);
    }
    wrong += bad;
  }
  WARN("small farm: " << searches << " searches of " << truths.size() << " designs, " << wrong << " wrong, " << settled
                      << " settled, " << chosen << " with a choice, " << years << " years a search");
  CHECK(wrong < (whole_test ? 82 : 9));
  CHECK(chosen > searches * 9 / 10);
}
