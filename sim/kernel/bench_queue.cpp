// M/M/1 at 80 % load: the queue on the kernel, the same on std::priority_queue, and Lindley's recursion, which needs no list at all. In turns
// within one process, same draws; the three must agree on the mean wait. Not a test.
//
//   bench_queue [ROUNDS]

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <queue>
#include <tuple>
#include <vector>

#include "sim/kernel/queue_models.hpp"

namespace {

using namespace rackwright::kernel;

constexpr std::int64_t customers = 1'000'000;
const QueueModel model{};

// A generator that costs next to nothing (SplitMix64), so that lists are compared.
struct Generator {
  using result_type = std::uint64_t;
  static constexpr result_type min() { return 0; }
  static constexpr result_type max() { return ~result_type{0}; }
  std::uint64_t state = 1;
  result_type operator()() {
    std::uint64_t z = (state += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31U);
  }
};

double on_kernel() {
  Generator luck;
  Queue<Generator> queue(model, luck);
  return queue.serve(customers).wait / static_cast<double>(customers);
}

// The same events in the same order, kept as most programs keep them.
class Plain {
 public:
  double serve() {
    arrival();
    while (begun_ < customers) {
      const Item next = list_.top();
      list_.pop();
      const double since = static_cast<double>(next.time - now_) / unit_;  // the model keeps these sums, so this does too
      waiting_time_ += since * static_cast<double>(waiting_.size());
      in_system_time_ += since * static_cast<double>(waiting_.size() + (busy_ ? 1 : 0));
      now_ = next.time;
      if (next.arrival) arrive();
      else depart();
    }
    return in_system_time_ >= waiting_time_ ? wait_ / static_cast<double>(customers) : 0.0;
  }

 private:
  struct Item {
    Ticks time;
    std::uint64_t sequence;
    bool arrival;
    [[nodiscard]] std::tuple<Ticks, bool, std::uint64_t> key() const { return {time, arrival, sequence}; }
    bool operator<(const Item& other) const { return other.key() < key(); }
  };
  void put(bool arrival, double delay) { list_.push({now_ + std::llround(delay * unit_), ++sequence_, arrival}); }
  void arrival() { put(true, exponential_by_inversion(luck_, 1.0 / model.arrival_rate)); }
  void begin() {
    ++begun_;
    put(false, exponential_by_inversion(luck_, 1.0 / model.service_rate));
  }
  void arrive() {
    arrival();
    if (busy_) return waiting_.push(now_);
    busy_ = true;
    begin();
  }
  void depart() {
    busy_ = !waiting_.empty();
    if (!busy_) return;
    wait_ += static_cast<double>(now_ - waiting_.front()) / unit_;
    waiting_.pop();
    begin();
  }

  Generator luck_;
  std::priority_queue<Item> list_;
  std::queue<Ticks> waiting_;
  std::uint64_t sequence_ = 0;
  std::int64_t begun_ = 0;
  Ticks now_ = 0;
  double wait_ = 0.0;
  bool busy_ = false;
  double unit_ = 1e6 * model.service_rate, waiting_time_ = 0.0, in_system_time_ = 0.0;
};

double on_heap() { return Plain().serve(); }

// W' = max(0, W + S - A): other draws, so the mean agrees within its standard error only.
double by_hand() {
  Generator luck;
  double wait = 0.0, sum = 0.0;
  for (std::int64_t i = 0; i < customers; ++i) {
    sum += wait;
    const double service = exponential_by_inversion(luck, 1.0 / model.service_rate);
    wait = std::max(0.0, wait + service - exponential_by_inversion(luck, 1.0 / model.arrival_rate));
  }
  return sum / static_cast<double>(customers);
}

template <class Way>
double nanoseconds(Way&& way, double& mean) {
  const auto start = std::chrono::steady_clock::now();
  mean = way();
  return std::chrono::duration<double, std::nano>(std::chrono::steady_clock::now() - start).count() / static_cast<double>(customers);
}

}  // namespace

int main(int argc, char** argv) {
  const int rounds = argc > 1 ? std::atoi(argv[1]) : 15;
  std::vector<double> kernel, heap, hand, over_heap, over_hand;
  double a = 0.0, b = 0.0, c = 0.0;
  for (int round = 0; round < rounds; ++round) {
    kernel.push_back(nanoseconds(on_kernel, a));
    heap.push_back(nanoseconds(on_heap, b));
    hand.push_back(nanoseconds(by_hand, c));
    over_heap.push_back(heap.back() / kernel.back());
    over_hand.push_back(kernel.back() / hand.back());
  }
  if (std::abs(a - b) > 1e-9 * a || std::abs(a - c) > 0.2) return std::puts("the three disagree"), 1;
  std::printf("%-34s %10s   %s\n", "ns a customer", "median", "quartiles");
  const auto line = [rounds](const char* what, std::vector<double> v) {
    std::sort(v.begin(), v.end());
    const auto at = [&](double p) { return v[static_cast<std::size_t>(p * (rounds - 1) + 0.5)]; };
    std::printf("%-34s %10.2f   %.2f to %.2f\n", what, at(0.5), at(0.25), at(0.75));
  };
  line("kernel", kernel);
  line("std::priority_queue", heap);
  line("by hand (Lindley)", hand);
  line("std::priority_queue over kernel", over_heap);
  line("kernel over hand", over_hand);
}
