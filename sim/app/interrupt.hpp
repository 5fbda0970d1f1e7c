#pragma once
// Ctrl-C, a polite kill, a closed terminal, a used-up allowance of processor time: the work under way is finished and kept.

#include <atomic>

namespace rackwright::app {

/// From now on the first SIGINT, SIGTERM or SIGHUP, and every SIGXCPU, only sets the flag returned; a second one of the first three
/// ends the program at once. SIGHUP stays ignored where it was.
const std::atomic<bool>& catch_interrupts();

}  // namespace rackwright::app
