// Rank 0 hands out blocks from its main thread, which sleeps between questions, while a thread beside it works; so all
// cores work and no rank waits for a block that another is working.
#ifdef RACKWRIGHT_MPI

#include "sim/study/crew_mpi.hpp"

#include <mpi.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <thread>

namespace rackwright::study::mpi {
namespace {

constexpr int ask_tag = 1, answer_tag = 2;
constexpr std::int64_t no_more = -1;
constexpr std::chrono::milliseconds pause{1};

/// What a worker tells with its question for the next block.
struct Ask {
  enum Kind : std::int32_t { first, did_one, stopped, failed };
  std::int32_t kind = first;
  std::array<char, 508> why{};
};

void check(int result, const char* doing) {
  if (result != MPI_SUCCESS) throw std::runtime_error(std::string("MPI could not ") + doing);
}

/// Blocks left, shared by the main thread and the workers of rank 0.
class Queue {
 public:
  Queue(const std::vector<std::uint64_t>& blocks, const std::atomic<bool>* stop) : blocks_(blocks), stop_(stop) {}

  std::optional<std::uint64_t> take() {
    const std::lock_guard guard(mutex_);
    if (closed_ || next_ == blocks_.size() || (stop_ != nullptr && stop_->load())) return std::nullopt;
    return blocks_[next_++];
  }
  void did_one() { ++done_; }
  void close(const std::string& why) {
    const std::lock_guard guard(mutex_);
    closed_ = true;
    if (why_.empty()) why_ = why;
  }
  void fail(std::exception_ptr error) {
    const std::lock_guard guard(mutex_);
    closed_ = true;
    if (!error_) error_ = std::move(error);
  }
  [[nodiscard]] std::size_t done() const { return done_.load(); }
  /// Throws what went wrong.
  void settle() const {
    if (error_) std::rethrow_exception(error_);
    if (!why_.empty()) throw std::runtime_error(why_);
  }

 private:
  const std::vector<std::uint64_t>& blocks_;
  const std::atomic<bool>* stop_;
  std::mutex mutex_{};
  std::size_t next_ = 0;
  std::atomic<std::size_t> done_{0};
  bool closed_ = false;
  std::string why_{};
  std::exception_ptr error_{};
};

int threads_of(const BlockWork& work) { return std::max(work.threads, 1); }

void work_here(const BlockWork& work, Queue& queue) {
  try {
    const auto worker = work.make_worker();
    while (const auto block = queue.take()) {
      if (!worker(*block)) return;
      queue.did_one();
    }
  } catch (...) {
    queue.fail(std::current_exception());
  }
}

/// Answers one question if there is one; true when that worker is sent home.
bool answer(Queue& queue, bool& asked) {
  int waiting = 0;
  MPI_Status status;
  check(MPI_Iprobe(MPI_ANY_SOURCE, ask_tag, MPI_COMM_WORLD, &waiting, &status), "look for questions");
  asked = waiting != 0;
  if (!asked) return false;
  Ask ask;
  check(MPI_Recv(&ask, sizeof ask, MPI_BYTE, status.MPI_SOURCE, ask_tag, MPI_COMM_WORLD, &status), "hear a question");
  if (ask.kind == Ask::did_one) queue.did_one();
  if (ask.kind == Ask::stopped) queue.close("");
  if (ask.kind == Ask::failed)
    queue.close("rank " + std::to_string(status.MPI_SOURCE) + ": " + ask.why.data());
  const auto block = queue.take();
  const std::int64_t reply = block ? static_cast<std::int64_t>(*block) : no_more;
  check(MPI_Send(&reply, 1, MPI_INT64_T, status.MPI_SOURCE, answer_tag, MPI_COMM_WORLD), "answer");
  return !block;
}

/// A worker of another rank. One thread at a time speaks.
class Asker {
 public:
  std::int64_t next(const Ask& ask) {
    const std::lock_guard guard(mutex_);
    std::int64_t block = no_more;
    check(MPI_Send(&ask, sizeof ask, MPI_BYTE, 0, ask_tag, MPI_COMM_WORLD), "ask for work");
    check(MPI_Recv(&block, 1, MPI_INT64_T, 0, answer_tag, MPI_COMM_WORLD, MPI_STATUS_IGNORE), "hear of work");
    return block;
  }

 private:
  std::mutex mutex_{};
};

void work_for_first(const BlockWork& work, Asker& asker, std::exception_ptr& error) {
  Ask ask;
  try {
    const auto worker = work.make_worker();
    for (;;) {
      const std::int64_t block = asker.next(ask);
      if (block == no_more) return;
      ask.kind = worker(static_cast<std::uint64_t>(block)) ? Ask::did_one : Ask::stopped;
    }
  } catch (const std::exception& fault) {
    error = std::current_exception();
    ask.kind = Ask::failed;
    std::strncpy(ask.why.data(), fault.what(), ask.why.size() - 1);
    while (asker.next(ask) != no_more) {}
  }
}

}  // namespace

void join(int& rank, int& size) {
  // Without a launcher MPI would start helpers of its own; nobody asked for them.
  const bool launched = std::getenv("OMPI_COMM_WORLD_SIZE") != nullptr || std::getenv("PMI_SIZE") != nullptr ||
                        std::getenv("PMIX_RANK") != nullptr;
  if (!launched) return;
  int provided = 0;
  check(MPI_Init_thread(nullptr, nullptr, MPI_THREAD_SERIALIZED, &provided), "start");
  if (provided < MPI_THREAD_SERIALIZED) throw std::runtime_error("this MPI allows no threads");
  check(MPI_Comm_rank(MPI_COMM_WORLD, &rank), "tell the rank");
  check(MPI_Comm_size(MPI_COMM_WORLD, &size), "tell the number of ranks");
  if (size == 1) MPI_Finalize();
}

void leave() { MPI_Finalize(); }

std::uint64_t of_first(std::uint64_t number) {
  check(MPI_Bcast(&number, 1, MPI_UINT64_T, 0, MPI_COMM_WORLD), "tell all");
  return number;
}

std::uint64_t most(std::uint64_t number) {
  std::uint64_t all = number;
  check(MPI_Allreduce(&number, &all, 1, MPI_UINT64_T, MPI_MAX, MPI_COMM_WORLD), "compare ranks");
  return all;
}

std::size_t hand_out(const std::vector<std::uint64_t>& blocks, const BlockWork& work, int size) {
  Queue queue(blocks, work.stop);
  std::atomic<int> here{threads_of(work)};
  int elsewhere = (size - 1) * threads_of(work);
  std::vector<std::jthread> workers;
  for (int t = 0; t < threads_of(work); ++t)
    workers.emplace_back([&] {
      work_here(work, queue);
      --here;
    });
  std::size_t told = 0;
  while (elsewhere > 0 || here.load() > 0) {
    bool asked = false;
    if (answer(queue, asked)) --elsewhere;
    if (work.progress && queue.done() != told) work.progress(told = queue.done());
    if (!asked) std::this_thread::sleep_for(pause);
  }
  workers.clear();
  queue.settle();
  return queue.done();
}

void take_part(const BlockWork& work) {
  Asker asker;
  std::vector<std::exception_ptr> errors(static_cast<std::size_t>(threads_of(work)));
  {
    std::vector<std::jthread> workers;
    for (auto& error : errors) workers.emplace_back([&] { work_for_first(work, asker, error); });
  }
  for (const auto& error : errors)
    if (error) std::rethrow_exception(error);
}

}  // namespace rackwright::study::mpi

#endif
