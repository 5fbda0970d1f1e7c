#include "sim/study/crew.hpp"

#include "sim/study/threads.hpp"

#ifdef RACKWRIGHT_MPI
#include "sim/study/crew_mpi.hpp"
#endif

namespace rackwright::study {
namespace {

std::size_t work_alone(const std::vector<std::uint64_t>& blocks, const BlockWork& work) {
  std::size_t done = 0;
  work_in_order<bool>(
      blocks.size(), thread_count(work.threads), work.stop,
      [&](int) {
        return [&blocks, worker = work.make_worker()](std::size_t i) { return worker(blocks[i]); };
      },
      [&](std::size_t, bool whole) {
        if (!whole) return;
        ++done;
        if (work.progress) work.progress(done);
      });
  return done;
}

}  // namespace

#ifdef RACKWRIGHT_MPI

Crew::Crew() { mpi::join(rank_, size_); }
Crew::~Crew() { if (size_ > 1) mpi::leave(); }
std::uint64_t Crew::of_first(std::uint64_t number) const { return size_ > 1 ? mpi::of_first(number) : number; }
std::uint64_t Crew::most(std::uint64_t number) const { return size_ > 1 ? mpi::most(number) : number; }
std::size_t Crew::work(const std::vector<std::uint64_t>& blocks, const BlockWork& what) const {
  if (size_ == 1) return work_alone(blocks, what);
  if (rank_ == 0) return mpi::hand_out(blocks, what, size_);
  mpi::take_part(what);
  return 0;
}

#else

Crew::Crew() = default;
Crew::~Crew() = default;
std::uint64_t Crew::of_first(std::uint64_t number) const { return number; }
std::uint64_t Crew::most(std::uint64_t number) const { return number; }
std::size_t Crew::work(const std::vector<std::uint64_t>& blocks, const BlockWork& what) const {
  return work_alone(blocks, what);
}

#endif

}  // namespace rackwright::study
