#pragma once

#include <cstdint>

namespace rackwright::kernel {

/// Whole ticks of the clock. What one tick is worth is the user's choice; the kernel never converts.
using Ticks = std::int64_t;

}  // namespace rackwright::kernel
