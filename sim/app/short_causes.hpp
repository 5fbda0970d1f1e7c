#pragma once
// Why the feedings of a design are short, in kilograms by cause: some of its replications told feeding by feeding.

#include <cstdint>

#include "sim/replication/plan.hpp"
#include "sim/results/array.hpp"
#include "sim/study/piece_memory.hpp"

namespace rackwright::app {

/// Plays the first replications of the design once more, at most 16, and gives /shortage; nothing when no feeding was short or it
/// was stopped. `memory` keeps what was played.
results::Arrays short_causes(const Plan& plan, std::uint64_t random_seed, std::uint32_t replications, study::PieceMemory& memory);

}  // namespace rackwright::app
