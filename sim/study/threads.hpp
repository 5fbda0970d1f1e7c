#pragma once
// Work on all cores, results in order. The number of threads decides only when a result is ready, never what it is or
// when it is delivered; at most a window of results is alive at once.

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>
#include <vector>

namespace rackwright::study {

/// Threads to use: what was asked, or one a core when 0 is asked.
inline int thread_count(int asked) {
  if (asked > 0) return asked;
  const unsigned cores = std::thread::hardware_concurrency();
  return cores > 0 ? static_cast<int>(cores) : 1;
}

/// Hands out items 0..count-1 in turn and gives their results back in that order.
template <class Result>
class OrderedWork {
 public:
  OrderedWork(std::size_t count, std::size_t window, const std::atomic<bool>* stop)
      : count_(count), slots_(window), stop_(stop) {}

  /// Next item to work on; nothing when there is no more. Waits while the window is full.
  std::optional<std::size_t> take() {
    std::unique_lock lock(mutex_);
    changed_.wait(lock, [&] { return closed_ || taken_ == count_ || taken_ < delivered_ + slots_.size(); });
    if (stop_ != nullptr && stop_->load()) close_locked();
    if (closed_ || taken_ == count_) return std::nullopt;
    return taken_++;
  }

  void put(std::size_t item, Result result) {
    const std::lock_guard lock(mutex_);
    slots_[item % slots_.size()].emplace(std::move(result));
    changed_.notify_all();
  }

  /// Result of the next item in order; nothing after the last. Rethrows what a worker threw.
  std::optional<Result> next() {
    std::unique_lock lock(mutex_);
    auto& slot = slots_[delivered_ % slots_.size()];
    const auto exhausted = [&] { return delivered_ == taken_ && (closed_ || taken_ == count_); };
    changed_.wait(lock, [&] { return error_ || slot.has_value() || exhausted(); });
    if (error_) std::rethrow_exception(error_);
    if (!slot.has_value()) return std::nullopt;
    std::optional<Result> result(std::move(*slot));
    slot.reset();
    ++delivered_;
    changed_.notify_all();
    return result;
  }

  /// No more items are handed out.
  void close() {
    const std::lock_guard lock(mutex_);
    close_locked();
  }

  /// A worker cannot go on.
  void fail(std::exception_ptr error) {
    const std::lock_guard lock(mutex_);
    if (!error_) error_ = std::move(error);
    close_locked();
  }

 private:
  void close_locked() {
    closed_ = true;
    changed_.notify_all();
  }

  std::mutex mutex_;
  std::condition_variable changed_;
  std::size_t count_, taken_ = 0, delivered_ = 0;
  std::vector<std::optional<Result>> slots_;
  std::exception_ptr error_{};
  bool closed_ = false;
  const std::atomic<bool>* stop_;
};

/// Works items 0..count-1 on `threads` threads and calls `sink(item, result)` in item order from the calling thread.
/// `make_worker(thread)` runs on its thread and returns what turns an item into a Result. Setting `stop` (may be
/// nullptr) lets items under way finish and hands out no more. An exception of a worker or of the sink is passed on
/// once every thread has joined. Returns the number of items delivered.
template <class Result, class MakeWorker, class Sink>
std::size_t work_in_order(std::size_t count, int threads, const std::atomic<bool>* stop, const MakeWorker& make_worker,
                          const Sink& sink) {
  const auto wanted = static_cast<std::size_t>(thread_count(threads));
  OrderedWork<Result> work(count, 2 * wanted + 2, stop);
  const auto loop = [&](int thread) {
    try {
      auto worker = make_worker(thread);
      while (const auto item = work.take()) work.put(*item, worker(*item));
    } catch (...) {
      work.fail(std::current_exception());
    }
  };
  struct CloseAtExit {  // before the threads join, whatever happens
    OrderedWork<Result>& work;
    ~CloseAtExit() { work.close(); }
  };
  std::vector<std::jthread> pool;
  const CloseAtExit guard{work};
  for (std::size_t thread = 0; thread < std::min(wanted, count); ++thread) {
    pool.emplace_back(loop, static_cast<int>(thread));
  }
  std::size_t delivered = 0;
  while (auto result = work.next()) sink(delivered++, std::move(*result));
  return delivered;
}

}  // namespace rackwright::study
