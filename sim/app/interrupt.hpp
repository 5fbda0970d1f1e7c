#pragma once
// Ctrl-C and a polite kill: the work under way is finished and kept.

#include <atomic>

namespace rackwright::app {

/// From now on the first SIGINT or SIGTERM only sets the flag returned; a second one ends the program at once.
const std::atomic<bool>& catch_interrupts();

}  // namespace rackwright::app
