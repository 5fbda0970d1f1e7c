// Hold model: with n events pending, take the next and schedule another, over and over. The calendar against
// std::priority_queue of whole events under the same order, in turns within one process, so that both meet the same
// weather of the machine.

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <queue>
#include <tuple>
#include <vector>

#include "sim/kernel/calendar.hpp"

namespace {

using namespace rackwright::kernel;

struct Job {
  std::uint32_t what = 0;
  std::uint32_t which = 0;
};

// Increments drawn beforehand: exponential with mean 2^20 ticks, so that no generator is timed.
std::vector<Ticks> increments() {
  std::vector<Ticks> list(std::size_t{1} << 14);
  std::uint64_t state = 1;
  for (Ticks& t : list) {
    state = state * 6364136223846793005U + 1442695040888963407U;
    t = static_cast<Ticks>(-1048576.0 * std::log((static_cast<double>(state >> 11) + 0.5) * 0x1p-53));
  }
  return list;
}

struct Ours {
  Calendar<Job> calendar;
  void put(Ticks time, Job job) { calendar.schedule(time, static_cast<std::uint8_t>(job.what & 3U), job); }
  std::pair<Ticks, Job> take() {
    const auto event = calendar.pop();
    return {event.time(), event.payload};
  }
};

struct Theirs {
  struct Item {
    Ticks time;
    std::uint64_t sequence;
    Job job;
    std::uint8_t phase;
    bool operator<(const Item& other) const { return other.key() < key(); }  // the queue gives the greatest first
    [[nodiscard]] std::tuple<Ticks, std::uint8_t, std::uint64_t> key() const { return {time, phase, sequence}; }
  };
  std::priority_queue<Item> queue;
  std::uint64_t sequence = 0;
  void put(Ticks time, Job job) { queue.push({time, ++sequence, job, static_cast<std::uint8_t>(job.what & 3U)}); }
  std::pair<Ticks, Job> take() {
    const Item item = queue.top();
    queue.pop();
    return {item.time, item.job};
  }
};

/// Nanoseconds a hold; adds what came out to `check`, which must not depend on the list used.
template <class List>
double hold(std::size_t pending, const std::vector<Ticks>& step, std::uint64_t& check) {
  constexpr std::size_t holds = 1'000'000;
  List list;
  for (std::size_t i = 0; i < pending; ++i) list.put(step[i & (step.size() - 1)], {static_cast<std::uint32_t>(i), 0});
  const auto start = std::chrono::steady_clock::now();
  for (std::size_t i = 0; i < holds; ++i) {
    const auto [time, job] = list.take();
    check = check * 31 + static_cast<std::uint64_t>(time) + job.what;
    list.put(time + step[(i * 7 + pending) & (step.size() - 1)], job);
  }
  const std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - start;
  return took.count() / static_cast<double>(holds);
}

}  // namespace

int main() {
  const auto step = increments();
  std::printf("%8s %12s %12s %8s %17s\n", "pending", "calendar ns", "std heap ns", "ratio", "ratio quartiles");
  for (const std::size_t pending : {1U, 8U, 50U, 500U, 5000U}) {
    std::vector<double> ours, theirs, ratio;
    for (int round = 0; round < 21; ++round) {
      std::uint64_t a = 0, b = 0;
      ours.push_back(hold<Ours>(pending, step, a));
      theirs.push_back(hold<Theirs>(pending, step, b));
      ratio.push_back(theirs.back() / ours.back());
      if (a != b) return std::puts("the two lists disagree"), 1;
    }
    for (auto* v : {&ours, &theirs, &ratio}) std::sort(v->begin(), v->end());
    std::printf("%8zu %12.1f %12.1f %8.2f %8.2f %8.2f\n", pending, ours[10], theirs[10], ratio[10], ratio[5],
                ratio[15]);
  }
}
