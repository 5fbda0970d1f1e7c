#pragma once
// `rackwright lot SCENARIO --policies`: what trying new lots is worth a year.

#include <cstddef>

#include "sim/app/load.hpp"
#include "sim/app/options.hpp"

namespace rackwright::app {

/// Plays and prints it for one grain of the scenario; the exit code.
int lot_policies(const Loaded& loaded, std::size_t grain, const Options& options);

}  // namespace rackwright::app
