#include "sim/kernel/calendar.hpp"

#include <limits>
#include <memory>
#include <stdexcept>
#include <vector>

#include "tests/catch.hpp"

using namespace rackwright::kernel;

namespace {
std::vector<int> drain(Calendar<int>& calendar) {
  std::vector<int> out;
  while (!calendar.empty()) out.push_back(calendar.pop().payload);
  return out;
}
}  // namespace

TEST_CASE("keys sort by time, then phase, then sequence") {
  const EventKey early(-5, 9, 7, 3), late(2, 0, 1, 0), later_phase(2, 1, 1, 0), later_sequence(2, 1, 2, 0);
  CHECK(early < late);
  CHECK(late < later_phase);
  CHECK(later_phase < later_sequence);
  CHECK_FALSE(later_sequence < later_sequence);
  CHECK(EventKey(std::numeric_limits<Ticks>::min(), 255, 9, 0) < EventKey(std::numeric_limits<Ticks>::max(), 0, 1, 0));
  CHECK(EventKey(2, 1, 1, 77) < later_sequence);  // the slot decides nothing
}

TEST_CASE("keys give back what they were made of") {
  constexpr auto least = std::numeric_limits<Ticks>::min(), most = std::numeric_limits<Ticks>::max();
  for (const Ticks time : {least, Ticks{-1}, Ticks{0}, Ticks{1}, most}) {
    const EventKey key(time, 255, EventKey::sequence_limit - 1, EventKey::slot_limit - 1);
    CHECK(key.time() == time);
    CHECK(key.phase() == 255);
    CHECK(key.sequence() == EventKey::sequence_limit - 1);
    CHECK(key.slot() == EventKey::slot_limit - 1);
  }
}

TEST_CASE("both ways of taking the earlier key agree") {
  std::vector<EventKey> keys;
  const std::uint64_t halves[] = {0, 1, 5, ~std::uint64_t{0}};
  for (const std::uint64_t high : halves)
    for (const std::uint64_t low : halves) keys.push_back(EventKey(high, low));
  for (const EventKey a : keys)
    for (const EventKey b : keys) {
      const Candidate fast = earlier({a, 1}, {b, 2}), plain = earlier_by_mask({a, 1}, {b, 2});
      CHECK(fast.key == plain.key);
      CHECK(fast.place == plain.place);
      CHECK(fast.place == (b < a ? 2U : 1U));
      CHECK(fast.key == (b < a ? b : a));
    }
}

TEST_CASE("events come out in order") {
  Calendar<int> calendar;
  calendar.schedule(10, 1, 3);
  calendar.schedule(10, 0, 2);
  calendar.schedule(10, 1, 4);
  calendar.schedule(-3, 9, 1);
  CHECK(calendar.size() == 4);
  CHECK(calendar.next_key().time() == -3);
  CHECK(drain(calendar) == std::vector<int>{1, 2, 3, 4});
  CHECK(calendar.empty());
}

TEST_CASE("a cancelled event does not happen") {
  Calendar<int> calendar;
  calendar.schedule(1, 0, 1);
  const Handle two = calendar.schedule(2, 0, 2);
  calendar.schedule(3, 0, 3);
  CHECK(calendar.pending(two));
  CHECK(calendar.cancel(two));
  CHECK_FALSE(calendar.pending(two));
  CHECK(calendar.size() == 2);
  CHECK(drain(calendar) == std::vector<int>{1, 3});
}

TEST_CASE("the next event can be cancelled, and the last") {
  Calendar<int> calendar;
  const Handle first = calendar.schedule(1, 0, 1);
  const Handle second = calendar.schedule(2, 0, 2);
  CHECK(calendar.cancel(first));
  CHECK(calendar.next_key().time() == 2);
  CHECK(calendar.cancel(second));
  CHECK(calendar.empty());
  CHECK_THROWS_AS(calendar.pop(), std::logic_error);
  CHECK_THROWS_AS(calendar.next_key(), std::logic_error);
}

TEST_CASE("stale handles are refused") {
  Calendar<int> calendar;
  CHECK_FALSE(calendar.cancel(Handle{}));
  const Handle happened = calendar.schedule(1, 0, 1);
  calendar.pop();
  const Handle reuses_the_slot = calendar.schedule(2, 0, 2);
  CHECK_FALSE(calendar.cancel(happened));
  CHECK(calendar.cancel(reuses_the_slot));
  CHECK_FALSE(calendar.cancel(reuses_the_slot));
  const Handle before_clear = calendar.schedule(3, 0, 3);
  calendar.clear();
  calendar.schedule(3, 0, 3);
  calendar.schedule(3, 0, 3);
  CHECK_FALSE(calendar.cancel(before_clear));
  CHECK(calendar.size() == 2);

  Calendar<int> bigger;
  Handle foreign;
  for (int i = 0; i < 9; ++i) foreign = bigger.schedule(i, 0, i);
  CHECK_FALSE(Calendar<int>{}.cancel(foreign));
}

TEST_CASE("an event cancelled and scheduled at the same instant goes to the end of its phase") {
  Calendar<int> calendar;
  const Handle moved = calendar.schedule(5, 1, 1);
  calendar.schedule(5, 1, 2);
  calendar.cancel(moved);
  calendar.schedule(5, 1, 3);
  CHECK(drain(calendar) == std::vector<int>{2, 3});
}

TEST_CASE("cancelling over and over leaves no heap of stale keys") {
  Calendar<int> calendar;
  calendar.reserve(4);
  calendar.schedule(1'000'000, 0, -1);
  for (int i = 0; i < 100000; ++i) CHECK(calendar.cancel(calendar.schedule(2'000'000 + i, 0, i)));
  CHECK(calendar.size() == 1);
  CHECK(calendar.keys_held() <= 2 * 2 + Calendar<int>::slack);
  CHECK(calendar.pop().payload == -1);
}

TEST_CASE("payloads may own things") {
  Calendar<std::unique_ptr<int>> calendar;
  calendar.schedule(2, 0, std::make_unique<int>(2));
  calendar.schedule(1, 0, std::make_unique<int>(1));
  CHECK(*calendar.pop().payload == 1);
  CHECK(*calendar.pop().payload == 2);
}
