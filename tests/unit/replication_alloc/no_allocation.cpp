// Counts every allocation of this test program by replacing the global operators.


#include "sim/replication/replicate.hpp"
#include "tests/allocations.hpp"
#include "tests/catch.hpp"
#include "tests/farm.hpp"

using namespace rackwright;

namespace {

// Allocations of 40 replications after the first.
long taken(const Scenario& scenario) {
  const Plan plan = make_plan(scenario);
  Replicator replicator(plan);
  replicator.run(1, 0);
  const long before = allocations;
  for (std::uint32_t replication = 1; replication <= 40; ++replication) replicator.run(1, replication);
  return allocations - before;
}

}  // namespace

TEST_CASE("the counter counts") {
  const long before = allocations;
  // Called by name: a pair of new and delete expressions may be left out by the compiler.
  void* first = ::operator new(24);
  void* second = ::operator new(400);
  ::operator delete(first);
  ::operator delete(second);
  CHECK(allocations >= before + 2);
}

TEST_CASE("a replication allocates nothing once the first has run") { CHECK(taken(test::small_farm()) == 0); }

TEST_CASE("nor does one full of trouble") {
  Scenario farm = test::small_farm();
  farm.spoilage.mould_rate *= 8.0;
  farm.keeper.miss_chance = 0.05;
  farm.water.pump_between_failures = farm.water.power_between_cuts = Hours(300.0);
  farm.water.emitter_between_clogs = Hours(600.0);
  CHECK(taken(farm) == 0);
}

TEST_CASE("nor does one that tries its lots and finds them short") {
  Scenario farm = test::small_farm();
  for (GrainSupply& grain : farm.grains) {
    grain.grade = grain::terms_of(grain::GradeName::feed).law;
    grain.harvest_spread = 0.4;
    grain.shortage = {.from = 150, .until = 220, .chance = 0.6, .delay = days(6), .dearer = 0.4, .instead = grain::GradeName::bulk};
    grain.policy.trial = 100;
    grain.policy.accept = 0.85;
    grain.policy.keep_back = Kilograms(50.0);
  }
  CHECK(taken(farm) == 0);
}
