// Counts every allocation of this test program by replacing the global operators.


#include "sim/kernel/simulation.hpp"
#include "tests/allocations.hpp"
#include "tests/catch.hpp"

using namespace rackwright::kernel;

namespace {

// Keeps about `pending` events going, cancelling every third and waking it again.
long work(Simulation<int>& simulation, int pending, Ticks end) {
  for (int i = 0; i < pending; ++i) simulation.schedule_after(i, 0, i);
  Handle last;
  long happened = 0;
  simulation.run_until(end, [&](const auto& event) {
    ++happened;
    if (event.payload % 3 == 0 && simulation.cancel(last)) simulation.schedule_after(40, 2, event.payload + 1);
    last = simulation.schedule_after(7 + event.payload % 11, 1, event.payload + 1);
  });
  return happened;
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

TEST_CASE("no allocation after reserve, whatever is cancelled") {
  Simulation<int> simulation;
  simulation.reserve(300);
  const long before = allocations;
  const long happened = work(simulation, 200, 100'000);
  const long taken = allocations - before;
  CHECK(happened > 1'000'000);
  CHECK(taken == 0);
}

TEST_CASE("no allocation in a run after reset that is no larger than the one before") {
  Simulation<int> simulation;
  const long first = work(simulation, 200, 10'000);
  simulation.reset();
  const long before = allocations;
  const long second = work(simulation, 200, 10'000);
  const long taken = allocations - before;
  CHECK(taken == 0);
  CHECK(first == second);
}

TEST_CASE("no allocation from many cancellations in a row") {
  Calendar<int> calendar;
  calendar.reserve(100);
  const long before = allocations;
  for (int round = 0; round < 1000; ++round) {
    Handle handles[100];
    for (int i = 0; i < 100; ++i) handles[i] = calendar.schedule(round + i, 0, i);
    for (const Handle h : handles) calendar.cancel(h);
  }
  const long taken = allocations - before;
  CHECK(taken == 0);
}
