#pragma once
// simulate --against: changes played on the same luck as the scenario as it is.

#include <string>
#include <vector>

#include "sim/app/load.hpp"
#include "sim/app/options.hpp"
#include "sim/results/array.hpp"
#include "sim/study/against.hpp"

namespace rackwright::app {

/// One --against, worked out.
struct Change {
  std::string typed{};
  study::Settings settings{};
  Scenario scenario{};
};

/// Throws BadInput with every problem of every change.
std::vector<Change> read_changes(const Loaded& loaded, const Options& options);

/// Plays what `pieces` does not know of them and gives /against; nothing when it was stopped before the end.
results::Arrays against_arrays(const Loaded& loaded, const Options& options, const std::vector<Change>& changes,
                              study::PieceMemory& pieces);

}  // namespace rackwright::app
