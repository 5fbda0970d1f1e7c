#pragma once
// What this program was built from and with, fixed when it was configured.

#include <string>

#include "sim/results/header.hpp"

namespace rackwright::results {

std::string program_version();
/// Fills program_version, commit, compiler, flags and dependencies.
void add_build_info(Header& header);

}  // namespace rackwright::results
