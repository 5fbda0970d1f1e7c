#pragma once
// Who works a study: the threads of one process, or the ranks of an MPI run where the program was built with MPI.

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace rackwright::study {

/// Blocks of work that do not depend on one another.
struct BlockWork {
  /// Makes what works one block, on the thread that will use it; working gives false when it was stopped before the
  /// end, and throws when it cannot go on.
  std::function<std::function<bool(std::uint64_t block)>()> make_worker{};
  int threads = 0;                                        ///< 0: all cores; one a rank under MPI
  const std::atomic<bool>* stop = nullptr;                ///< set to hand out no more
  std::function<void(std::size_t done)> progress{};       ///< called where rank() is 0
};

/// One of these lives while the program runs its study.
class Crew {
 public:
  /// Joins the MPI run that started this process, if one did; otherwise a crew of one.
  Crew();
  ~Crew();
  Crew(const Crew&) = delete;
  Crew& operator=(const Crew&) = delete;

  [[nodiscard]] int rank() const { return rank_; }
  [[nodiscard]] int size() const { return size_; }
  /// Rank 0's number, on every rank; waits for all.
  [[nodiscard]] std::uint64_t of_first(std::uint64_t number) const;
  /// The largest of all ranks' numbers, on every rank; waits for all.
  [[nodiscard]] std::uint64_t most(std::uint64_t number) const;

  /// Works the blocks; which rank or thread takes which is settled as they become free. `blocks` counts on rank 0 only.
  /// Returns on rank 0 the number done. What a worker threw is thrown on; rank 0 also throws what another rank's did,
  /// as a std::runtime_error with its words.
  std::size_t work(const std::vector<std::uint64_t>& blocks, const BlockWork& work) const;

 private:
  int rank_ = 0, size_ = 1;
};

}  // namespace rackwright::study
