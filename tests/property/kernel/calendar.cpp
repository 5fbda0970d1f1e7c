// The calendar against std::map under the same order, over random histories.

#include "sim/kernel/calendar.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <vector>

#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::kernel;

namespace {
std::size_t below(random::Stream& engine, std::size_t n) { return static_cast<std::size_t>(engine() % n); }
}  // namespace

TEST_CASE("random scheduling, cancelling and popping agree with an ordered map") {
  // Narrow times make ties the rule; the mix of operations lets the calendar fill and empty many times.
  const std::size_t spread = GENERATE(1U, 4U, 1000U);
  const std::size_t lean = GENERATE(3U, 5U, 6U);
  random::Stream engine(random::make_key(7, spread), random::Purpose::test, static_cast<std::uint32_t>(lean));
  Calendar<int> calendar;
  std::map<std::tuple<Ticks, int, int>, Handle> model;
  std::vector<std::pair<std::tuple<Ticks, int, int>, Handle>> ever;
  std::size_t wrong = 0;
  std::size_t most = 0;  // events live at once
  int sequence = 0;
  for (int i = 0; i < 60000; ++i) {
    const std::size_t what = below(engine, 10);
    if (what < lean) {
      const std::tuple key{static_cast<Ticks>(below(engine, spread)), static_cast<int>(below(engine, 3)), ++sequence};
      const Handle h = calendar.schedule(std::get<0>(key), static_cast<std::uint8_t>(std::get<1>(key)), sequence);
      model.emplace(key, h);
      ever.emplace_back(key, h);
    } else if (what < 8 && !model.empty()) {
      const auto event = calendar.pop();
      const std::tuple key{event.time(), static_cast<int>(event.phase()), event.payload};
      wrong += key != model.begin()->first;
      model.erase(model.begin());
    } else if (!ever.empty()) {
      const auto& [key, handle] = ever[below(engine, ever.size())];  // often one long gone
      wrong += calendar.cancel(handle) != (model.erase(key) == 1);
    }
    if (i % 9999 == 9998) {
      calendar.clear();
      model.clear();
      ever.resize(std::min<std::size_t>(ever.size(), 50));  // some stale ones must stay refused after clear()
    }
    wrong += calendar.size() != model.size();
    most = std::max(most, calendar.size());
    wrong += calendar.keys_held() > 2 * most + Calendar<int>::slack + 1;
    if (!model.empty() && i % 5 == 0) wrong += calendar.next_key().time() != std::get<0>(model.begin()->first);
  }
  CHECK(wrong == 0);
}

TEST_CASE("ties come out by phase, then as scheduled, for every insertion order") {
  std::vector<int> phases{0, 0, 1, 1, 2, 2, 3};
  std::size_t orders = 0, wrong = 0;
  do {
    Calendar<std::pair<int, int>> calendar;
    for (int i = 0; i < 7; ++i) {
      const int phase = phases[static_cast<std::size_t>(i)];
      calendar.schedule(100, static_cast<std::uint8_t>(phase), {phase, i});
    }
    std::pair<int, int> last{-1, -1};
    while (!calendar.empty()) {
      const auto now = calendar.pop().payload;
      wrong += !(last < now);
      last = now;
    }
    ++orders;
  } while (std::next_permutation(phases.begin(), phases.end()));
  CHECK(orders == 630);
  CHECK(wrong == 0);
}

TEST_CASE("every size of heap sorts") {
  random::Stream engine(random::make_key(8, 0), random::Purpose::test);
  std::size_t wrong = 0;
  for (std::size_t n = 1; n <= 400; ++n) {
    Calendar<int> calendar;
    std::vector<Ticks> times(n);
    for (Ticks& t : times) {
      t = static_cast<Ticks>(below(engine, 2 * n)) - static_cast<Ticks>(n);
      calendar.schedule(t, 0, 0);
    }
    std::sort(times.begin(), times.end());
    for (const Ticks t : times) wrong += calendar.pop().time() != t;
    wrong += !calendar.empty();
  }
  CHECK(wrong == 0);
}
