#pragma once
// The design a sizing recommends, played once more with its days kept: the search itself keeps totals only.

#include "sim/app/options.hpp"
#include "sim/app/progress.hpp"
#include "sim/results/parts.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/scenario.hpp"
#include "sim/study/piece_memory.hpp"
#include "sim/study/size.hpp"

namespace rackwright::app {

/// Where finished work is kept: replications of the design, and pieces of what is told of it.
struct KeptBefore {
  results::Parts& parts;
  study::PieceMemory& pieces;
};

/// Plays the recommended design, else the nearest miss, on the luck the search gave it and at least 200 replications,
/// hands them to the writer and returns /summary, /daily and /assumption. Empty when there is no design to show or it was
/// stopped.
results::Arrays play_shown(const Scenario& scenario, const study::SizeResult& found, const Options& options,
                           results::Writer& writer, const KeptBefore& before);

}  // namespace rackwright::app
