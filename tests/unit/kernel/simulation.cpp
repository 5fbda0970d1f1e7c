#include "sim/kernel/simulation.hpp"

#include <limits>
#include <stdexcept>
#include <vector>

#include "sim/kernel/estimate.hpp"
#include "sim/kernel/inventory_model.hpp"
#include "sim/kernel/queue_models.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright::kernel;

TEST_CASE("the clock follows the events and ends at the end") {
  Simulation<int> simulation;
  std::vector<Ticks> times;
  simulation.schedule_at(3, 0, 1);
  simulation.schedule_at(10, 0, 2);
  simulation.schedule_at(12, 0, 3);
  const auto note = [&](const auto& event) {
    CHECK(simulation.now() == event.time());
    times.push_back(event.time());
  };
  simulation.run_until(10, note);
  CHECK(times == std::vector<Ticks>{3});  // an event at the end belongs to the next stretch
  CHECK(simulation.now() == 10);
  CHECK(simulation.pending() == 2);
  simulation.run_until(20, note);
  CHECK(times == std::vector<Ticks>{3, 10, 12});
  CHECK(simulation.now() == 20);
}

TEST_CASE("a stretch can end within an instant, before one of its phases") {
  Simulation<int> simulation;
  std::vector<int> order;
  simulation.schedule_at(4, 3, 1);
  simulation.schedule_at(5, 0, 2);
  simulation.schedule_at(5, 1, 3);
  simulation.schedule_at(5, 2, 4);
  const auto note = [&](const auto& event) { order.push_back(event.payload); };
  simulation.run_until(5, 1, note);
  CHECK(order == std::vector<int>{1, 2});
  CHECK(simulation.now() == 5);
  CHECK(simulation.pending() == 2);
  simulation.run_until(5, 2, note);
  CHECK(order == std::vector<int>{1, 2, 3});
  simulation.run_until(6, note);
  CHECK(order == std::vector<int>{1, 2, 3, 4});
  CHECK_THROWS_AS(simulation.run_until(5, 1, note), std::logic_error);
}

TEST_CASE("the past is refused") {
  Simulation<int> simulation;
  simulation.run_until(5, [](const auto&) {});
  CHECK_THROWS_AS(simulation.schedule_at(4, 0, 0), std::logic_error);
  CHECK_THROWS_AS(simulation.schedule_after(-1, 0, 0), std::logic_error);
  CHECK_THROWS_AS(simulation.schedule_after(std::numeric_limits<Ticks>::max(), 0, 0), std::logic_error);
  CHECK_THROWS_AS(simulation.run_until(4, [](const auto&) {}), std::logic_error);
  CHECK_NOTHROW(simulation.schedule_at(5, 0, 0));
  CHECK(simulation.pending() == 1);
}

TEST_CASE("an event can schedule another at its own instant") {
  Simulation<int> simulation;
  std::vector<int> order;
  simulation.schedule_at(1, 1, 1);
  simulation.schedule_at(1, 1, 2);
  simulation.run_until(2, [&](const auto& event) {
    order.push_back(event.payload);
    if (event.payload == 1) {
      simulation.schedule_after(0, 0, 3);  // an earlier phase: before what is left of phase 1
      simulation.schedule_after(0, 1, 4);
    }
  });
  CHECK(order == std::vector<int>{1, 3, 2, 4});
}

TEST_CASE("a stopped run can go on") {
  Simulation<int> simulation;
  std::vector<int> order;
  for (int i = 1; i <= 4; ++i) simulation.schedule_at(i, 0, i);
  const auto stop_at_two = [&](const auto& event) {
    order.push_back(event.payload);
    if (event.payload == 2) simulation.stop();
  };
  simulation.run_until(9, stop_at_two);
  CHECK(simulation.now() == 2);
  simulation.run(stop_at_two);
  CHECK(order == std::vector<int>{1, 2, 3, 4});
  CHECK(simulation.now() == 4);
}

TEST_CASE("a throwing handler leaves a simulation that can be reset") {
  Simulation<int> simulation;
  simulation.schedule_at(1, 0, 1);
  simulation.schedule_at(2, 0, 2);
  CHECK_THROWS_AS(simulation.run([](const auto&) { throw std::runtime_error("x"); }), std::runtime_error);
  simulation.reset();
  CHECK(simulation.pending() == 0);
  CHECK(simulation.now() == 0);
  int seen = 0;
  simulation.schedule_at(0, 0, 7);
  simulation.run([&](const auto& event) { seen = event.payload; });
  CHECK(seen == 7);
}

TEST_CASE("the fingerprint tells order, time, phase and state apart") {
  const auto print = [](Ticks time, std::uint8_t phase, std::uint64_t state) {
    Simulation<int, Fingerprint> simulation;
    simulation.schedule_at(time, phase, 0);
    simulation.schedule_at(8, 1, 1);
    simulation.run([&](const auto&) { simulation.trace(state); });
    return simulation.fingerprint();
  };
  CHECK(print(5, 2, 3) == print(5, 2, 3));
  CHECK(print(5, 2, 3) != print(6, 2, 3));
  CHECK(print(5, 2, 3) != print(5, 3, 3));
  CHECK(print(5, 2, 3) != print(5, 2, 4));
  CHECK(Simulation<int>{}.fingerprint() == 0);
}

TEST_CASE("a reset simulation repeats itself bit for bit") {
  Simulation<int, Fingerprint> simulation;
  const auto once = [&] {
    simulation.reset();
    for (int i = 0; i < 50; ++i) simulation.schedule_at(i * 37 % 20, static_cast<std::uint8_t>(i % 3), i);
    simulation.run([&](const auto& event) {
      if (event.time() < 200) simulation.schedule_after(event.payload % 7, 1, event.payload + 1);
    });
    return simulation.fingerprint();
  };
  CHECK(once() == once());
}

TEST_CASE("averages and their errors") {
  Averager a;
  CHECK_THROWS_AS(a.estimate(), std::logic_error);
  for (const double x : {1.0, 2.0, 3.0, 4.0}) a.add(x);
  CHECK(a.estimate().mean == Approx(2.5));
  CHECK(a.variance() == Approx(5.0 / 3.0));
  CHECK(a.estimate().standard_error == Approx(std::sqrt(5.0 / 12.0)));
}

TEST_CASE("queues and inventories refuse nonsense") {
  using rackwright::random::Stream;
  Stream engine({}, rackwright::random::Purpose::test);
  CHECK_THROWS_AS((Queue<Stream>({1, 1.0, 1.0, ServiceLaw::exponential}, engine)), std::logic_error);
  CHECK_THROWS_AS((Queue<Stream>({0, 0.5, 1.0, ServiceLaw::exponential}, engine)), std::logic_error);
  InventoryModel wrong;
  wrong.order_up_to = 10;
  CHECK_THROWS_AS((Inventory<Stream>(wrong, engine)), std::logic_error);
  Inventory<Stream> inventory({}, engine);
  inventory.run();
  CHECK_THROWS_AS(inventory.run(), std::logic_error);
}
