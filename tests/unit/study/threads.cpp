#include "sim/study/threads.hpp"

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <string>
#include <vector>

#include "tests/catch.hpp"

using namespace rackwright::study;

namespace {

const auto squares = [](int) { return [](std::size_t item) { return item * item; }; };

}  // namespace

TEST_CASE("results come in order whatever takes longest, each once, on any number of threads") {
  for (const int threads : {1, 2, 5}) {
    std::vector<std::size_t> seen;
    const auto uneven = [](int) {
      return [](std::size_t item) {
        std::this_thread::sleep_for(std::chrono::microseconds(item % 3 == 0 ? 400 : 20));
        return item * item;
      };
    };
    const auto n = work_in_order<std::size_t>(60, threads, nullptr, uneven, [&](std::size_t item, std::size_t square) {
      CHECK(square == item * item);
      seen.push_back(item);
    });
    REQUIRE(n == 60);
    for (std::size_t i = 0; i < seen.size(); ++i) CHECK(seen[i] == i);
  }
}

TEST_CASE("no items: no thread is started and nothing is delivered") {
  const auto never = [](int) {
    FAIL("a worker was made");
    return [](std::size_t item) { return item; };
  };
  CHECK(work_in_order<std::size_t>(0, 3, nullptr, never, [](std::size_t, std::size_t) {}) == 0);
}

TEST_CASE("no more results than the window are alive at once, however slow the sink") {
  std::atomic<int> alive{0}, most{0};
  struct Counted {
    std::atomic<int>* count;
  };
  const auto make = [&](int) {
    return [&](std::size_t) {
      const int now = ++alive;
      int before = most.load();
      while (now > before && !most.compare_exchange_weak(before, now)) {}
      return Counted{&alive};
    };
  };
  work_in_order<Counted>(200, 2, nullptr, make, [](std::size_t, const Counted& counted) {
    std::this_thread::sleep_for(std::chrono::microseconds(50));
    --*counted.count;
  });
  CHECK(most.load() <= 2 * 2 + 2 + 1);  // the window and the one in the sink's hands
}

TEST_CASE("an exception of a worker reaches the caller") {
  const auto make = [](int) {
    return [](std::size_t item) {
      if (item == 7) throw std::runtime_error("seven");
      return item;
    };
  };
  CHECK_THROWS_WITH(work_in_order<std::size_t>(50, 2, nullptr, make, [](std::size_t, std::size_t) {}), "seven");
}

TEST_CASE("an exception of the sink reaches the caller once every thread has ended") {
  std::atomic<int> running{0};
  struct Watch {
    std::atomic<int>* count;
    bool mine = true;
    explicit Watch(std::atomic<int>* c) : count(c) { ++*count; }
    Watch(Watch&& other) noexcept : count(other.count) { other.mine = false; }
    ~Watch() { if (mine) --*count; }
    std::size_t operator()(std::size_t item) const { return item; }
  };
  const auto make = [&](int) { return Watch(&running); };
  CHECK_THROWS_WITH(work_in_order<std::size_t>(500, 3, nullptr, make,
                                               [](std::size_t item, std::size_t) {
                                                 if (item == 5) throw std::runtime_error("full");
                                               }),
                    "full");
  CHECK(running.load() == 0);
}

TEST_CASE("a stop lets what is under way finish and delivers an unbroken beginning") {
  std::atomic<bool> stop{false};
  std::vector<std::size_t> seen;
  const auto n = work_in_order<std::size_t>(1000, 2, &stop, squares, [&](std::size_t item, std::size_t) {
    seen.push_back(item);
    if (item == 9) stop = true;
  });
  CHECK(n == seen.size());
  CHECK(n >= 10);
  CHECK(n <= 10 + 2 * 2 + 2);
  CHECK(seen.back() + 1 == n);
}
