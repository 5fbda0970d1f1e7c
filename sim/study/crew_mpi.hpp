#pragma once
// The calls of a crew of several ranks. Only where the program is built with MPI.

#include <cstddef>
#include <cstdint>
#include <vector>

#include "sim/study/crew.hpp"

namespace rackwright::study::mpi {

/// Starts MPI when the process was launched by it; else leaves rank 0 of 1.
void join(int& rank, int& size);
void leave();
std::uint64_t of_first(std::uint64_t number);
std::uint64_t most(std::uint64_t number);
/// Rank 0: works blocks itself and gives the others theirs when they ask.
std::size_t hand_out(const std::vector<std::uint64_t>& blocks, const BlockWork& work, int size);
/// Another rank: asks rank 0 for blocks until there are none.
void take_part(const BlockWork& work);

}  // namespace rackwright::study::mpi
